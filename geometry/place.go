package geometry

import (
	"math"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/spatial/r3"
)

// A Frame places the axes u, v, w of a shape in the tank frame. Their lengths
// stretch the shape; axes that are not at right angles to each other shear it.
// They must not lie in one plane.
type Frame struct {
	Origin  r3.Vec
	U, V, W r3.Vec
}

// An Axis is the direction along which a section is swept.
type Axis int

// The axes of the tank frame.
const (
	X Axis = iota
	Y
	Z
)

// Across returns the frame at an origin whose w points along an axis, with u
// and v the other two in the order of an outline: (y, z) for x, (x, z) for y,
// (x, y) for z.
func Across(along Axis, origin r3.Vec) Frame {
	x, y, z := r3.Vec{X: 1}, r3.Vec{Y: 1}, r3.Vec{Z: 1}
	switch along {
	case Y:
		return Frame{Origin: origin, U: x, V: z, W: y}
	case Z:
		return Frame{Origin: origin, U: x, V: y, W: z}
	}
	return Frame{Origin: origin, U: y, V: z, W: x}
}

// Turned returns the frame that stands at origin and is turned about it,
// first about x, then y, then z, by degrees.
func Turned(origin r3.Vec, x, y, z float64) Frame {
	turn := func(v r3.Vec) r3.Vec { return turnZ(turnY(turnX(v, x), y), z) }
	return Frame{Origin: origin, U: turn(r3.Vec{X: 1}), V: turn(r3.Vec{Y: 1}), W: turn(r3.Vec{Z: 1})}
}

// Scaled returns the frame with its axes stretched.
func (f Frame) Scaled(u, v, w float64) Frame {
	f.U, f.V, f.W = r3.Scale(u, f.U), r3.Scale(v, f.V), r3.Scale(w, f.W)
	return f
}

// Place puts a solid into a frame.
func Place(s Solid, f Frame) Solid {
	volume := r3.Dot(f.U, r3.Cross(f.V, f.W)) // signed, of the image of a unit cube
	return placed{
		solid: s, frame: f, stretch: math.Abs(volume), least: f.leastStretch(),
		u: r3.Scale(1/volume, r3.Cross(f.V, f.W)),
		v: r3.Scale(1/volume, r3.Cross(f.W, f.U)),
		w: r3.Scale(1/volume, r3.Cross(f.U, f.V)),
	}
}

type placed struct {
	solid   Solid
	frame   Frame
	stretch float64 // volume of the image of a unit cube
	least   float64 // stretch of the direction that is stretched least
	u, v, w r3.Vec  // reciprocal axes: u·(p - origin) is the frame's own u of p
}

// normal returns n seen from the frame's own axes: n·p = n·origin + normal·q.
func (f Frame) normal(n r3.Vec) r3.Vec {
	return r3.Vec{X: r3.Dot(n, f.U), Y: r3.Dot(n, f.V), Z: r3.Dot(n, f.W)}
}

func (p placed) Extent(n r3.Vec) (lo, hi float64) {
	lo, hi = p.solid.Extent(p.frame.normal(n))
	base := r3.Dot(n, p.frame.Origin)
	return lo + base, hi + base
}

func (p placed) Contains(q r3.Vec) bool {
	return p.solid.Contains(p.own(q))
}

// own returns a point in the frame's own axes.
func (p placed) own(q r3.Vec) r3.Vec {
	d := r3.Sub(q, p.frame.Origin)
	return r3.Vec{X: r3.Dot(d, p.u), Y: r3.Dot(d, p.v), Z: r3.Dot(d, p.w)}
}

// Clearance implements [Solid]. For a frame that stretches or shears it is a
// lower bound: the distance in the frame's own axes times its least stretch.
func (p placed) Clearance(q r3.Vec) float64 {
	return p.least * p.solid.Clearance(p.own(q))
}

// leastStretch returns the factor by which the frame stretches the direction
// that it stretches least.
func (f Frame) leastStretch() float64 {
	if whole := r3.Norm(f.U) + r3.Norm(f.V) + r3.Norm(f.W); math.IsNaN(whole) || math.IsInf(whole, 0) {
		return 0
	}
	var svd mat.SVD
	if !svd.Factorize(mat.NewDense(3, 3, []float64{f.U.X, f.V.X, f.W.X, f.U.Y, f.V.Y, f.W.Y, f.U.Z, f.V.Z, f.W.Z}), mat.SVDNone) {
		return 0
	}
	least := svd.Values(nil)[2]
	if math.Abs(least-1) < 1e-12 && math.Abs(svd.Cond()-1) < 1e-12 {
		return 1
	}
	return least
}

func (p placed) Cut(n r3.Vec) Cut {
	return placedCut{placed: p, cut: p.solid.Cut(p.frame.normal(n)), base: r3.Dot(n, p.frame.Origin)}
}

type placedCut struct {
	placed
	cut  Cut
	base float64 // level of the frame's origin
}

func (c placedCut) Volume(h float64) float64  { return c.stretch * c.cut.Volume(h-c.base) }
func (c placedCut) Surface(h float64) float64 { return c.stretch * c.cut.Surface(h-c.base) }

// FreeSurface implements [Cut].
func (c placedCut) FreeSurface(h float64) FreeSurface {
	return c.cut.FreeSurface(h - c.base).In(c.frame).Times(c.stretch)
}

func (c placedCut) Error() float64 { return c.stretch * c.cut.Error() }

// Level implements [Inverse]; NaN where the solid does not know the level
// itself.
func (c placedCut) Level(volume float64) float64 {
	if inverse, ok := c.cut.(Inverse); ok {
		return c.base + inverse.Level(volume/c.stretch)
	}
	return math.NaN()
}

func (c placedCut) Moment(h float64) r3.Vec {
	f := c.frame
	m := r3.Scale(c.cut.Volume(h-c.base), f.Origin)
	q := c.cut.Moment(h - c.base)
	m = r3.Add(m, r3.Scale(q.X, f.U))
	m = r3.Add(m, r3.Scale(q.Y, f.V))
	m = r3.Add(m, r3.Scale(q.Z, f.W))
	return r3.Scale(c.stretch, m)
}
