package trials

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/stat"
)

// A Band holds the middle 95 of 100 rigs of a figure: its probabilistically symmetric
// coverage interval (JCGM 101:2008, 7.7).
type Band struct{ Low, Middle, High float64 } // the 2.5, 50 and 97.5 percent quantiles

// Band returns that of a figure over the rigs that have it; NaN if none has.
func (r *Result) Band(figure int) Band {
	known := r.known(figure)
	slices.Sort(known)
	return Band{quantile(known, 0.025), quantile(known, 0.5), quantile(known, 0.975)}
}

// Quantile returns the value below which a share of the rigs has a figure.
func (r *Result) Quantile(figure int, share float64) float64 {
	known := r.known(figure)
	slices.Sort(known)
	return quantile(known, share)
}

// quantile returns that of sorted values; NaN of none.
func quantile(sorted []float64, share float64) float64 {
	if len(sorted) == 0 {
		return math.NaN()
	}
	return stat.Quantile(share, stat.LinInterp, sorted, nil)
}

// Overlaps tells whether two bands have values in common.
func (b Band) Overlaps(c Band) bool { return b.Low <= c.High && c.Low <= b.High }

// known returns the values of a figure that are numbers.
func (r *Result) known(figure int) []float64 {
	out, _ := r.having(figure)
	return out
}

// Share returns which share of the rigs that have a figure has it above a limit.
func (r *Result) Share(figure int, limit float64) float64 {
	above, known := 0, r.known(figure)
	for _, v := range known {
		if v > limit {
			above++
		}
	}
	return float64(above) / float64(len(known))
}
