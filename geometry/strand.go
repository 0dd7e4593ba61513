package geometry

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"
)

// A strand is a piece of a boundary that runs one way in s, where (s, c) is the
// plane of a section turned so that level lines are s = constant. A strand
// with a radius is an arc about (sc, cc) from angle t0 to t1, both within
// [0, π] or both within [-π, 0] but for whole turns.
//
// Integrals over the region below a level line follow from Green's theorem
// with the field along c only, so that the level line itself adds nothing:
//
//	∫∫ f(s) dA = -∮ f(s) c ds    for a boundary that runs anticlockwise
type strand struct {
	s0, c0, s1, c1 float64
	radius         float64
	sc, cc         float64
	t0, t1         float64
}

func arcStrand(centre r2.Vec, radius, t0, t1 float64) strand {
	// Half-turn ends are taken exactly, so that neighbours share their ends.
	a, b := onCircle(centre, radius, t0), onCircle(centre, radius, t1)
	return strand{s0: a.X, c0: a.Y, s1: b.X, c1: b.Y, radius: radius, sc: centre.X, cc: centre.Y, t0: t0, t1: t1}
}

// span returns the least and greatest s of the strand.
func (p strand) span() (lo, hi float64) {
	return math.Min(p.s0, p.s1), math.Max(p.s0, p.s1)
}

// hair is how far, as a share of an outline's size, a line across it keeps from
// the ends of strands: neighbours end in one point only to within rounding, and a
// line that passes just there must not meet both or none.
const hair = 1e-12

// above returns a place at s or a hair above it, clear of the ends of strands.
func above(strands []strand, s, hair float64) float64 {
	for _, p := range strands {
		if math.Abs(s-p.s0) < hair || math.Abs(s-p.s1) < hair {
			s += 2 * hair
		}
	}
	return s
}

// clip returns the part of the strand with lo ≤ s ≤ hi, in the direction of the
// strand, and whether there is any.
func (p strand) clip(lo, hi float64) (strand, bool) {
	least, most := p.span()
	if most <= lo || least >= hi {
		return strand{}, false
	}
	if least >= lo && most <= hi {
		return p, true
	}
	rising := p.s0 < p.s1
	out := p
	if least < lo {
		out.moveEnd(p, rising, lo)
	}
	if most > hi {
		out.moveEnd(p, !rising, hi)
	}
	return out, true
}

// moveEnd moves the first (or else the last) end of the strand to where whole,
// the strand it is a part of, passes s.
func (p *strand) moveEnd(whole strand, first bool, s float64) {
	c, t := whole.at(s)
	if first {
		p.s0, p.c0, p.t0 = s, c, t
	} else {
		p.s1, p.c1, p.t1 = s, c, t
	}
}

// at returns c, and for an arc the angle, where the strand passes s.
func (p strand) at(s float64) (c, t float64) {
	if p.radius == 0 {
		// From the nearer end, which keeps the rounding error small there.
		if math.Abs(s-p.s0) < math.Abs(s-p.s1) {
			return p.c0 + (s-p.s0)/(p.s1-p.s0)*(p.c1-p.c0), 0
		}
		return p.c1 + (s-p.s1)/(p.s0-p.s1)*(p.c0-p.c1), 0
	}
	k := math.Max(-1, math.Min(1, (s-p.sc)/p.radius))
	fold := math.Acos(k) // in [0, π]; the strand's own branch is ±fold + a whole turn
	mid := (p.t0 + p.t1) / 2
	turn := 2 * math.Pi * math.Round(mid/(2*math.Pi))
	if mid-turn < 0 {
		fold = -fold
	}
	t = fold + turn
	return p.cc + p.radius*math.Sin(t), t
}

// narrow is the width of a strip, as a share of an arc's radius, below which the
// difference of the arc's antiderivatives would lose digits: divided by a small
// tilt, their rounding error would be felt.
const narrow = 0.25

// green returns ∫ c ds and ∫ (top - s) c ds along the strand.
func (p strand) green(top float64) (area, lever float64) {
	if p.radius == 0 {
		ds, sm, cm := p.s1-p.s0, (p.s0+p.s1)/2, (p.c0+p.c1)/2
		// Simpson's rule is exact for the quadratic (top - s) c.
		sum := (top-p.s0)*p.c0 + 4*(top-sm)*cm + (top-p.s1)*p.c1
		return ds * cm, ds * sum / 6
	}
	if math.Abs(p.s1-p.s0) < narrow*p.radius {
		return p.integrate(func(_, c float64) float64 { return c }),
			p.integrate(func(s, c float64) float64 { return (top - s) * c })
	}
	sin0, cos0 := (p.c0-p.cc)/p.radius, (p.s0-p.sc)/p.radius
	sin1, cos1 := (p.c1-p.cc)/p.radius, (p.s1-p.sc)/p.radius
	r := p.radius
	area = r*p.cc*(cos1-cos0) - r*r/2*((p.t1-p.t0)-(sin1*cos1-sin0*cos0))
	turn := -r*r*p.cc*(sin1*sin1-sin0*sin0)/2 - r*r*r*(sin1*sin1*sin1-sin0*sin0*sin0)/3
	return area, (top-p.sc)*area - turn
}

// thin tells whether an arc is so short in s, and so far from where it turns back,
// that s tells its length better than the difference of its two angles.
func (p strand) thin() bool {
	steep := 0.9 * p.radius
	return math.Abs(p.s1-p.s0) < 1e-3*p.radius && math.Abs(p.s0-p.sc) < steep && math.Abs(p.s1-p.sc) < steep
}

// integrate returns ∫ f(s, c) ds along the strand by Gauss quadrature; for a
// polynomial f of degree 5 or less it is exact to rounding.
func (p strand) integrate(f func(s, c float64) float64) float64 {
	sum := 0.0
	if p.radius == 0 {
		for i, x := range fine.x {
			sum += fine.w[i] * f(p.s0+x*(p.s1-p.s0), p.c0+x*(p.c1-p.c0))
		}
		return sum * (p.s1 - p.s0)
	}
	if p.thin() {
		for i, x := range fine.x {
			s := p.s0 + x*(p.s1-p.s0)
			c, _ := p.at(s)
			sum += fine.w[i] * f(s, c)
		}
		return sum * (p.s1 - p.s0)
	}
	for i, x := range fine.x {
		sin, cos := math.Sincos(p.t0 + x*(p.t1-p.t0))
		sum -= fine.w[i] * f(p.sc+p.radius*cos, p.cc+p.radius*sin) * p.radius * sin
	}
	return sum * (p.t1 - p.t0)
}
