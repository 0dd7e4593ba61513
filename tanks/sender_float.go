package tanks

import (
	"math"

	"floatarc/float"
	"floatarc/tanks/quantity"
)

// armKeys tells that a float hangs on an arm, with the keys that go with it.
const armKeys = true

// readBuoy reads [sender.float] in fuel of a density, kg/m³; length is that of the
// arm, mm.
func readBuoy(t *table, density, length float64, onArm bool) *float.Buoy {
	b := &float.Buoy{Density: density}
	if !t.has("shape") {
		t.missing("shape", `"sphere", "cylinder" or "upright"`)
	}
	switch t.choice("shape", "cylinder", "sphere", "upright") {
	case "sphere":
		b.Shape = float.Sphere{Diameter: t.positive("diameter", quantity.Length)}
	case "cylinder":
		b.Shape = float.Cylinder{Diameter: t.positive("diameter", quantity.Length), Length: t.positive("length", quantity.Length)}
	case "upright":
		upright := float.Upright{Height: t.positive("height", quantity.Length)}
		if t.has("diameter") {
			d := t.positive("diameter", quantity.Length)
			upright.Area = math.Pi / 4 * d * d
		} else {
			upright.Area = t.positive("area", quantity.Area)
		}
		b.Shape = upright
	}
	if t.doc.err != nil {
		return b
	}
	switch mass, draft := t.has("mass"), t.has("draft"); {
	case mass && draft:
		t.fail("draft", "given as well as mass, expected one of the two")
	case draft:
		depth := t.positive("draft", quantity.Length)
		b.Load = float.LoadOf(b.Shape, depth, density)
	default:
		if !mass {
			t.missing("mass", "a mass such as "+quantity.Mass.Hint+", or draft = how deep it sits in fuel")
		}
		b.Load = t.positive("mass", quantity.Mass)
	}
	if onArm {
		arm := t.or("arm_mass", quantity.Mass, 0)
		t.atLeast("arm_mass", arm, 0, "g")
		b.Load += arm / 2
		b.Drag = readFriction(t, length)
	}
	t.done()
	return b
}

// readFriction reads what drags at the axle: a torque, or the weight that just
// moves the float when it is hung there and the arm lies level.
func readFriction(t *table, length float64) float64 {
	v, ok := t.get("friction")
	if !ok {
		return 0
	}
	q, dim := t.doc.measure(t.key("friction"), v, quantity.Torque, quantity.Mass)
	t.atLeast("friction", q.Value, 0, dim.Bare)
	if dim == quantity.Mass {
		return float.DragOf(q.Value, length)
	}
	return q.Value
}
