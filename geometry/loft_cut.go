package geometry

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// Cut implements [Solid]. By Green's theorem every edge of a section adds its own
// part to the area below the level line, so that each side of the loft is
// integrated by itself, along w: where it is wholly below the level a
// polynomial, where it is cut a smooth function between the two places at which
// the level passes its corners.
func (l *Loft) Cut(n r3.Vec) Cut {
	c := &loftCut{tilt: tiltOf(n), loft: l}
	c.lo, c.hi = l.Extent(n)
	turned := make([][]r2.Vec, len(l.stations))
	for i, s := range l.stations {
		for _, p := range s.Points {
			turned[i] = append(turned[i], r2.Vec{X: r2.Dot(c.m, p), Y: r2.Cross(c.m, p)})
		}
	}
	for i := range l.stations[1:] {
		for j := range turned[i] {
			k := (j + 1) % len(turned[i])
			c.sides = append(c.sides, side{
				w0: l.stations[i].At, w1: l.stations[i+1].At,
				a0: turned[i][j], b0: turned[i][k], a1: turned[i+1][j], b1: turned[i+1][k],
			})
		}
	}
	return c
}

type loftCut struct {
	tilt
	loft   *Loft
	sides  []side
	lo, hi float64 // extent along n
}

// A side is one side of a loft between two stations, seen in (s, c): its edge
// runs from a to b, which move from a0, b0 at w0 to a1, b1 at w1.
type side struct {
	w0, w1         float64
	a0, b0, a1, b1 r2.Vec
}

// edge returns the edge at w.
func (s side) edge(w float64) strand {
	t := (w - s.w0) / (s.w1 - s.w0)
	mix := func(p, q r2.Vec) r2.Vec { return r2.Add(r2.Scale(1-t, p), r2.Scale(t, q)) }
	a, b := mix(s.a0, s.a1), mix(s.b0, s.b1)
	return strand{s0: a.X, c0: a.Y, s1: b.X, c1: b.Y}
}

// level returns the level in the section's own s at w.
func (c *loftCut) level(h, w float64) float64 { return (h - c.slope*w) / c.steep }

// A stage is a part of a side's length over which its edge lies wholly below
// the level, or wholly above, or is cut by it.
type stage struct {
	from, to   float64
	below, cut bool
}

// stages appends those of a side that are not dry.
func (c *loftCut) stages(out []stage, s side, h float64) []stage {
	var room [4]float64
	ends := append(room[:0], s.w0, s.w1)
	for _, corner := range [2][2]float64{{s.a0.X, s.a1.X}, {s.b0.X, s.b1.X}} {
		// Where the level passes the corner: both run straight in w.
		over0, over1 := corner[0]-c.level(h, s.w0), corner[1]-c.level(h, s.w1)
		if over0*over1 < 0 {
			ends = append(ends, s.w0+(s.w1-s.w0)*over0/(over0-over1))
		}
	}
	slices.Sort(ends)
	for i := 1; i < len(ends); i++ {
		if ends[i] <= ends[i-1] {
			continue
		}
		mid := (ends[i-1] + ends[i]) / 2
		e, level := s.edge(mid), c.level(h, mid)
		switch lo, hi := e.span(); {
		case hi <= level:
			out = append(out, stage{from: ends[i-1], to: ends[i], below: true})
		case lo < level:
			out = append(out, stage{from: ends[i-1], to: ends[i], cut: true})
		}
	}
	return out
}

// sum integrates, over the sides, what an edge below the level adds; size is the
// scale of the result.
func (c *loftCut) sum(by integrator, h, size float64, of func(e strand, w float64) float64) float64 {
	total := 0.0
	var room [3]stage
	for _, s := range c.sides {
		for _, g := range c.stages(room[:0], s, h) {
			if g.below {
				total += apply(cubic, func(w float64) float64 { return of(s.edge(w), w) }, g.from, g.to)
				continue
			}
			total += by(func(w float64) float64 {
				e, ok := s.edge(w).clip(math.Inf(-1), c.level(h, w))
				if !ok {
					return 0
				}
				return of(e, w)
			}, g.from, g.to, size)
		}
	}
	return total
}

// cubic is exact for the polynomials of degree 5 or less that whole edges add.
var cubic = legendre(3)

// depth returns, for an upright axis, the place up to which the loft is full,
// seen from its lower end, which may be either.
func (c *loftCut) depth(h float64) (from, to float64) {
	first, last := c.loft.stations[0].At, c.loft.stations[len(c.loft.stations)-1].At
	at := math.Max(first, math.Min(last, h/c.slope))
	if c.slope < 0 {
		return at, last
	}
	return first, at
}

// upright integrates a polynomial of the whole section from one place to
// another.
func (c *loftCut) upright(from, to float64, of func(e strand, w float64) float64) float64 {
	total := 0.0
	for _, s := range c.sides {
		a, b := math.Max(from, s.w0), math.Min(to, s.w1)
		if a < b {
			total += apply(cubic, func(w float64) float64 { return of(s.edge(w), w) }, a, b)
		}
	}
	return total
}

// below integrates what edges add over the fuel below a level.
func (c *loftCut) below(h, size float64, of func(e strand, w float64) float64) float64 {
	if c.steep == 0 {
		from, to := c.depth(h)
		return c.upright(from, to, of)
	}
	return c.sum(integrate, h, size, of)
}

// What an edge adds to the area of its section and to its first moments.
func edgeArea(e strand, _ float64) float64  { return -(e.s1 - e.s0) * (e.c0 + e.c1) / 2 }
func edgeAlong(e strand, w float64) float64 { return w * edgeArea(e, w) }

func edgeS(e strand, _ float64) float64 {
	return -(e.s1 - e.s0) * (2*e.s0*e.c0 + e.s0*e.c1 + e.s1*e.c0 + 2*e.s1*e.c1) / 6
}

func edgeC(e strand, _ float64) float64 {
	return -(e.s1 - e.s0) * (e.c0*e.c0 + e.c0*e.c1 + e.c1*e.c1) / 6
}

func (c *loftCut) Volume(h float64) float64 {
	v := c.below(h, c.scale(), edgeArea)
	return math.Max(0, v)
}

// scale is the size of a volume, whole or box.
func (c *loftCut) scale() float64 {
	if c.loft.volume > 0 {
		return c.loft.volume
	}
	return c.loft.size * c.loft.size * c.loft.size
}

func (c *loftCut) Moment(h float64) r3.Vec {
	size := c.scale() * c.loft.size
	ms, mc, w := c.below(h, size, edgeS), c.below(h, size, edgeC), c.below(h, size, edgeAlong)
	return c.turned(ms, mc, w)
}

func (c *loftCut) Surface(h float64) float64 { return c.FreeSurface(h).Area }

// FreeSurface implements [Cut]. Along a tilted axis it is swept by the chord of
// each section, of which each cut edge is an end.
func (c *loftCut) FreeSurface(h float64) FreeSurface {
	if c.standing() {
		return c.across(h)
	}
	h = c.above(h)
	var room [3]stage
	var f FreeSurface
	for _, s := range c.sides {
		for _, g := range c.stages(room[:0], s, h) {
			if !g.cut {
				continue
			}
			end := func(of func(at, cc, w float64) float64) float64 {
				return integrate(func(w float64) float64 {
					e, level := s.edge(w), c.level(h, w)
					cc, _ := e.at(level)
					if e.s1 > e.s0 {
						return -of(level, cc, w) // the end of smaller c
					}
					return of(level, cc, w)
				}, g.from, g.to, c.loft.size*c.loft.size) / c.steep
			}
			f = f.Plus(chordEnd(end))
		}
	}
	return f.In(c.frame())
}

// above returns a level at h or a hair above it, clear of the corners of the
// stations: a side whose corner runs along the level would be taken as below it
// by one of its edges and as dry by the other.
func (c *loftCut) above(h float64) float64 {
	near := hair * (c.hi - c.lo)
	for _, s := range c.sides {
		for _, at := range [2]float64{c.steep*s.a0.X + c.slope*s.w0, c.steep*s.a1.X + c.slope*s.w1} {
			if math.Abs(h-at) < near {
				h += 2 * near
			}
		}
	}
	return h
}

// chordEnd returns what one end of the chords, summed along the axis, adds.
func chordEnd(end func(of func(s, c, w float64) float64) float64) FreeSurface {
	return FreeSurface{
		Area: end(func(_, c, _ float64) float64 { return c }),
		First: r3.Vec{
			X: end(func(s, c, _ float64) float64 { return s * c }),
			Y: end(func(_, c, _ float64) float64 { return c * c / 2 }),
			Z: end(func(_, c, w float64) float64 { return w * c }),
		},
		Second: Symmetric{
			XX: end(func(s, c, _ float64) float64 { return s * s * c }),
			YY: end(func(_, c, _ float64) float64 { return c * c * c / 3 }),
			ZZ: end(func(_, c, w float64) float64 { return w * w * c }),
			XY: end(func(s, c, _ float64) float64 { return s * c * c / 2 }),
			YZ: end(func(_, c, w float64) float64 { return w * c * c / 2 }),
			ZX: end(func(s, c, w float64) float64 { return w * s * c }),
		},
	}
}

// across is the surface across an upright axis: a whole section.
func (c *loftCut) across(h float64) FreeSurface {
	w := h / c.slope
	first, last := c.loft.stations[0].At, c.loft.stations[len(c.loft.stations)-1].At
	if !within(w, first, last, c.slope) {
		return FreeSurface{}
	}
	var r region
	for _, s := range c.sides {
		if !within(w, s.w0, s.w1, c.slope) {
			continue
		}
		e := s.edge(w)
		r.one += edgeArea(e, w)
		r.s += edgeS(e, w)
		r.c += edgeC(e, w)
		r.ss -= e.integrate(func(s, c float64) float64 { return s * s * c })
		r.sc -= e.integrate(func(s, c float64) float64 { return s * c * c / 2 })
		r.cc -= e.integrate(func(_, c float64) float64 { return c * c * c / 3 })
	}
	return c.over(r, 0, w, 0, 1/math.Abs(c.slope))
}

// Error implements [Cut]; a cut across an upright axis is exact.
func (c *loftCut) Error() float64 {
	if c.steep == 0 {
		return closed * c.scale()
	}
	return achieved(c.lo, c.hi, c.scale(), func(h float64, by integrator) float64 { return c.sum(by, h, c.scale(), edgeArea) })
}
