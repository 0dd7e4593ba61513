package band

import (
	"cmp"
	"math"
	"slices"
)

// A Sample is the truth at one place.
type Sample struct {
	X, Y float64
	// Cap is what the path may not exceed here; +Inf for no limit.
	Cap float64
	// Loose samples keep the error of the first search in the second one.
	Loose bool
	// Gap says that nothing lies between this sample and the next: the truth
	// jumps there, and the path is free.
	Gap bool
}

// A Band is the truth, and between which ordinates the path may run. X never
// falls from sample to sample; where several have one X, the path must serve all
// of them. Between samples the truth runs straight.
type Band struct {
	Samples     []Sample
	Bottom, Top float64 // of the path, as values of Y
	// Resolution is how far the error is followed; 0 for far below what any
	// dial shows.
	Resolution float64
	// Slack is by how much the second search may let go of the least worst error.
	Slack float64

	ordinate      func(y float64) float64
	ordinateBends []float64 // Y, rising, strictly between Bottom and Top
	lower, upper  []Vertex  // reused from corridor to corridor
	breaks        []float64
	snap          float64 // how near to the bottom and the top an edge lies on them
}

// Bend makes the path run straight in f(Y) instead of Y: f rises, and runs
// straight between the bends, which rise too.
func (b *Band) Bend(f func(y float64) float64, bends []float64) {
	b.ordinate, b.ordinateBends = f, nil
	for _, y := range bends {
		if y > b.Bottom && y < b.Top {
			b.ordinateBends = append(b.ordinateBends, y)
		}
	}
}

// Corridor returns all that lies within an error of the truth, and within another
// one at the loose samples. It is valid until the next call.
//
// Where the truth rises all the way, so do the chains: a path that rises clears
// the highest lower vertex behind it and the lowest upper one ahead, and if any
// path has so few corners, one that nowhere falls has.
func (b *Band) Corridor(error, loose float64) Corridor {
	return b.draw(error, loose, b.rises())
}

// draw is [Band.Corridor] where it is known whether the truth rises all the way.
func (b *Band) draw(error, loose float64, rises bool) Corridor {
	b.snap = 0
	if height := b.Top - b.Bottom; !math.IsInf(height, 1) {
		b.snap = rounding * height
	}
	c := b.corridor(error, loose)
	if rises && !(slices.IsSortedFunc(c.Lower, byY) && slices.IsSortedFunc(c.Upper, byY)) {
		for i := 1; i < len(c.Lower); i++ {
			c.Lower[i].Y = max(c.Lower[i].Y, c.Lower[i-1].Y)
		}
		for i := len(c.Upper) - 2; i >= 0; i-- {
			c.Upper[i].Y = min(c.Upper[i].Y, c.Upper[i+1].Y)
		}
	}
	return c
}

func byY(a, b Vertex) int { return cmp.Compare(a.Y, b.Y) }

// rises tells whether the truth nowhere falls.
func (b *Band) rises() bool {
	return slices.IsSortedFunc(b.Samples, func(a, b Sample) int { return cmp.Compare(a.Y, b.Y) })
}

func (b *Band) corridor(error, loose float64) Corridor {
	b.lower, b.upper = b.lower[:0], b.upper[:0]
	of := func(s Sample) float64 {
		if s.Loose {
			return loose
		}
		return error
	}
	for i, s := range b.Samples {
		e := of(s)
		b.lower = b.put(b.lower, s.X, max(s.Y-e, b.Bottom))
		b.upper = b.put(b.upper, s.X, min(s.Y+e, s.Cap, b.Top))
		if i+1 == len(b.Samples) {
			break
		}
		next := b.Samples[i+1]
		switch {
		case next.X == s.X:
		case s.Gap:
			b.lower = b.put(b.put(b.lower, s.X, b.Bottom), next.X, b.Bottom)
			b.upper = b.put(b.put(b.upper, s.X, b.Top), next.X, b.Top)
		default:
			b.between(s, next, e, of(next))
		}
	}
	return Corridor{Lower: b.lower, Upper: b.upper}
}

// Fresh returns a band that shares nothing with this one.
func (b *Band) Fresh() *Band {
	f := *b
	f.Samples = slices.Clone(b.Samples)
	f.lower, f.upper, f.breaks = nil, nil, nil
	return &f
}

// rounding is by how much of its height an edge that meets the bottom or the top may
// miss it: a level line along the bottom must not be blocked by it.
const rounding = 1e-13

func (b *Band) put(chain []Vertex, x, y float64) []Vertex {
	if math.Abs(y-b.Bottom) <= b.snap {
		y = b.Bottom
	} else if math.Abs(y-b.Top) <= b.snap {
		y = b.Top
	}
	if b.ordinate != nil {
		y = b.ordinate(y)
	}
	return append(chain, Vertex{x, y})
}

// between adds vertices where an edge of the band bends between two samples: at
// the bottom, the top, the cap and the bends of the ordinate.
func (b *Band) between(s, next Sample, e, eNext float64) {
	at := func(t, from, to float64) float64 { return from + t*(to-from) }
	low, lowNext, high, highNext := s.Y-e, next.Y-eNext, s.Y+e, next.Y+eNext
	b.breaks = b.crossing(b.breaks[:0], low-b.Bottom, lowNext-b.Bottom)
	for _, y := range b.ordinateBends {
		b.breaks = b.crossing(b.breaks, low-y, lowNext-y)
	}
	for _, t := range b.sorted() {
		b.lower = b.put(b.lower, at(t, s.X, next.X), max(at(t, low, lowNext), b.Bottom))
	}
	b.breaks = b.crossing(b.breaks[:0], high-b.Top, highNext-b.Top)
	capped := !math.IsInf(s.Cap, 1) && !math.IsInf(next.Cap, 1)
	if capped {
		b.breaks = b.crossing(b.breaks, high-s.Cap, highNext-next.Cap)
		for _, y := range b.ordinateBends {
			b.breaks = b.crossing(b.breaks, s.Cap-y, next.Cap-y)
		}
	}
	for _, y := range b.ordinateBends {
		b.breaks = b.crossing(b.breaks, high-y, highNext-y)
	}
	for _, t := range b.sorted() {
		limit := b.Top
		if capped {
			limit = min(limit, at(t, s.Cap, next.Cap))
		}
		b.upper = b.put(b.upper, at(t, s.X, next.X), min(at(t, high, highNext), limit))
	}
}

// crossing adds the share of the way at which a difference changes its sign.
func (b *Band) crossing(to []float64, from, until float64) []float64 {
	if from < 0 && until > 0 || from > 0 && until < 0 {
		return append(to, from/(from-until))
	}
	return to
}

func (b *Band) sorted() []float64 {
	if len(b.breaks) > 1 {
		slices.Sort(b.breaks)
	}
	return b.breaks
}

// Floor returns the least error below which no path passes, however many corners
// it has: the half of what lies at one X, and what the cap cuts off.
func (b *Band) Floor() float64 {
	floor := 0.0
	for i := 0; i < len(b.Samples); {
		x := b.Samples[i].X
		low, high, most := math.Inf(1), math.Inf(-1), b.Top
		for ; i < len(b.Samples) && b.Samples[i].X == x; i++ {
			s := b.Samples[i]
			low, high, most = min(low, s.Y), max(high, s.Y), min(most, s.Cap)
		}
		floor = max(floor, (high-low)/2, high-most, b.Bottom-low)
	}
	return floor
}
