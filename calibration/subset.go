package calibration

import (
	"math"

	"floatarc/gauge"
)

// Choose returns those of the points, at most places of them, with the least
// worst error from the empty to the full mark on level ground; the end points
// are not forced. Among choices of the same worst error (a blind band can set
// one that no choice lowers) it takes the least away from the stops, and among
// those the least mean error.
//
// The worst error of a choice is the greatest over its stretches between
// neighbours, and its mean error a sum over them, so that dynamic programming
// over the last point chosen finds the optimum: once for the whole dial, once
// more away from the stops among the stretches that the first optimum allows, and
// once for the mean among those that both allow.
func (r *Rig) Choose(points []Point, places int) []Point {
	if len(points) <= max(0, places) {
		return points
	}
	return r.Curve(r.Level).Choose(points, places)
}

// Choose is [Rig.Choose] on a curve of level ground.
func (c *Curve) Choose(points []Point, places int) []Point {
	switch {
	case places < 1:
		return nil
	case len(points) <= places:
		return points
	}
	s := newStretches(c, c.rig.Conditioner, points)
	out := make([]Point, 0, places)
	for _, i := range s.best(1e-9, places).points {
		out = append(out, points[i])
	}
	return out
}

// best returns the choice of at most places points with the least worst error, then
// among those within a tie of it the least over the live band away from the stops,
// then the least mean.
func (s *stretches) best(tie float64, places int) choice {
	whole := s.least(places, func(c cost) float64 { return c.whole }, math.Max).error + tie
	if math.IsInf(whole, 1) {
		return choice{error: whole}
	}
	away := s.least(places, func(c cost) float64 {
		if c.whole > whole {
			return math.Inf(1)
		}
		return c.away
	}, math.Max).error + tie
	return s.least(places, func(c cost) float64 {
		if c.whole > whole || c.away > away {
			return math.Inf(1)
		}
		return c.sum
	}, func(a, b float64) float64 { return a + b })
}

// each returns one candidate for each of so many points, rising, as [stretches.best]
// does; nil if no choice keeps their order. It forbids every stretch that leaves one
// out.
func (s *stretches) each(of []int, points int) []int {
	forbid := func(c *cost) { c.whole = math.Inf(1) }
	for j := range s.n {
		if of[j] > 0 {
			forbid(&s.head[j])
		}
		if of[j] < points-1 {
			forbid(&s.tail[j])
		}
		for i := range j {
			if of[i] != of[j]-1 || !s.rises(i, j) {
				forbid(&s.between[i][j])
			}
		}
	}
	return s.best(unseen, points).points
}

// A cost is the worst error over one stretch, in dial positions, everywhere and
// away from the stops, and the error summed over its litres.
type cost struct{ whole, away, sum float64 }

// stretches hold the cost of every stretch: between points i and j, and of
// holding the first or the last point's position to the end.
type stretches struct {
	n          int
	x          []float64 // of the points
	between    [][]cost
	head, tail []cost
}

func newStretches(c *Curve, conditioner gauge.Conditioner, points []Point) *stretches {
	law, needle := conditioner.Law, conditioner.Needle
	n := len(points)
	s := &stretches{n: n, between: make([][]cost, n), head: make([]cost, n), tail: make([]cost, n)}
	x := make([]float64, len(c.Samples))
	sign := c.sign()
	for k, sample := range c.Samples {
		x[k] = sign * law.X(sample.Input)
	}
	s.x = make([]float64, n)
	for i, p := range points {
		s.x[i] = sign * law.X(p.InputOhms)
	}
	away := c.rig.away(c.rel)
	add := func(to *cost, k int, shown float64) {
		off := math.Abs(shown - c.Samples[k].Position)
		to.whole = math.Max(to.whole, off)
		if k > 0 {
			to.sum += off * (c.Samples[k].Litres - c.Samples[k-1].Litres)
		}
		if away(c.Samples[k]) {
			to.away = math.Max(to.away, off)
		}
	}
	for i, p := range points {
		s.between[i] = make([]cost, n)
		for k := range x {
			if x[k] <= s.x[i] {
				add(&s.head[i], k, p.Position)
			}
			if x[k] >= s.x[i] {
				add(&s.tail[i], k, p.Position)
			}
			for j := i + 1; j < n; j++ {
				if s.rises(i, j) && x[k] >= s.x[i] && x[k] <= s.x[j] {
					share := (x[k] - s.x[i]) / (s.x[j] - s.x[i])
					from, to := needle.Drive(p.Position), needle.Drive(points[j].Position)
					add(&s.between[i][j], k, needle.Position(from+share*(to-from)))
				}
			}
		}
	}
	return s
}

// rises tells whether a point lies behind another on rising fuel.
func (s *stretches) rises(i, j int) bool { return s.x[j] > s.x[i] }

// A choice is a set of points and its worst error.
type choice struct {
	error  float64
	points []int
}

// least returns the choice of at most places points with the least cost, the
// costs of its stretches joined by their greatest or their sum.
func (s *stretches) least(places int, of func(cost) float64, join func(a, b float64) float64) choice {
	best := choice{error: math.Inf(1)}
	before := make([]choice, s.n) // the best choice that ends with point j
	for j := range before {
		before[j] = choice{of(s.head[j]), []int{j}}
	}
	for used := 1; ; used++ {
		for j, b := range before {
			if total := join(b.error, of(s.tail[j])); total < best.error {
				best = choice{total, b.points}
			}
		}
		if used == places {
			return best
		}
		next := make([]choice, s.n)
		for j := range next {
			next[j].error = math.Inf(1)
			for i := range j {
				if e := join(before[i].error, of(s.between[i][j])); e < next[j].error {
					next[j] = choice{e, append(before[i].points[:len(before[i].points):len(before[i].points)], j)}
				}
			}
		}
		before = next
	}
}
