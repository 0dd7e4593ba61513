package geometry

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// An Oval describes a tank of elliptical section with flat ends. It stands with
// the least corner of its bounding box at the origin of (u, v, w).
type Oval struct {
	Width, Height, Length float64 // along u, v, w, mm
	Wall                  float64 // mm; above 0 the sizes are outside sizes
}

// Solid returns the inside of the oval, or a [DimensionError]. A wall makes the
// ellipse smaller by the wall on both axes.
func (o Oval) Solid() (Solid, error) {
	for _, d := range []struct {
		name  string
		value float64
	}{{"width", o.Width}, {"height", o.Height}, {"length", o.Length}} {
		if err := positive(d.name, d.value); err != nil {
			return nil, err
		}
		if err := wallFits(o.Wall, d.name, d.value); err != nil {
			return nil, err
		}
	}
	disc, err := NewPrism(Circle(1), o.Length-2*o.Wall)
	if err != nil {
		return nil, err
	}
	f := Frame{Origin: r3.Vec{X: o.Width / 2, Y: o.Height / 2, Z: o.Wall}, U: r3.Vec{X: 1}, V: r3.Vec{Y: 1}, W: r3.Vec{Z: 1}}
	a, b := o.Width/2-o.Wall, o.Height/2-o.Wall
	return oval{Solid: Place(disc, f.Scaled(a, b, 1)), centre: f.Origin, a: a, b: b, length: disc.Length}, nil
}

// An oval is a stretched disc, swept, that knows its clearance.
type oval struct {
	Solid
	centre       r3.Vec // of the end of smaller w
	a, b, length float64
}

func (o oval) Clearance(p r3.Vec) float64 {
	d := r3.Sub(p, o.centre)
	// The section's edge is an arc over a half-plane, mirrored.
	side := ellipseArc(0, 0, o.a, o.b, 0, math.Pi).distance(d.X, math.Abs(d.Y))
	end := math.Min(math.Abs(d.Z), math.Abs(o.length-d.Z))
	inside := d.X*d.X/(o.a*o.a)+d.Y*d.Y/(o.b*o.b) <= 1
	return sweptClearance(side, end, inside, d.Z >= 0 && d.Z <= o.length)
}

// Sweep returns the inside of an outline pushed along w for a length; a wall
// above 0 makes the sizes outside sizes, and comes off in parallel.
func Sweep(corners []Corner, length, wall float64) (Solid, error) {
	if err := positive("length", length); err != nil {
		return nil, err
	}
	if err := wallFits(wall, "length", length); err != nil {
		return nil, err
	}
	if _, err := NewOutline(corners); err != nil {
		return nil, err
	}
	outline, err := insetOutline(corners, wall)
	if err != nil {
		return nil, err
	}
	prism, err := NewPrism(outline, length-2*wall)
	if err != nil {
		return nil, err
	}
	f := Across(Z, r3.Vec{Z: wall})
	return Place(prism, f), nil
}
