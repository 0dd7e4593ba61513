package fullsize

import "math"

// spread moves places that rise apart until each lies a pitch above the one before,
// within lo and hi, as little as may be: the sum of squares is least. If they do not
// fit, they lie evenly. Neighbours in each other's way are pooled around their mean.
func spread(places []float64, pitch, lo, hi float64) []float64 {
	n := len(places)
	if n == 0 {
		return nil
	}
	if room := hi - lo; float64(n-1)*pitch > room {
		pitch = math.Max(0, room) / float64(max(1, n-1))
	}
	type pool struct {
		sum float64
		n   int
	}
	var pools []pool
	for i, at := range places {
		pools = append(pools, pool{at - float64(i)*pitch, 1})
		for k := len(pools) - 1; k > 0; k-- {
			a, b := pools[k-1], pools[k]
			if a.sum/float64(a.n) <= b.sum/float64(b.n) {
				break
			}
			pools = append(pools[:k-1], pool{a.sum + b.sum, a.n + b.n})
		}
	}
	out := make([]float64, 0, n)
	for _, p := range pools {
		mean := math.Max(lo, math.Min(hi-float64(n-1)*pitch, p.sum/float64(p.n)))
		for range p.n {
			out = append(out, mean+float64(len(out))*pitch)
		}
	}
	return out
}
