package calibration

import (
	"cmp"
	"math"
	"slices"
)

// Of a closer look: how many steps it takes, and how many looks follow each other,
// each at two steps of the one before.
const (
	closerSteps  = 16
	closerRounds = 4
)

// closer returns the greatest value of f between two travels and where it lies, found
// from the value at one between them.
func closer(most, at, lo, hi float64, f func(travel float64) float64) (float64, float64) {
	for range closerRounds {
		step := (hi - lo) / closerSteps
		if step <= 0 {
			break
		}
		for k := 1; k < closerSteps; k++ {
			t := lo + step*float64(k)
			if v := f(t); v > most {
				most, at = v, t
			}
		}
		lo, hi = max(lo, at-step), min(hi, at+step)
	}
	return most, at
}

const (
	rivals     = 0.01 // share of the greatest sample within which others are looked at too
	mostRivals = 6
)

// peak returns the greatest value of f over the curve, and where it lies: of the
// samples that stand out among their neighbours, those near the greatest are looked
// at more closely.
func (c *Curve) peak(f func(Sample) float64) (most float64, where Sample) {
	values := make([]float64, len(c.Samples))
	for i, s := range c.Samples {
		values[i] = f(s)
		if i == 0 || values[i] > most {
			most, where = values[i], s
		}
	}
	at := func(travel float64) float64 {
		q := c.rel.Litres(travel)
		if q < c.rig.Dial.Empty || q > c.rig.Dial.Full {
			return math.Inf(-1)
		}
		return f(c.at(q, travel))
	}
	var tops []int
	for i, v := range values {
		before, after := values[max(0, i-1)], values[min(len(values)-1, i+1)]
		if v >= before && v >= after && v >= most-rivals*math.Abs(most) {
			tops = append(tops, i)
		}
	}
	slices.SortStableFunc(tops, func(a, b int) int { return cmp.Compare(values[b], values[a]) })
	for _, i := range tops[:min(len(tops), mostRivals)] {
		lo, hi := c.Samples[max(0, i-1)].Travel, c.Samples[min(len(c.Samples)-1, i+1)].Travel
		if v, travel := closer(values[i], c.Samples[i].Travel, lo, hi, at); v > most {
			most, where = v, c.at(c.rel.Litres(travel), travel)
		}
	}
	return most, where
}
