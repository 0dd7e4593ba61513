package volume

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"floatarc/geometry"
)

// Contents is a tank seen from one attitude. It is safe for concurrent use.
type Contents struct {
	Attitude    geometry.Attitude
	Up, Forward r3.Vec  // unit vectors in the tank frame: up, and level where the vehicle heads
	Bottom, Top float64 // levels of the lowest and the highest point, mm
	Unusable    float64 // litres below the pickup; NaN if not known here

	cut      geometry.Cut
	capacity float64 // mm³
}

// Litres returns the litres below a level.
func (c *Contents) Litres(level float64) float64 {
	switch {
	case level <= c.Bottom:
		return 0
	case level >= c.Top:
		return c.capacity / perLitre
	}
	return math.Max(0, c.cut.Volume(level)/perLitre)
}

// Surface returns the area of the free surface at a level, in mm². At the very
// top it is that of a tank about to be full, which under a flat roof is the
// roof's.
func (c *Contents) Surface(level float64) float64 { return c.cut.Surface(c.underBrim(level)) }

// Rate returns by how many litres the contents grow for a millimetre of level.
func (c *Contents) Rate(level float64) float64 { return c.Surface(level) / perLitre }

// underBrim returns the level, or one just below the top in its place.
func (c *Contents) underBrim(level float64) float64 {
	if level == c.Top {
		return level - brim*(c.Top-c.Bottom)
	}
	return level
}

// brim is how far below the top a full tank's surface is looked at, as a share
// of the tank's height.
const brim = 1e-9

// Level returns the level at which the tank holds so many litres; below 0 the
// bottom, above the capacity the top.
func (c *Contents) Level(litres float64) float64 {
	target := litres * perLitre
	switch {
	case target <= 0:
		return c.Bottom
	case target >= c.capacity:
		return c.Top
	}
	return geometry.LevelOf(c.cut, target, c.Bottom, c.Top, closeness*c.capacity)
}

// puddle is the share of the capacity below which the centre of the fuel would be
// the quotient of two roundings.
const puddle = 1e-8

// Centroid returns the centre of the fuel below a level, in the tank frame; NaN
// for next to no fuel, and along what is not known of the tank.
func (c *Contents) Centroid(level float64) r3.Vec {
	level = math.Min(level, c.Top)
	v := c.cut.Volume(level)
	if v <= puddle*c.capacity {
		v = math.NaN()
	}
	return r3.Scale(1/v, c.cut.Moment(level))
}

// SurfaceMoment returns the second moment of the free surface about a line
// through its own centroid, mm⁴: what a slack tank takes from the stability of a
// vessel that turns about a line in that direction, a unit vector that lies
// level.
func (c *Contents) SurfaceMoment(level float64, axis r3.Vec) float64 {
	return c.cut.FreeSurface(c.underBrim(level)).About(axis, c.Up)
}

// Error returns how far Litres may be off for the sizes given.
func (c *Contents) Error() float64 { return c.cut.Error() / perLitre }

// closeness is the share of the capacity to which levels are solved for, a
// thousandth of what the quadrature promises.
const closeness = 1e-13
