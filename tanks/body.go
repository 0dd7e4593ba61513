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
	Measured  bool     // a dip table, without a shape
	Notes     []string // what was done to a drawing to make a solid of it
	At        r3.Vec   // of its least corner, before it is turned
	Solid     geometry.Solid

	size func(mm sizer) string
}

// TakesWall tells whether sizes of such a body can be outside sizes.
func (b Body) TakesWall() bool {
	return b.Shape != "mesh" && b.Shape != "stations" && b.Shape != "dip"
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

// A shapeReader reads the sizes of one shape, and returns the solid as it stands
// with the least corner of its box at the origin; nil after an error.
type shapeReader func(t *table, b *Body, along geometry.Axis) geometry.Solid

// shapes that a file can name.
var shapes = []struct {
	name string
	read shapeReader
}{
	{"box", readBox}, {"cylinder", readCylinder}, {"oval", readOval}, {"cone", readCone}, {"sphere", readSphere}, {"ellipsoid", readEllipsoid},
	{"outline", readOutline}, {"stations", readStations}, {"mesh", readMesh}, {"dip", readDip},
}

func shapeNames() []string {
	var names []string
	for _, s := range shapes {
		names = append(names, s.name)
	}
	return names
}

var axes = map[string]geometry.Axis{"x": geometry.X, "y": geometry.Y, "z": geometry.Z}

// readBody reads one [[tank.body]].
func readBody(t *table, number int) Body {
	shape, ok := t.text("shape")
	if !ok {
		t.missing("shape", oneOf(shapeNames()))
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

	var read shapeReader
	for _, known := range shapes {
		if known.name == shape {
			read = known.read
		}
	}
	if read == nil {
		if ok {
			t.fail("shape", "%q, expected %s", shape, oneOf(shapeNames()))
		}
		return b
	}
	solid := read(t, &b, along)
	if b.Measured && turn != nil {
		t.fail("turn", "given for a dip table, expected none: it has no shape to turn")
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

func axisName(a geometry.Axis) string { return [...]string{"x", "y", "z"}[a] }
