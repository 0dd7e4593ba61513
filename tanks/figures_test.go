package tanks

import (
	"math"
	"strings"
	"testing"

	"floatarc/tanks/quantity"
)

func TestFigureOf(t *testing.T) {
	for _, c := range []struct {
		rig, key, trial string
		set             []string
		dim             *quantity.Dimension
		given           bool
		value           float64
	}{
		{Demo, "sender.arm", "200", nil, quantity.Length, true, 230},
		{Demo, "sender.arm", "9000", nil, quantity.Length, true, 230}, // refused as a rig, but a figure
		{Demo, "sender.arm", "8 in", []string{"sender.arm=9 in"}, quantity.Length, true, 228.6},
		{Demo, "sender.pivot[2]", "180", nil, quantity.Length, true, 185},
		{Demo, "tank.body[0].length", "600", nil, quantity.Length, true, 640},
		{Demo, "conditioner.points", "4", nil, nil, true, 5},
		{Demo, "conditioner.points", "0", nil, nil, true, 5},
		{Demo, "mount.nose_up", "3", nil, quantity.Angle, false, math.NaN()},
		{Demo, "use.reserve", "40 min", nil, quantity.Duration, true, 0.75},
		{Demo, "use.reserve", "5 L", nil, quantity.Volume, true, math.NaN()},
		{Demo, "gauge.empty", "1", []string{"gauge.empty=sender"}, quantity.Volume, true, math.NaN()},
		{Demo, "use.consumption", "9 L/h", nil, quantity.PerTime, true, 9},
	} {
		f, err := FigureOf(c.rig, c.set, c.key, c.trial)
		if err != nil {
			t.Errorf("%s: %v", c.key, err)
			continue
		}
		if f.Dimension != c.dim || f.Given != c.given || f.Value != c.value && !(math.IsNaN(f.Value) && math.IsNaN(c.value)) {
			t.Errorf("%s: %+v", c.key, *f)
		}
	}
}

func TestFigureRefusals(t *testing.T) {
	for key, says := range map[string]string{
		"sender.amr":          `sender.amr: not a known key, expected perhaps "arm"`,
		"sendr.arm":           `sendr: not a known key, expected perhaps "sender"`,
		"fuel.kind":           `fuel.kind: "diesel", expected the key of a number`,
		"sender.pivot":        "sender.pivot: a list of 3, expected the key of a number",
		"sender":              "sender: a table, expected the key of a number",
		"tank.body[9].length": "there is no element [9]",
		"sender arm":          "expected key=value such as",
		"format":              "format: ",
	} {
		if _, err := FigureOf(Demo, nil, key, "1"); err == nil || !strings.Contains(err.Error(), says) {
			t.Errorf("%s: %v, expected a word of %q", key, err, says)
		}
	}
}

// TestAssign: a figure that is given its own value is the rig that it was.
func TestAssign(t *testing.T) {
	for _, key := range []string{"sender.arm", "conditioner.points", "use.reserve", "use.consumption", "wiring.size", "sender.resistance.tolerance", "use.grade"} {
		trial := map[string]string{"wiring.size": "16 AWG", "use.reserve": "30 min", "use.consumption": "8 L/h"}[key]
		if trial == "" {
			trial = "3"
		}
		f, err := FigureOf(Demo, nil, key, trial)
		if err != nil {
			t.Fatal(err)
		}
		if _, err := Load(Demo, []string{f.Assign(f.Value)}); err != nil {
			t.Errorf("%s: %v", key, err)
		}
	}
}
