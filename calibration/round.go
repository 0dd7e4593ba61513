package calibration

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"gonum.org/v1/gonum/floats"

	"floatarc/calibration/band"
)

// Settings returns the inputs that the conditioner can be set to, rising: those of
// its list, or the multiples of its step from somewhat below the least input that it
// is told of to somewhat above the greatest. A point beyond the sender's readings
// still turns the line within them.
func (r *Rig) Settings() []float64 { return r.settings(1) }

// settings returns the settings at so many steps from one to the next.
func (r *Rig) settings(every int) []float64 {
	told := r.Told(r.Level)
	ends := sorted(r.InputAt(told.Low.Travel), r.InputAt(told.High.Travel))
	from, to := r.Conditioner.Limits()
	var out []float64
	if all := r.Conditioner.Inputs; all != nil {
		out = slices.Clone(all)
	} else {
		step := r.Step() * float64(every)
		margin := math.Max(step, beyond*(ends[1]-ends[0]))
		for k := math.Floor((ends[0] - margin) / step); k <= math.Ceil((ends[1]+margin)/step); k++ {
			out = append(out, k*step)
		}
	}
	return slices.DeleteFunc(out, func(v float64) bool { return v < max(0, from) || v > to })
}

// beyond is the share of the inputs by which settings go beyond them.
const beyond = 0.125

// Step returns the step of the conditioner's inputs, ohm: 1 where it is not known,
// and no finer than a hundred thousandth of the inputs.
func (r *Rig) Step() float64 {
	step := r.Conditioner.Step
	if step <= 0 {
		return 1
	}
	const finest = 1e-5
	span := math.Abs(r.InputAt(r.Level.High) - r.InputAt(r.Level.Low))
	return step * math.Max(1, math.Ceil(finest*span/step))
}

// fine is how far the error of a search on a grid is followed, as a share of the
// dial: the grid itself is far coarser.
const fine = 1e-6

// unseen is the error, as a share of the dial, that no eye sees: so much more of it
// at a blind band is taken for less of it elsewhere.
const unseen = 5e-4

// mostStops is over how many settings a search goes at a time.
const mostStops = 400

// ErrFewSettings is returned where no two settings of the conditioner move the needle
// over the sender's inputs.
var ErrFewSettings = errors.New("no two settings of the conditioner move the needle over the sender's inputs, expected settings among them")

// Rounded returns the points, at most so many, with the least worst error whose
// inputs the conditioner can be set to and whose positions are among those given,
// rising: the optimum on that grid, not the free optimum rounded. Its Least and
// Live are of the grid.
//
// Of more than a few hundred settings it looks at even ones first, and then more
// and more closely near the best of these and near the free points.
func (s *Search) Rounded(places int, positions []float64) (Best, error) {
	all := s.rig.Settings()
	if len(all) < 2 {
		return Best{}, ErrFewSettings
	}
	every := 1
	if s.rig.Conditioner.Inputs == nil {
		every = (len(all) + mostStops - 1) / mostStops
	}
	free, err := s.Best(places)
	if err != nil {
		return free, err
	}
	best, err := s.onGrid(places, positions, s.rig.settings(every), all, free)
	if err != nil {
		return best, err
	}
	for every > 1 {
		reach := float64(every) * s.rig.Step()
		every = max(1, every/finer)
		near := slices.DeleteFunc(s.rig.settings(every), func(input float64) bool {
			return !slices.ContainsFunc(slices.Concat(best.Points, free.Points), func(p Point) bool {
				return math.Abs(p.InputOhms-input) <= reach
			})
		})
		if closer, err := s.onGrid(places, positions, near, all, best); err == nil && closer.beats(best) {
			best = closer
		}
	}
	return best, nil
}

// beats tells whether points have less error than others, where the eye sees it, or
// less away from the stops.
func (b Best) beats(other Best) bool {
	if math.Abs(b.Least-other.Least) > 100*unseen {
		return b.Least < other.Least
	}
	return b.Live < other.Live
}

// finer is by how much finer each closer look at a grid is.
const finer = 8

// onGrid returns the best points on some of the settings; their errors are near
// those of others.
func (s *Search) onGrid(places int, positions, settings, all []float64, near Best) (Best, error) {
	positions = s.reached(positions)
	var y []float64
	for _, p := range positions {
		y = append(y, s.drive(p))
	}
	var stops []band.Stop
	for _, input := range settings {
		stops = append(stops, band.Stop{X: s.sign * s.rig.Conditioner.Law.X(input), Y: y})
	}
	if s.sign < 0 {
		slices.Reverse(stops)
	}
	grid := s.truth.Fresh()
	grid.Resolution, grid.Slack = fine, unseen
	first, last := grid.Samples[0].X, grid.Samples[len(grid.Samples)-1].X
	loosen(grid.Samples, secondStop(stops, first, last), secondStop(stops, last, first))
	worst, live, path, ok := grid.LeastNear(near.Least/100, near.Live/100, band.OnGrid(stops, true), places)
	if !ok {
		return Best{}, ErrNoPlan
	}
	if len(path) < 2 {
		return Best{}, ErrFewSettings
	}
	best := Best{Least: 100 * worst, Live: 100 * live}
	for _, p := range s.points(path) { // exactly on the grid again
		input, position := all[floats.NearestIdx(all, p.InputOhms)], positions[floats.NearestIdx(positions, p.Position)]
		best.Points = append(best.Points, s.rig.free(p.Label, input, position))
	}
	return best, nil
}

// reached returns those of the positions that the needle reaches; where it falls
// short of the dial, its own ends too, on which it rests.
func (s *Search) reached(positions []float64) []float64 {
	needle := s.rig.Conditioner.Needle
	if needle == nil {
		return positions
	}
	bottom, top := needle.Ends()
	out := []float64{bottom}
	for _, p := range positions {
		if p > bottom && p < top {
			out = append(out, p)
		}
	}
	return append(out, top)
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

// RoundMarks returns the points with their inputs moved to settings of the
// conditioner, their positions kept: of the two next to each, those that together
// leave the least worst error, away from the stops and on the mean. What they stand
// for is what the settings stand for.
func (r *Rig) RoundMarks(points []Point) ([]Point, error) {
	settings := r.Settings()
	var candidates []Point
	var of []int // the point that a candidate is for
	for i, p := range points {
		at, exact := slices.BinarySearch(settings, p.InputOhms)
		near := settings[max(0, at-1):min(len(settings), at+1)]
		if exact {
			near = settings[at : at+1]
		}
		for _, input := range near {
			moved := r.free(p.Label, input, p.Position)
			if moved.End == p.End && p.Blind {
				moved.Litres, moved.Share = p.Litres, p.Share
			}
			candidates, of = append(candidates, moved), append(of, i)
		}
	}
	if len(candidates) == 0 {
		return nil, ErrFewSettings
	}
	chosen := newStretches(r.Curve(r.Level), r.Conditioner, candidates).each(of, len(points))
	if chosen == nil {
		return nil, fmt.Errorf("the conditioner has too few settings for %d points, expected one of its own for each", len(points))
	}
	var out []Point
	for _, i := range chosen {
		out = append(out, candidates[i])
	}
	return out, nil
}
