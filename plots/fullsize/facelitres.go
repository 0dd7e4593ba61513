package fullsize

import (
	"math"

	"floatarc/geometry"
	"floatarc/plots/ink"
	"floatarc/tanks/quantity"
)

// drawLitres draws ticks at round quantities inside the arc.
func (o *overlay) drawLitres(p *pen, arc float64, taken []box) {
	g := o.grow
	v := o.Units.Volume
	o.stretches = o.told()
	if len(o.stretches) == 0 {
		return
	}
	low, high := v.Of(o.stretches[0].low), v.Of(o.stretches[len(o.stretches)-1].high)
	if !(high > low) {
		return
	}
	l := regular(math.Max(leastLetters, 5.5*g))
	inner := arc - 4.4*g
	along := func(value float64) float64 {
		return o.position(value) * o.Sweep * math.Pi / 180 * inner
	}
	widest := math.Max(l.width(quantity.Trimmed(low, 2)), l.width(quantity.Trimmed(high, 0)))
	s := scaleFor(o.Units, low, high, math.Max(widest, l.cap())+1.2, 0.9, along)
	for _, value := range withZero(low, high, s.minor) {
		length := 1.3 * g
		if whole(value, s.major) {
			length = 2.4 * g
		}
		at := o.position(value)
		if math.IsNaN(at) {
			continue
		}
		x0, y0 := o.point(at, arc)
		x1, y1 := o.point(at, arc-length)
		p.lines(stroke{width: ink.Hair, color: ink.Black}, x0, y0, x1, y1)
		if !whole(value, s.major) {
			continue
		}
		x, y := o.point(at, inner)
		if b := boxOf(l, x, y, s.label(value)); b.clear(taken) {
			p.beside(l, middle, x, y, s.label(value))
			taken = append(taken, b)
		}
	}
	unit := regular(math.Max(leastLetters, 5.5*g)).in(ink.Grey)
	p.beside(unit, middle, o.x, o.y-7*g, v.Symbol)
}

// withZero returns the multiples of a step, 0 among them.
func withZero(low, high, step float64) []float64 {
	out := multiples(low, high, step)
	if low <= 0 && high >= 0 {
		out = append(out, 0)
	}
	return out
}

// position returns that at which the tank holds a value of the units that people read; not a
// number where the face does not tell it.
func (o *overlay) position(value float64) float64 {
	litres := value / o.Units.Volume.Of(1)
	for _, s := range o.stretches {
		if litres >= s.low-exact(s.low) && litres <= s.high+exact(s.high) {
			return geometry.LastInside(func(p float64) bool { return o.Litres(p) < litres }, s.from, s.to)
		}
	}
	return math.NaN()
}

// exact is what litres that were counted in other units may be off by.
func exact(litres float64) float64 { return 1e-12 * math.Max(1, math.Abs(litres)) }

// A stretch is a part of the sweep on which litres are told.
type stretch struct{ from, to, low, high float64 }

// looks is at how many parts of the sweep the litres are asked for.
const looks = 400

// told returns the stretches on which the litres are a number.
func (o *overlay) told() []stretch {
	known := func(p float64) bool { l := o.Litres(p); return !math.IsNaN(l) && !math.IsInf(l, 0) }
	var out []stretch
	last, before := 0.0, false
	for k := range looks + 1 {
		at := float64(k) / looks
		now := known(at)
		switch {
		case now && before:
			out[len(out)-1].to = at
		case now:
			out = append(out, stretch{from: geometry.LastInside(known, at, last), to: at})
		case before:
			out[len(out)-1].to = geometry.LastInside(known, last, at)
		}
		last, before = at, now
	}
	for i, s := range out {
		out[i].low, out[i].high = o.Litres(s.from), o.Litres(s.to)
	}
	return out
}
