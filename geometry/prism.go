package geometry

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// A Prism is an outline in the (u, v) plane pushed along w from 0 to Length.
// Its cuts are closed forms: with t the level seen in the section, the column
// of fuel over a point of the section is a clamped straight line in s, the
// coordinate along the section's steepest direction, so that
//
//	V = L A(t_lo) + (1/ν) ∫∫ (t_hi - s) dA over t_lo < s < t_hi
//
// where t_lo and t_hi are the levels at the two ends, A(t) the section's area
// below t and ν the slope of the axis. For a disc that is the hoof of the
// handbooks (CRC Standard Mathematical Tables, "cylindrical hoof").
type Prism struct {
	Outline *Outline
	Length  float64 // mm
}

// NewPrism returns the prism of an outline, length in mm.
func NewPrism(o *Outline, length float64) (*Prism, error) {
	if err := positive("length", length); err != nil {
		return nil, err
	}
	return &Prism{Outline: o, Length: length}, nil
}

// Contains implements [Solid]; p is (u, v, w).
func (b *Prism) Contains(p r3.Vec) bool {
	slack := Nearness * math.Max(b.Length, b.Outline.size)
	return p.Z >= -slack && p.Z <= b.Length+slack && b.Outline.contains(r2.Vec{X: p.X, Y: p.Y})
}

// Extent implements [Solid].
func (b *Prism) Extent(n r3.Vec) (lo, hi float64) {
	t := tiltOf(n)
	lo, hi = extent(b.Outline.strands(t.m))
	end := t.slope * b.Length
	return t.steep*lo + math.Min(0, end), t.steep*hi + math.Max(0, end)
}

func extent(strands []strand) (lo, hi float64) {
	lo, hi = math.Inf(1), math.Inf(-1)
	for _, p := range strands {
		l, h := p.span()
		lo, hi = math.Min(lo, l), math.Max(hi, h)
	}
	return lo, hi
}

// Cut implements [Solid].
func (b *Prism) Cut(n r3.Vec) Cut {
	t := tiltOf(n)
	c := &prismCut{tilt: t, prism: b, strands: b.Outline.strands(t.m)}
	c.lo, c.hi = extent(c.strands)
	return c
}

type prismCut struct {
	tilt
	prism   *Prism
	strands []strand
	lo, hi  float64 // extent of the section along m
}

// ends returns the levels, in the section's own s, at w = 0 and at the other end.
func (c *prismCut) ends(h float64) (near, far float64) {
	return h / c.steep, (h - c.slope*c.prism.Length) / c.steep
}

// levels returns the levels at the lower and the upper of the two ends.
func (c *prismCut) levels(h float64) (lo, hi float64) {
	near, far := c.ends(h)
	return math.Min(near, far), math.Max(near, far)
}

func (c *prismCut) Volume(h float64) float64 {
	if c.steep == 0 {
		return c.prism.Outline.area * c.depth(h)
	}
	lo, hi := c.levels(h)
	lean := math.Abs(c.slope) / c.steep
	switch {
	case lo >= c.hi:
		return c.prism.Outline.area * c.prism.Length
	case hi <= c.lo:
		return 0
	}
	below, strip := 0.0, 0.0
	for _, p := range c.strands {
		if q, ok := p.clip(math.Inf(-1), lo); ok {
			a, _ := q.green(0)
			below -= a
		}
		if q, ok := p.clip(lo, hi); ok {
			_, l := q.green(hi)
			strip -= l
		}
	}
	v := c.prism.Length * below
	if lean > 0 {
		v += strip / lean
	}
	return math.Max(0, v)
}

// depth returns how much of the length of an upright prism lies below h.
func (c *prismCut) depth(h float64) float64 {
	d := math.Max(0, math.Min(c.prism.Length, h/c.slope))
	if c.slope < 0 {
		return c.prism.Length - d
	}
	return d
}

// within tells whether the level plane at w along an upright axis, moved up by
// nothing at all, lies between the ends lo and hi.
func within(w, lo, hi, slope float64) bool {
	if slope < 0 {
		return w > lo && w <= hi
	}
	return w >= lo && w < hi
}

func (c *prismCut) Surface(h float64) float64 {
	if c.steep == 0 {
		if !within(h/c.slope, 0, c.prism.Length, c.slope) {
			return 0
		}
		return c.prism.Outline.area / math.Abs(c.slope)
	}
	lo, hi := c.levels(h)
	if hi-lo < flat*(c.hi-c.lo) {
		return c.prism.Length * c.chord((lo+hi)/2) / c.steep
	}
	strip := 0.0
	for _, p := range c.strands {
		if q, ok := p.clip(lo, hi); ok {
			a, _ := q.green(0)
			strip -= a
		}
	}
	return math.Max(0, strip) * c.prism.Length / ((hi - lo) * c.steep)
}

// flat is the rise of the surface over the prism's length, as a share of the
// section's height, below which the area of the strip between its two ends
// would lose more digits than one chord at mid-length does.
const flat = 1e-7

// chord returns the width of the section at s = t, just above t.
func (c *prismCut) chord(t float64) float64 {
	t = above(c.strands, t, hair*(c.hi-c.lo))
	sum := 0.0
	for _, p := range c.strands {
		if lo, hi := p.span(); t < lo || t >= hi {
			continue
		}
		at, _ := p.at(t)
		if p.s1 > p.s0 {
			sum -= at
		} else {
			sum += at
		}
	}
	return sum
}

func (c *prismCut) Moment(h float64) r3.Vec {
	length := c.prism.Length
	if c.steep == 0 {
		d := c.depth(h)
		mid := d / 2
		if c.slope < 0 {
			mid = length - d/2
		}
		whole := c.strip(math.Inf(-1), math.Inf(1), 0)
		return c.turned(whole.s*d, whole.c*d, c.prism.Outline.area*d*mid)
	}
	lo, hi := c.levels(h)
	column := func(s float64) float64 { // length of the fuel over a point of the section
		if s <= lo || hi == lo {
			return length
		}
		return math.Max(0, math.Min(length, (hi-s)*c.steep/math.Abs(c.slope)))
	}
	var w float64
	lever := func(s float64) float64 {
		l := column(s)
		if c.slope < 0 {
			return l * (length - l/2)
		}
		return l * l / 2
	}
	var ms, mc float64
	for _, band := range [][2]float64{{math.Inf(-1), lo}, {lo, hi}} {
		for _, p := range c.strands {
			q, ok := p.clip(band[0], band[1])
			if !ok {
				continue
			}
			ms -= q.integrate(func(s, cc float64) float64 { return s * column(s) * cc })
			mc -= q.integrate(func(s, cc float64) float64 { return column(s) * cc * cc / 2 })
			w -= q.integrate(func(s, cc float64) float64 { return lever(s) * cc })
		}
	}
	return c.turned(ms, mc, w)
}
