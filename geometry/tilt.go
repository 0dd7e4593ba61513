package geometry

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// A tilt is a level vector seen from a solid whose sections lie across w. In a
// section s runs along the steepest direction and c at a right angle to it, on
// its left.
type tilt struct {
	m     r2.Vec  // steepest direction of the sections
	steep float64 // part of the vector in the sections; 0 for an upright axis
	slope float64 // part of the vector along the axis
}

// upright is the tilt, in radians, below which an axis counts as standing
// exactly upright. The volume error is this share of the section's radius
// times its area, a trillionth of the capacity of any tank as long as it is
// wide.
const upright = 1e-13

func tiltOf(n r3.Vec) tilt {
	steep := math.Hypot(n.X, n.Y)
	if steep < upright*math.Abs(n.Z) {
		return tilt{m: r2.Vec{X: 1}, slope: n.Z}
	}
	return tilt{m: r2.Vec{X: n.X / steep, Y: n.Y / steep}, steep: steep, slope: n.Z}
}

// frame returns the axes s, c, w.
func (t tilt) frame() Frame {
	return Frame{U: r3.Vec{X: t.m.X, Y: t.m.Y}, V: r3.Vec{X: -t.m.Y, Y: t.m.X}, W: r3.Vec{Z: 1}}
}

// turned brings a vector from (s, c, w) back to (u, v, w).
func (t tilt) turned(s, c, w float64) r3.Vec {
	return r3.Vec{X: t.m.X*s - t.m.Y*c, Y: t.m.Y*s + t.m.X*c, Z: w}
}

// standing tells whether the surface lies across the axis, or so nearly so that
// the stretch of the axis over which it tilts would be lost in rounding.
func (t tilt) standing() bool { return t.steep <= flat*math.Abs(t.slope) }

// A region holds the integrals of 1, s, c, s², sc and c² over a part of a
// section.
type region struct{ one, s, c, ss, sc, cc float64 }

// over returns the surface over a region whose s is told from a place, at the
// axial place w = at + by s; rate is its area over that of the region, over the
// length of the level vector.
func (t tilt) over(r region, from, at, by, rate float64) FreeSurface {
	f := FreeSurface{
		Area:  r.one,
		First: r3.Vec{X: r.s, Y: r.c, Z: by * r.s},
		Second: Symmetric{
			XX: r.ss, XY: r.sc, YY: r.cc, ZX: by * r.ss, YZ: by * r.sc, ZZ: by * by * r.ss,
		},
	}
	frame := t.frame()
	frame.Origin = r3.Add(r3.Scale(from, frame.U), r3.Scale(at, frame.W))
	return f.In(frame).Times(rate)
}
