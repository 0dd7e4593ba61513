package band

import (
	"cmp"
	"math"
	"slices"
)

// A Course is the way in which a path crosses a corridor: [Corridor.Spanning] or
// [Corridor.Held].
type Course func(c Corridor, corners int) ([]Vertex, bool)

// resolution of the error as a share of the band's height, unless the band says
// otherwise: far below what any dial shows.
const resolution = 1e-11

// Least returns the least worst error of a path of at most so many corners, and
// then among such paths one with the least worst error where the samples are not
// loose. Both errors are those at the samples and on the straight lines between
// them. It reports false if no path has so few corners, whatever its error.
func (b *Band) Least(course Course, corners int) (worst, tight float64, path []Vertex, ok bool) {
	return b.least(course, corners, b.guess(course, corners))
}

// LeastNear is [Band.Least] for errors that will lie somewhat above two others: a
// path on a grid is somewhat worse than a free one.
func (b *Band) LeastNear(worst, tight float64, course Course, corners int) (float64, float64, []Vertex, bool) {
	return b.least(course, corners, guess{worst, tight})
}

// A guess is where the two errors will lie, to begin the search.
type guess struct{ worst, tight float64 }

func (b *Band) least(course Course, corners int, near guess) (worst, tight float64, path []Vertex, ok bool) {
	rises := b.rises()
	worst, path, ok = b.bisect(b.Floor(), b.widest(), near.worst, func(e float64) ([]Vertex, bool) {
		return course(b.draw(e, e, rises), corners)
	})
	if !ok {
		return 0, 0, nil, false
	}
	if rises {
		path = risen(path)
	}
	if !slices.ContainsFunc(b.Samples, func(s Sample) bool { return s.Loose }) {
		return worst, worst, path, true
	}
	allowed := worst + b.Slack
	tight, tighter, ok := b.bisect(0, allowed, near.tight, func(e float64) ([]Vertex, bool) {
		return course(b.draw(e, allowed, rises), corners)
	})
	if !ok { // rounding alone: the first path is one
		return worst, worst, path, true
	}
	if rises {
		tighter = risen(tighter)
	}
	return worst, tight, tighter, true
}

// risen returns the path of the greatest ordinate so far, which nowhere falls: it
// has no more corners, since each low point that goes makes room for the place
// where the path comes up again.
func risen(path []Vertex) []Vertex {
	out := path[:1:1]
	for i, v := range path[1:] {
		top := out[len(out)-1].Y
		before := path[i]
		switch {
		case v.Y < top:
			continue
		case before.Y < top:
			out = append(out, Vertex{before.X + (v.X-before.X)*(top-before.Y)/(v.Y-before.Y), top})
		}
		out = append(out, v)
	}
	if end := path[len(path)-1]; end.X > out[len(out)-1].X { // held to the end
		out = append(out, Vertex{end.X, out[len(out)-1].Y})
	}
	return out
}

// coarse is how many samples of a long curve one stands for in the first guess.
const coarse = 16

// guess solves the problem on a part of the samples.
func (b *Band) guess(course Course, corners int) guess {
	n := len(b.Samples)
	if n < 4*coarse {
		return guess{}
	}
	part := b.Fresh()
	part.Samples = part.Samples[:0]
	for i, s := range b.Samples {
		edge := i == 0 || i == n-1 || s.Gap || b.Samples[i-1].X == s.X || b.Samples[i+1].X == s.X
		if edge || i%coarse == 0 {
			part.Samples = append(part.Samples, s)
		}
	}
	var near guess
	near.worst, near.tight, _, _ = part.least(course, corners, guess{})
	return near
}

// widest returns an error within which a level line lies, if the caps let it.
func (b *Band) widest() float64 {
	low, high := math.Inf(1), math.Inf(-1)
	for _, s := range b.Samples {
		low, high = min(low, s.Y), max(high, s.Y)
	}
	widest := high - low
	for _, end := range []float64{b.Bottom, b.Top} {
		if !math.IsInf(end, 0) {
			widest = max(widest, math.Abs(high-end), math.Abs(end-low))
		}
	}
	return widest
}

// bisect returns the least error between two at which there is a path, and the
// path. A guess other than 0 shortens the search.
func (b *Band) bisect(low, high, near float64, path func(e float64) ([]Vertex, bool)) (least float64, best []Vertex, ok bool) {
	resolution := cmp.Or(b.Resolution, resolution*b.widest())
	try := func(e float64) bool {
		p, ok := path(e)
		if ok {
			high, best = e, p
		} else {
			low = e
		}
		return ok
	}
	for step := 1e4 * resolution; near > 0 && step < high-low; step *= 8 {
		for _, e := range [2]float64{near + step, near - step} {
			if e > low && e < high {
				try(e)
			}
		}
	}
	if best == nil && !try(max(low, high)+resolution) {
		return 0, nil, false
	}
	for high-low > resolution {
		middle := (low + high) / 2
		if middle <= low || middle >= high {
			break // neighbours among the numbers
		}
		try(middle)
	}
	return high, best, true
}
