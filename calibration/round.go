package calibration

import (
	"fmt"
	"math"
	"slices"

	"floatarc/calibration/band"
)

// Settings returns the inputs that the conditioner can be set to, rising, from the
// one below the rig's least input to the one above its greatest: those of its list,
// or the multiples of its step, 1 ohm where that is not known.
func (r *Rig) Settings() []float64 {
	least, most := r.Wiring.Input(r.Sender.Track().Ohms(r.Level.Low)), r.Wiring.Input(r.Sender.Track().Ohms(r.Level.High))
	if least > most {
		least, most = most, least
	}
	from, to := r.Conditioner.Limits()
	least, most = math.Max(least, from), math.Min(most, to)
	var out []float64
	if all := r.Conditioner.Inputs; all != nil {
		first, _ := slices.BinarySearch(all, least)
		last, exact := slices.BinarySearch(all, most)
		if !exact {
			last = min(last, len(all)-1)
		}
		out = all[max(0, first-1):max(0, last+1)]
	} else {
		step := r.Step()
		for k := math.Floor(least / step); k <= math.Ceil(most/step) && len(out) < mostSettings; k++ {
			out = append(out, k*step)
		}
	}
	return slices.DeleteFunc(slices.Clone(out), func(v float64) bool { return v < from || v > to })
}

// mostSettings bounds the grid of a box whose step is far below a sender's ohms.
const mostSettings = 20000

// Step returns the step of the conditioner's inputs; 1 ohm where it is not known.
func (r *Rig) Step() float64 {
	if r.Conditioner.Step > 0 {
		return r.Conditioner.Step
	}
	return 1
}

// fine is how far the error of a search on a grid is followed, as a share of the
// dial: the grid itself is far coarser.
const fine = 1e-6

// unseen is the error, as a share of the dial, that no eye sees: so much more of it
// at a blind band is taken for less of it elsewhere.
const unseen = 5e-4

// Rounded returns the points, at most so many, with the least worst error whose
// inputs the conditioner can be set to and whose positions are among those given,
// rising: the optimum on that grid, not the free optimum rounded. Its Least and
// Live are of the grid.
func (s *Search) Rounded(places int, positions []float64) (Best, error) {
	bottom, top := s.rig.Conditioner.Needle.Ends()
	var y []float64
	for _, p := range positions {
		if p >= bottom && p <= top {
			y = append(y, s.drive(p))
		}
	}
	var stops []band.Stop
	for _, input := range s.rig.Settings() {
		stops = append(stops, band.Stop{X: s.sign * s.rig.Conditioner.Law.X(input), Y: y})
	}
	if s.sign < 0 {
		slices.Reverse(stops)
	}
	coarse := s.truth.Fresh()
	coarse.Resolution, coarse.Slack = fine, unseen
	coarse.Samples = slices.Clone(coarse.Samples)
	first, last := coarse.Samples[0].X, coarse.Samples[len(coarse.Samples)-1].X
	loosen(coarse.Samples, secondStop(stops, first, last), secondStop(stops, last, first))
	worst, live, path, ok := coarse.Least(band.OnGrid(stops, true), places)
	if !ok {
		return Best{}, ErrNoPlan
	}
	best := Best{Least: 100 * worst, Live: 100 * live}
	settings := s.rig.Settings()
	for _, p := range s.points(path) { // exactly on the grid again
		best.Points = append(best.Points, s.rig.free(p.Label, nearestOf(settings, p.InputOhms), nearestOf(positions, p.Position)))
	}
	return best, nil
}

// secondStop returns the X of the second stop from an end of the inputs: on a grid
// the needle swings from what a blind band asks of it to the truth between two.
func secondStop(stops []band.Stop, end, other float64) float64 {
	var inside []float64
	for _, stop := range stops {
		if (stop.X-end)*(other-end) >= 0 {
			inside = append(inside, stop.X)
		}
	}
	if end > other {
		slices.Reverse(inside)
	}
	if len(inside) == 0 {
		return end
	}
	return inside[min(1, len(inside)-1)]
}

func nearestOf(rising []float64, v float64) float64 {
	i, _ := slices.BinarySearch(rising, v)
	if i == len(rising) || i > 0 && v-rising[i-1] <= rising[i]-v {
		i--
	}
	return rising[i]
}

// RoundMarks returns the points with their inputs moved to settings of the
// conditioner, their positions kept: of the two next to each, those that together
// leave the least worst error. What they stand for is what the settings stand for.
func (r *Rig) RoundMarks(points []Point) ([]Point, error) {
	settings := r.Settings()
	var candidates []Point
	var of []int // the point that a candidate is for
	for i, p := range points {
		at, _ := slices.BinarySearch(settings, p.InputOhms)
		if at < len(settings) && settings[at] == p.InputOhms {
			at++ // itself, and the one above it
		}
		for _, input := range settings[max(0, at-1):min(len(settings), at+1)] {
			moved := r.free(p.Label, input, p.Position)
			if moved.Blind = moved.Blind && p.Blind; moved.Blind {
				moved.Litres, moved.Share = p.Litres, p.Share
			}
			candidates, of = append(candidates, moved), append(of, i)
		}
	}
	s := newStretches(r.Curve(r.Level), r.Conditioner, candidates)
	chosen := s.each(of, len(points))
	if chosen == nil {
		return nil, fmt.Errorf("the conditioner has too few settings for %d points, expected one of its own for each", len(points))
	}
	var out []Point
	for _, i := range chosen {
		out = append(out, candidates[i])
	}
	return out, nil
}

// each returns one candidate for each of so many points, with the least worst
// error; nil if no choice keeps their order.
func (s *stretches) each(of []int, points int) []int {
	best := choice{error: math.Inf(1)}
	before := make([]choice, s.n)
	for j := range before {
		before[j] = choice{math.Inf(1), nil}
		for i := -1; i < j; i++ {
			c := choice{math.Inf(1), nil}
			switch {
			case i < 0 && of[j] == 0:
				c = choice{s.head[j].whole, nil}
			case i >= 0 && of[i] == of[j]-1 && s.rises(i, j):
				c = choice{math.Max(before[i].error, s.between[i][j].whole), before[i].points}
			}
			if c.error < before[j].error {
				before[j] = choice{c.error, append(c.points[:len(c.points):len(c.points)], j)}
			}
		}
		if total := math.Max(before[j].error, s.tail[j].whole); of[j] == points-1 && total < best.error {
			best = choice{total, before[j].points}
		}
	}
	return best.points
}
