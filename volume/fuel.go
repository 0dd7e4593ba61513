package volume

import (
	"math"

	"floatarc/geometry"
)

// A Fuel is a liquid by its density.
type Fuel struct {
	Density float64 // kg/m³ at 15 degC
	Water   bool    // expands as water does, and not as a petroleum product
}

// Water is the liquid with which a tank is often proved.
var Water = Fuel{Density: 999.1, Water: true}

// DensityAt returns the density in kg/m³ at a temperature in degC.
func (f Fuel) DensityAt(celsius float64) float64 { return f.Density * f.Correction(celsius) }

// Correction returns the volume at 15 degC over the volume at a temperature in
// degC. For petroleum it is
//
//	exp(-α Δt (1 + 0.8 α Δt)),  α = K0/ρ² + K1/ρ + A
//
// by product group (ASTM D1250-80, API Manual of Petroleum Measurement Standards
// chapter 11.1, Table 54B: formula and coefficients from secondary copies that
// agree with each other).
func (f Fuel) Correction(celsius float64) float64 {
	if f.Water {
		return waterDensity(celsius) / waterDensity(15)
	}
	rho := f.Density
	g := group(rho)
	x := (g.k0/(rho*rho) + g.k1/rho + g.a) * (celsius - 15)
	return math.Exp(-x * (1 + 0.8*x))
}

// hottest is the temperature, degC, up to which Brimful looks.
const hottest = 150

// Brimful returns the temperature, degC, at which fuel that fills a share of a tank
// at another one has expanded to fill all of it; +Inf if that is out of reach.
func (f Fuel) Brimful(share, celsius float64) float64 {
	room := func(t float64) bool { return share*f.Correction(celsius) <= f.Correction(t) }
	if room(hottest) {
		return math.Inf(1)
	}
	return geometry.LastInside(room, celsius, hottest)
}

// A product group, up to a density at 15 degC.
type product struct{ below, k0, k1, a float64 }

var products = []product{
	{770.25, 346.4228, 0.4388, 0},       // gasolines
	{787.75, 2680.3206, 0, -0.00336312}, // between
	{838.75, 594.5418, 0, 0},            // jet fuels and kerosines
	{math.Inf(1), 186.9696, 0.4862, 0},  // fuel oils, diesel
}

// group returns the product group of a density; beyond the table, the nearest.
func group(rho float64) product {
	for _, g := range products {
		if rho < g.below {
			return g
		}
	}
	return products[len(products)-1]
}

// waterDensity returns the density of water in kg/m³ at a temperature in degC
// (S. McCutcheon, J. Martin and T. Barnwell, in Handbook of Hydrology, 1993, from
// memory).
func waterDensity(t float64) float64 {
	d := t - 3.9863
	return 1000 * (1 - (t+288.9414)/(508929.2*(t+68.12963))*d*d)
}
