package geometry

import "gonum.org/v1/gonum/spatial/r3"

// A Solid is a bounded region of space that level planes can cut.
type Solid interface {
	// Cut prepares the solid for level planes n·p = h of one attitude. The
	// vector n need not have unit length; it must not be zero.
	Cut(n r3.Vec) Cut

	// Extent returns the least and the greatest n·p over the solid, in mm
	// times the length of n.
	Extent(n r3.Vec) (lo, hi float64)

	// Contains tells whether p lies in the solid. The boundary belongs to
	// it, to within a billionth of the solid's size.
	Contains(p r3.Vec) bool

	// Clearance returns the smallest distance from p to the wall, the
	// boundary of the solid, in mm, from inside as from outside.
	Clearance(p r3.Vec) float64
}

// A Cut is a solid prepared for the level planes of one attitude. It is safe
// for concurrent use.
type Cut interface {
	// Volume returns the volume below n·p = h, in mm³. It is zero below the
	// solid, the whole volume above it, and never falls as h rises.
	Volume(h float64) float64

	// Surface returns the rate dV/dh in mm². For a unit n that is the area
	// of the free surface. At a level where the area jumps (a flat floor) it
	// is the area just above.
	Surface(h float64) float64

	// Moment returns the first moment of the volume below n·p = h about the
	// origin, in mm⁴: the centre of the fuel times its volume.
	Moment(h float64) r3.Vec

	// FreeSurface returns the area of the surface at n·p = h and its moments.
	// NaN stands for what is not known, of a solid without a shape.
	FreeSurface(h float64) FreeSurface

	// Error returns how far Volume may be off, in mm³: what was achieved, not
	// what was aimed at.
	Error() float64
}

// An Inverse is a cut that knows the level of a volume (mm³) by itself.
type Inverse interface {
	Level(volume float64) float64
}

// up is the level vector of level ground.
var up = r3.Vec{Z: 1}

// Volume returns the whole volume of a solid, in mm³.
func Volume(s Solid) float64 {
	_, hi := s.Extent(up)
	return s.Cut(up).Volume(hi)
}

// Nearness is the relative slack of point containment: a float that rests on a
// wall, or a pickup on the floor, must not fall outside by a rounding error.
const Nearness = 1e-9
