package tanks

import (
	"math"

	"floatarc/geometry"
	"floatarc/tanks/quantity"
)

var headings = map[string]float64{"forward": 0, "left": 90, "port": 90, "aft": 180, "right": -90, "starboard": -90}

// heading reads a plan direction in degrees or in words.
func heading(t *table) float64 {
	if word, ok := t.values["heading"].(string); ok {
		if degrees, known := headings[word]; known {
			t.has("heading")
			return degrees
		}
		if _, err := quantity.Angle.Parse(word); err != nil {
			t.fail("heading", "%q, expected forward, left, aft or right, or degrees from forward towards left", word)
		}
	}
	degrees := t.or("heading", quantity.Angle, 0)
	if math.Abs(degrees) > 360 {
		t.fail("heading", "%g°, expected at most a whole turn", degrees)
	}
	return degrees
}

// readMount reads [mount].
func readMount(t *table) geometry.Mount {
	var m geometry.Mount
	for _, a := range []struct {
		name string
		into *float64
	}{{"nose_up", &m.NoseUp}, {"left_up", &m.LeftUp}} {
		*a.into = t.or(a.name, quantity.Angle, 0)
		if math.Abs(*a.into) >= 90 {
			t.fail(a.name, "%g°, expected less than a right angle", *a.into)
		}
	}
	m.Heading = heading(t)
	t.done()
	return m
}
