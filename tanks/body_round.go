package tanks

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"floatarc/geometry"
	"floatarc/tanks/quantity"
)

// diameter reads a diameter, or a tape's girth around the body.
func diameter(t *table, b *Body) float64 {
	around, girth := t.measure("around", quantity.Length)
	if !girth {
		if !t.has("diameter") {
			t.missing("diameter", "a length such as 508, or around = a tape's girth")
		}
		return t.or("diameter", quantity.Length, 0)
	}
	if t.has("diameter") {
		t.fail("around", "given as well as diameter, expected one of the two")
	}
	b.Around = true
	return around.Value / math.Pi
}

func readCylinder(t *table, b *Body, along geometry.Axis) geometry.Solid {
	c := geometry.Cylinder{Diameter: diameter(t, b), Wall: b.Wall}
	length, straight := t.measure("length", quantity.Length)
	overall, over := t.measure("overall", quantity.Length)
	c.Length, c.Overall = length.Value, overall.Value
	switch {
	case straight && over:
		t.fail("overall", "given as well as length, expected one of the two")
	case !straight && !over:
		t.missing("length", "the length of the straight part such as 914, or overall = the length over the heads")
	case over && c.Overall <= 0:
		t.fail("overall", "%g mm, expected a length above 0", c.Overall)
	case straight && c.Length < 0:
		t.fail("length", "%g mm, expected a length of 0 or more", c.Length)
	}
	c.Low, c.High = readHeads(t)
	if t.doc.err != nil {
		return nil
	}
	b.size = func(mm sizer) string { return cylinderWords(c, along, mm) }
	solid, err := c.Solid()
	if solid = shaped(t, solid, err); solid == nil {
		return nil
	}
	return centred(solid, along, c.Diameter/2)
}

func cylinderWords(c geometry.Cylinder, along geometry.Axis, mm sizer) string {
	words := "diameter " + mm(c.Diameter)
	switch flat := (geometry.Head{}); {
	case c.Low == flat && c.High == flat:
		words += ", length " + mm(max(c.Length, c.Overall))
	case c.Overall > 0:
		words += ", over the heads " + mm(c.Overall)
	default:
		words += ", straight part " + mm(c.Length)
	}
	return words + " along " + axisName(along) + headWords(c.Low, c.High)
}

var headNames = []string{"flat", "cone", "ellipsoidal", "hemispherical", "torispherical", "spherical"}

// readHeads reads heads, or low_head and high_head.
func readHeads(t *table) (low, high geometry.Head) {
	if t.has("heads") {
		if t.has("low_head") || t.has("high_head") {
			t.fail("heads", "given as well as low_head or high_head, expected one or the other")
		}
		h := readHead(t.table("heads"))
		return h, h
	}
	if t.has("low_head") {
		low = readHead(t.table("low_head"))
	}
	if t.has("high_head") {
		high = readHead(t.table("high_head"))
	}
	return low, high
}

func readHead(t *table) geometry.Head {
	if !t.has("shape") {
		t.missing("shape", oneOf(headNames))
	}
	h := geometry.Head{}
	shape := t.choice("shape", headNames...)
	for i, name := range headNames {
		if name == shape {
			h.Kind = geometry.HeadKind(i)
		}
	}
	if h.Kind != geometry.Flat {
		depth, given := t.measure("depth", quantity.Length)
		h.Depth = depth.Value
		if given && h.Depth == 0 {
			t.fail("depth", "0 mm, expected a depth other than 0 (or shape = \"flat\")")
		}
		if !given && (h.Kind == geometry.Cone || h.Kind == geometry.Spherical) {
			t.missing("depth", "a length such as 60: a "+shape+" head has no usual depth")
		}
	}
	if h.Kind == geometry.Torispherical {
		for _, radius := range []struct {
			name string
			into *float64
		}{{"dish_radius", &h.DishRadius}, {"knuckle_radius", &h.KnuckleRadius}} {
			if t.has(radius.name) {
				*radius.into = t.positive(radius.name, quantity.Length)
			}
		}
	}
	t.done()
	return h
}

func headWords(low, high geometry.Head) string {
	name := func(h geometry.Head) string {
		if h.Depth < 0 {
			return headNames[h.Kind] + " (bulging inward)"
		}
		return headNames[h.Kind]
	}
	if low == high {
		return ", " + name(low) + " heads"
	}
	return fmt.Sprintf(", %s low head, %s high head", name(low), name(high))
}

func readOval(t *table, b *Body, along geometry.Axis) geometry.Solid {
	o := geometry.Oval{
		Width: t.need("width", quantity.Length), Height: t.need("height", quantity.Length), Length: t.need("length", quantity.Length),
		Wall: b.Wall,
	}
	if t.doc.err != nil {
		return nil
	}
	b.size = func(mm sizer) string {
		return fmt.Sprintf("%s by %s across, %s along %s", mm(o.Width), mm(o.Height), mm(o.Length), axisName(along))
	}
	solid, err := o.Solid()
	if solid = shaped(t, solid, err); solid == nil {
		return nil
	}
	return geometry.Place(solid, geometry.Across(along, r3.Vec{}))
}

func readCone(t *table, b *Body, along geometry.Axis) geometry.Solid {
	low, high := t.need("low_diameter", quantity.Length), t.need("high_diameter", quantity.Length)
	length := t.need("length", quantity.Length)
	if t.doc.err != nil {
		return nil
	}
	b.size = func(mm sizer) string {
		return fmt.Sprintf("from diameter %s at the low end to %s at the high end, %s along %s", mm(low), mm(high), mm(length), axisName(along))
	}
	solid, err := geometry.Frustum(low, high, length, b.Wall)
	if solid = shaped(t, solid, err); solid == nil {
		return nil
	}
	return centred(solid, along, max(low, high)/2)
}

// centred places a solid of revolution, its axis through the origin, with the
// least corner of its box at the origin.
func centred(solid geometry.Solid, along geometry.Axis, radius float64) geometry.Solid {
	f := geometry.Across(along, r3.Vec{})
	f.Origin = r3.Scale(radius, r3.Add(f.U, f.V))
	return geometry.Place(solid, f)
}

func readSphere(t *table, b *Body, _ geometry.Axis) geometry.Solid {
	diameter := t.need("diameter", quantity.Length)
	if t.doc.err != nil {
		return nil
	}
	b.size = func(mm sizer) string { return "diameter " + mm(diameter) }
	solid, err := geometry.Sphere(diameter, b.Wall)
	return shaped(t, solid, err)
}

func readEllipsoid(t *table, b *Body, _ geometry.Axis) geometry.Solid {
	length, width, height := t.need("length", quantity.Length), t.need("width", quantity.Length), t.need("height", quantity.Length)
	if t.doc.err != nil {
		return nil
	}
	b.size = func(mm sizer) string {
		return fmt.Sprintf("%s long (x), %s wide (y), %s high (z)", mm(length), mm(width), mm(height))
	}
	solid, err := geometry.Ellipsoid(length, width, height, b.Wall)
	return shaped(t, solid, err)
}
