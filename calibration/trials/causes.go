package trials

import (
	"math"

	"gonum.org/v1/gonum/stat"
)

// Causes returns which share of the variance of some figures, added up, each measure
// causes by itself: the square of their correlation, since the measures are drawn
// independently (the first-order effect of a nearly linear model; A. Saltelli et al.,
// Global Sensitivity Analysis, 2008, sec. 1.2.5, from memory). What is missing from 1 they
// cause together, or by bending. Of measures that hang together none causes anything by
// itself: there are no shares.
func (r *Result) Causes(figures ...int) []float64 {
	if r.Together {
		return nil
	}
	out := make([]float64, len(r.Measures))
	total := 0.0
	for _, k := range figures {
		values, rigs := r.having(k)
		if len(values) < 2 {
			continue
		}
		variance := stat.Variance(values, nil)
		if !(variance > 0) {
			continue
		}
		total += variance
		for j := range r.Measures {
			drawn := make([]float64, len(rigs))
			for i, rig := range rigs {
				drawn[i] = r.Drawn[j][rig]
			}
			c := stat.Correlation(drawn, values, nil)
			out[j] += c * c * variance
		}
	}
	for j := range out {
		if total > 0 {
			out[j] /= total
		}
	}
	return out
}

// having returns a figure of the rigs that have it, and which those are.
func (r *Result) having(figure int) (values []float64, rigs []int) {
	for i, v := range r.Figures[figure] {
		if !math.IsNaN(v) {
			values, rigs = append(values, v), append(rigs, i)
		}
	}
	return values, rigs
}
