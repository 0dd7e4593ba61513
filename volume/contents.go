package volume

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"floatarc/geometry"
)

// Contents is a tank seen from one attitude. It is safe for concurrent use.
type Contents struct {
	Attitude    geometry.Attitude
	Up          r3.Vec  // unit vector up in the tank frame
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
func (c *Contents) Surface(level float64) float64 {
	if level == c.Top {
		level -= brim * (c.Top - c.Bottom)
	}
	return c.cut.Surface(level)
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
	return c.solve(target)
}

// closeness is the share of the capacity to which levels are solved for, a
// thousandth of what the quadrature promises.
const closeness = 1e-13

// solve finds the level of a volume by Newton steps, the surface being the
// derivative, kept inside a bracket that a halving shrinks where they stray.
func (c *Contents) solve(target float64) float64 {
	lo, hi := c.Bottom, c.Top
	h := lo + (hi-lo)*target/c.capacity
	for range 200 {
		off := c.cut.Volume(h) - target
		if math.Abs(off) <= closeness*c.capacity {
			return h
		}
		if off > 0 {
			hi = h
		} else {
			lo = h
		}
		next := h - off/c.cut.Surface(h)
		if !(next > lo && next < hi) {
			next = lo + (hi-lo)/2
		}
		if next == lo || next == hi || next == h {
			return next
		}
		h = next
	}
	return h
}
