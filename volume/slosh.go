package volume

import (
	"math"

	"floatarc/geometry"
)

// A Slosh is the slowest free oscillation of the surface of the fuel.
type Slosh struct {
	Period float64 // s
	// Length is that of the tank whose period it is: of a rectangular one along
	// the way of the fuel, or the diameter of an upright cylinder, mm.
	Length float64
	Depth  float64 // of that tank's fuel, mm
	Round  bool    // an upright cylinder
}

// firstRoot is the first root of the derivative of the Bessel function J1.
const firstRoot = 1.84118378134

// RectangularSlosh returns the period of the first mode along the length (mm) of
// an upright rectangular tank with fuel of a depth (mm):
//
//	ω² = (π g / length) tanh(π depth / length)
//
// (H. N. Abramson, ed., The Dynamic Behavior of Liquids in Moving Containers, NASA
// SP-106, 1966; from memory).
func RectangularSlosh(length, depth float64) float64 { return period(math.Pi/length, depth) }

// CylindricalSlosh returns the period of the first mode of an upright cylinder of
// a diameter (mm) with fuel of a depth (mm):
//
//	ω² = (ε g / R) tanh(ε depth / R),  ε = 1.841…
//
// (the same source).
func CylindricalSlosh(diameter, depth float64) float64 {
	return period(2*firstRoot/diameter, depth)
}

// period returns that of waves of a number k (1/mm) over a depth (mm).
func period(k, depth float64) float64 {
	return 2 * math.Pi / math.Sqrt(1e3*geometry.Gravity*k*math.Tanh(k*depth))
}

// roundness is how near, as a share, a surface's area and second moments must lie
// to those of a disc to be one.
const roundness = 1e-3

// Slosh returns the slowest oscillation of the fuel below a level: that of an
// upright rectangular tank whose surface has as much second moment for its area
// along the longest way of the fuel (length² = 12 I/A), filled to the mean depth,
// volume over surface; or where the surface is a disc, that of an upright cylinder.
// It reports false where there is no surface, or none that is known.
func (c *Contents) Slosh(level float64) (Slosh, bool) {
	s := c.cut.FreeSurface(c.underBrim(level))
	depth := c.cut.Volume(level) / s.Area
	most, least := s.Principal(c.Up)
	if !(s.Area > 0 && depth > 0 && most > 0) {
		return Slosh{}, false
	}
	if disc := s.Area * s.Area / (4 * math.Pi); math.Abs(most/disc-1) < roundness && math.Abs(least/disc-1) < roundness {
		d := 2 * math.Sqrt(s.Area/math.Pi)
		return Slosh{Period: CylindricalSlosh(d, depth), Length: d, Depth: depth, Round: true}, true
	}
	length := math.Sqrt(12 * most / s.Area)
	return Slosh{Period: RectangularSlosh(length, depth), Length: length, Depth: depth}, true
}
