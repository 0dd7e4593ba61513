package calibration

import (
	"math"

	"floatarc/gauge"
)

// A Move is a stored pair that alone is set to another input, its position kept.
type Move struct {
	Pair    int     // index
	To      float64 // input, ohm
	Percent float64 // worst error that is left
}

// moveSteps is how many inputs are tried for a pair in each closer look.
const (
	moveSteps  = 48
	moveRounds = 3
)

// Moves returns for each stored pair the input that leaves the least worst error
// when that pair alone is moved between its neighbours.
func (c *Curve) Moves(conditioner gauge.Conditioner, stored []gauge.Pair) []Move {
	out := make([]Move, len(stored))
	for i, p := range stored {
		low, high := c.room(stored, i)
		best := Move{Pair: i, To: p.Input, Percent: c.sampled(conditioner, stored)}
		for range moveRounds {
			step := (high - low) / moveSteps
			for k := range moveSteps + 1 {
				moved := append([]gauge.Pair{}, stored...)
				moved[i].Input = low + step*float64(k)
				if e := c.sampled(conditioner, moved); e < best.Percent {
					best.To, best.Percent = moved[i].Input, e
				}
			}
			low, high = math.Max(low, best.To-step), math.Min(high, best.To+step)
		}
		out[i] = best
	}
	return out
}

// room returns the inputs between which a pair may move: its neighbours', or the
// ends of what the sender shows.
func (c *Curve) room(stored []gauge.Pair, i int) (low, high float64) {
	input := stored[i].Input
	low, high = input, input
	for _, s := range c.Samples {
		low, high = math.Min(low, s.Input), math.Max(high, s.Input)
	}
	for j, q := range stored {
		if j == i {
			continue
		}
		if q.Input < input {
			low = math.Max(low, q.Input)
		} else {
			high = math.Min(high, q.Input)
		}
	}
	margin := 1e-3 * (high - low) // never two pairs on one input
	return low + margin, high - margin
}

// sampled returns the worst error at the samples, in percent; +Inf for pairs that
// the conditioner refuses.
func (c *Curve) sampled(conditioner gauge.Conditioner, pairs []gauge.Pair) float64 {
	ind, err := conditioner.Lines(pairs)
	if err != nil {
		return math.Inf(1)
	}
	worst, percent := 0.0, c.percent(ind)
	for _, s := range c.Samples {
		worst = math.Max(worst, percent(s))
	}
	return worst
}
