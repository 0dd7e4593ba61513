package geometry

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// A FreeSurface tells about the surface of the fuel at one level: the integrals
// of 1, p and p pᵀ over it, p being the place in space. For levels told along a
// vector of another length than 1 they are divided by that length, as the rate
// of the volume is.
type FreeSurface struct {
	Area   float64   // mm²
	First  r3.Vec    // mm³
	Second Symmetric // mm⁴
}

// Symmetric is a symmetric matrix.
type Symmetric struct{ XX, YY, ZZ, XY, YZ, ZX float64 }

// Apply returns the matrix times a vector.
func (s Symmetric) Apply(v r3.Vec) r3.Vec {
	return r3.Vec{
		X: s.XX*v.X + s.XY*v.Y + s.ZX*v.Z,
		Y: s.XY*v.X + s.YY*v.Y + s.YZ*v.Z,
		Z: s.ZX*v.X + s.YZ*v.Y + s.ZZ*v.Z,
	}
}

// Times returns the surface with every integral multiplied.
func (s FreeSurface) Times(k float64) FreeSurface {
	q := s.Second
	return FreeSurface{
		Area: k * s.Area, First: r3.Scale(k, s.First),
		Second: Symmetric{k * q.XX, k * q.YY, k * q.ZZ, k * q.XY, k * q.YZ, k * q.ZX},
	}
}

// Plus returns the integrals over two surfaces together.
func (s FreeSurface) Plus(o FreeSurface) FreeSurface {
	a, b := s.Second, o.Second
	return FreeSurface{
		Area: s.Area + o.Area, First: r3.Add(s.First, o.First),
		Second: Symmetric{a.XX + b.XX, a.YY + b.YY, a.ZZ + b.ZZ, a.XY + b.XY, a.YZ + b.YZ, a.ZX + b.ZX},
	}
}

// In returns the surface, given in the axes of a frame, in those that the frame
// is given in; the integrals themselves are not rescaled.
func (s FreeSurface) In(f Frame) FreeSurface {
	first := r3.Add(r3.Add(r3.Scale(s.First.X, f.U), r3.Scale(s.First.Y, f.V)), r3.Scale(s.First.Z, f.W))
	// The second moment along two directions a, b of the outer axes.
	along := func(a, b r3.Vec) float64 {
		return r3.Dot(f.normal(a), s.Second.Apply(f.normal(b))) +
			r3.Dot(a, f.Origin)*r3.Dot(b, first) + r3.Dot(a, first)*r3.Dot(b, f.Origin) +
			s.Area*r3.Dot(a, f.Origin)*r3.Dot(b, f.Origin)
	}
	x, y, z := r3.Vec{X: 1}, r3.Vec{Y: 1}, r3.Vec{Z: 1}
	return FreeSurface{
		Area: s.Area, First: r3.Add(r3.Scale(s.Area, f.Origin), first),
		Second: Symmetric{along(x, x), along(y, y), along(z, z), along(x, y), along(y, z), along(z, x)},
	}
}

// About returns the second moment of the area about the line through its own
// centroid along a unit vector that lies in the surface, mm⁴; up is the unit
// vector at right angles to the surface. It is what a slack tank takes from the
// stability of a vessel that heels about such a line.
func (s FreeSurface) About(axis, up r3.Vec) float64 {
	if s.Area <= 0 {
		return 0
	}
	across := r3.Cross(up, axis)
	about := r3.Dot(across, s.First)
	return math.Max(0, r3.Dot(across, s.Second.Apply(across))-about*about/s.Area)
}

// Principal returns the greatest and the least second moment of the area about
// lines through its own centroid in the surface, mm⁴ (Mohr's circle); up is the
// unit vector at right angles to the surface.
func (s FreeSurface) Principal(up r3.Vec) (most, least float64) {
	if s.Area <= 0 {
		return 0, 0
	}
	u := Beside(up)
	v := r3.Cross(up, u)
	a, b := s.About(u, up), s.About(v, up)
	product := r3.Dot(u, s.Second.Apply(v)) - r3.Dot(u, s.First)*r3.Dot(v, s.First)/s.Area
	middle, radius := (a+b)/2, math.Hypot((a-b)/2, product)
	return middle + radius, math.Max(0, middle-radius)
}
