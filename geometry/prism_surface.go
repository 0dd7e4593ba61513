package geometry

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// FreeSurface implements [Cut]. The surface lies over the strip of the section
// between the levels at its two ends, at the axial place w = (h - steep s)/slope.
// Across the strip s is told from its middle, and the slope by the two ends: so
// the rounding of the ends, which a narrow strip would feel, falls out again.
func (c *prismCut) FreeSurface(h float64) FreeSurface {
	if c.steep == 0 {
		w := h / c.slope
		if !within(w, 0, c.prism.Length, c.slope) {
			return FreeSurface{}
		}
		return c.over(c.strip(math.Inf(-1), math.Inf(1), 0), 0, w, 0, 1/math.Abs(c.slope))
	}
	lo, hi := c.levels(h)
	if hi-lo < flat*(c.hi-c.lo) {
		return c.lengthwise((lo + hi) / 2)
	}
	from := (math.Max(lo, c.lo) + math.Min(hi, c.hi)) / 2
	near, far := c.ends(h)
	by := c.prism.Length / (far - near)
	return c.over(c.strip(lo, hi, from), from, by*(from-near), by, math.Abs(by)/c.steep)
}

// strip returns the integrals over the section between two levels, with s told
// from a place.
func (c *prismCut) strip(lo, hi, from float64) region {
	var r region
	for _, p := range c.strands {
		q, ok := p.clip(lo, hi)
		if !ok {
			continue
		}
		r.one -= q.integrate(func(_, c float64) float64 { return c })
		r.s -= q.integrate(func(s, c float64) float64 { return (s - from) * c })
		r.c -= q.integrate(func(_, c float64) float64 { return c * c / 2 })
		r.ss -= q.integrate(func(s, c float64) float64 { return (s - from) * (s - from) * c })
		r.sc -= q.integrate(func(s, c float64) float64 { return (s - from) * c * c / 2 })
		r.cc -= q.integrate(func(_, c float64) float64 { return c * c * c / 3 })
	}
	return r
}

// lengthwise returns the surface that runs along the prism over the chord s = t.
func (c *prismCut) lengthwise(t float64) FreeSurface {
	t = above(c.strands, t, hair*(c.hi-c.lo))
	var one, first, second float64 // of the chord, in c
	for _, p := range c.strands {
		if lo, hi := p.span(); t < lo || t >= hi {
			continue
		}
		at, _ := p.at(t)
		sign := math.Copysign(1, p.s0-p.s1)
		one += sign * at
		first += sign * at * at / 2
		second += sign * at * at * at / 3
	}
	l := c.prism.Length
	f := FreeSurface{
		Area:  l * one,
		First: r3.Vec{X: l * t * one, Y: l * first, Z: l * l / 2 * one},
		Second: Symmetric{
			XX: l * t * t * one, XY: l * t * first, YY: l * second,
			ZX: l * l / 2 * t * one, YZ: l * l / 2 * first, ZZ: l * l * l / 3 * one,
		},
	}
	return f.In(c.frame()).Times(1 / c.steep)
}

// Error implements [Cut]: the cut is a closed form.
func (c *prismCut) Error() float64 { return closed * c.prism.Outline.area * c.prism.Length }

// closed is the rounding of a closed form, as a share of the volume; tests
// hold cuts against their complements to this.
const closed = 1e-12

// Clearance implements [Solid]; p is (u, v, w).
func (b *Prism) Clearance(p r3.Vec) float64 {
	inside := b.Outline.encloses(r2.Vec{X: p.X, Y: p.Y})
	side := b.Outline.distance(r2.Vec{X: p.X, Y: p.Y})
	end := math.Min(math.Abs(p.Z), math.Abs(b.Length-p.Z))
	return sweptClearance(side, end, inside, p.Z >= 0 && p.Z <= b.Length)
}

// sweptClearance returns the clearance of a point from a swept section, given
// its distances from the section's edge and from the nearer end, and whether it
// lies inside the section, and between the ends.
func sweptClearance(side, end float64, inside, between bool) float64 {
	switch {
	case inside && between:
		return math.Min(side, end)
	case inside:
		return end
	case between:
		return side
	}
	return math.Hypot(side, end)
}
