package tanks

import (
	"errors"
	"fmt"
	"math"
	"strings"

	"gonum.org/v1/gonum/spatial/r3"

	"floatarc/geometry"
	"floatarc/tanks/quantity"
)

// A Body is what a file says of one body, for reading back; the solid itself is
// in the tank's composite.
type Body struct {
	Name      string // its own, or "body 1"
	Shape     string
	Wall      float64
	Around    bool // the diameter was given as a tape's girth
	Displaces bool
	At        r3.Vec // of its least corner, before it is turned
	Solid     geometry.Solid

	size func(mm sizer) string
}

// A sizer writes a length with its unit.
type sizer func(mm float64) string

// Size tells the sizes of the body in words, as the file gives them.
func (b Body) Size(length func(mm float64) string) string {
	if b.size == nil {
		return ""
	}
	return b.size(length)
}

// shapes that a file can name.
var shapes = []string{"box", "cylinder", "oval", "outline"}

var axes = map[string]geometry.Axis{"x": geometry.X, "y": geometry.Y, "z": geometry.Z}

// readBody reads one [[tank.body]].
func readBody(t *table, number int) Body {
	shape, ok := t.text("shape")
	if !ok {
		t.missing("shape", oneOf(shapes))
	}
	b := Body{Shape: shape, Displaces: t.flag("displace")}
	b.Name, _ = t.text("name")
	if b.Name == "" {
		b.Name = fmt.Sprintf("body %d", number+1)
	}
	along := axes[t.choice("along", "x", "y", "z")]
	b.Wall = t.or("wall", quantity.Length, 0)
	t.atLeast("wall", b.Wall, 0, "mm")
	if b.Displaces && b.Wall > 0 {
		t.fail("wall", "given for a body that displaces fuel, expected none: fuel touches its outside")
	}
	at := point(t, "at", r3.Vec{})
	turn, _ := t.vector("turn", 3, quantity.Angle)
	for _, degrees := range turn {
		if math.Abs(degrees) > 360 {
			t.fail("turn", "%g°, expected at most a whole turn", degrees)
		}
	}

	var solid geometry.Solid
	switch shape {
	case "box":
		solid = readBox(t, &b, along)
	case "cylinder":
		solid = readCylinder(t, &b, along)
	case "oval":
		solid = readOval(t, &b, along)
	case "outline":
		solid = readOutline(t, &b, along)
	default:
		if ok {
			t.fail("shape", "%q, expected %s", shape, oneOf(shapes))
		}
	}
	t.done()
	if t.doc.err != nil || solid == nil {
		return b
	}
	frame := geometry.Turned(at, 0, 0, 0)
	if turn != nil {
		frame = geometry.Turned(at, turn[0], turn[1], turn[2])
	}
	b.At, b.Solid = at, geometry.Place(solid, frame)
	return b
}

// point reads a point of the tank frame.
func point(t *table, name string, fallback r3.Vec) r3.Vec {
	v, ok := t.vector(name, 3, quantity.Length)
	if !ok {
		return fallback
	}
	return r3.Vec{X: v[0], Y: v[1], Z: v[2]}
}

// shaped attaches a geometry error to the key it is about.
func shaped(t *table, solid geometry.Solid, err error) geometry.Solid {
	var d *geometry.DimensionError
	switch {
	case err == nil:
		return solid
	case errors.As(err, &d):
		refuse(t, d)
	default:
		t.fail("shape", "%v", err)
	}
	return nil
}

func refuse(t *table, d *geometry.DimensionError) {
	name := d.Dimension
	if _, dimension, found := strings.Cut(name, "_head."); found && t.has("heads") {
		name = "heads." + dimension
	}
	t.fail(name, "%s", d.Reason)
}

func readBox(t *table, b *Body, along geometry.Axis) geometry.Solid {
	box := geometry.Box{
		Length: t.need("length", quantity.Length), Width: t.need("width", quantity.Length), Height: t.need("height", quantity.Length),
		Radius: t.or("radius", quantity.Length, 0), Along: along, Wall: b.Wall,
	}
	if t.doc.err != nil {
		return nil
	}
	b.size = func(mm sizer) string {
		words := fmt.Sprintf("%s long (x), %s wide (y), %s high (z)", mm(box.Length), mm(box.Width), mm(box.Height))
		if box.Radius > 0 {
			words += fmt.Sprintf(", edges along %s rounded by %s", axisName(along), mm(box.Radius))
		}
		return words
	}
	solid, err := box.Solid()
	return shaped(t, solid, err)
}

func axisName(a geometry.Axis) string { return [...]string{"x", "y", "z"}[a] }

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
	f := geometry.Across(along, r3.Vec{})
	f.Origin = r3.Scale(c.Diameter/2, r3.Add(f.U, f.V))
	return geometry.Place(solid, f)
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

func readOutline(t *table, b *Body, along geometry.Axis) geometry.Solid {
	if !t.has("points") {
		t.missing("points", "a list of corners such as [[0, 0], [600, 0], [600, 300, 40], [0, 300]]")
	}
	length := t.need("length", quantity.Length)
	var corners []geometry.Corner
	for _, p := range t.rows("points", 2, quantity.Length, quantity.Length, quantity.Length) {
		corners = append(corners, geometry.Corner{U: p[0], V: p[1], Fillet: p[2]})
	}
	if t.doc.err != nil {
		return nil
	}
	b.size = func(mm sizer) string {
		return fmt.Sprintf("%d corners, %s along %s", len(corners), mm(length), axisName(along))
	}
	solid, err := geometry.Sweep(corners, length, b.Wall)
	if solid = shaped(t, solid, err); solid == nil {
		return nil
	}
	return geometry.Place(solid, geometry.Across(along, r3.Vec{}))
}
