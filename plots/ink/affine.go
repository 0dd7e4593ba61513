package ink

import (
	"math"

	"gonum.org/v1/plot/vg"
)

// An affine is a map of the plane: x' = a x + c y + e, y' = b x + d y + f.
type affine struct{ a, b, c, d, e, f float64 }

var identity = affine{a: 1, d: 1}

// then returns the map that does m first, within what this one does.
func (t affine) then(m affine) affine {
	return affine{
		a: t.a*m.a + t.c*m.b, b: t.b*m.a + t.d*m.b,
		c: t.a*m.c + t.c*m.d, d: t.b*m.c + t.d*m.d,
		e: t.a*m.e + t.c*m.f + t.e, f: t.b*m.e + t.d*m.f + t.f,
	}
}

func (t affine) of(p vg.Point) vg.Point {
	x, y := float64(p.X), float64(p.Y)
	return vg.Point{X: vg.Length(t.a*x + t.c*y + t.e), Y: vg.Length(t.b*x + t.d*y + t.f)}
}

// turn is the angle, radians, by which the map turns the x axis.
func (t affine) turn() float64 { return math.Atan2(t.b, t.a) }

// scale is by what factor lengths grow.
func (t affine) scale() float64 { return math.Sqrt(math.Abs(t.a*t.d - t.b*t.c)) }

// A pose is the part of a canvas that transforms what is drawn, with the states that
// it was pushed from.
type pose struct {
	now   affine
	below []affine
}

func (p *pose) Rotate(rad float64) {
	sin, cos := math.Sincos(rad)
	p.now = p.now.then(affine{a: cos, b: sin, c: -sin, d: cos})
}

func (p *pose) Translate(by vg.Point) {
	p.now = p.now.then(affine{a: 1, d: 1, e: float64(by.X), f: float64(by.Y)})
}

func (p *pose) Scale(x, y float64) { p.now = p.now.then(affine{a: x, d: y}) }

func (p *pose) push() { p.below = append(p.below, p.now) }

func (p *pose) pop() {
	p.now = p.below[len(p.below)-1]
	p.below = p.below[:len(p.below)-1]
}
