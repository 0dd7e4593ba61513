package ink

import (
	"cmp"
	"slices"
)

// Spread moves places along a line apart until neighbours keep a gap and all lie between
// two ends, each as little as can be in the square: neighbours that are too near are pooled
// and share the move (pool adjacent violators; R. Barlow et al., Statistical Inference under
// Order Restrictions, 1972, from memory). Where the ends leave no room for the gap, it
// shrinks to what there is. The order of the places is kept; equal ones keep that in which
// they are given.
func Spread[L ~float64](places []L, gap, low, high L) []L {
	high = max(low, high)
	if n := L(len(places) - 1); n > 0 {
		gap = min(gap, (high-low)/n)
	}
	order := make([]int, len(places))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(places[a], places[b]) })
	out := make([]L, len(places))
	top := high - L(len(places)-1)*gap
	k := 0
	for _, p := range pooled(places, order, gap) {
		for range p.count {
			out[order[k]] = min(high, max(low, min(top, p.mean()))+L(k)*gap)
			k++
		}
	}
	return out
}

// A pool is neighbours that lie a gap apart each.
type pool[L ~float64] struct {
	sum   L // of places less the gaps before them
	count int
}

func (p pool[L]) mean() L { return p.sum / L(p.count) }

// pooled returns places in their order as pools that keep clear of each other.
func pooled[L ~float64](places []L, order []int, gap L) []pool[L] {
	var out []pool[L]
	for k, i := range order {
		p := pool[L]{places[i] - L(k)*gap, 1}
		for len(out) > 0 && out[len(out)-1].mean() > p.mean() {
			last := out[len(out)-1]
			out, p = out[:len(out)-1], pool[L]{last.sum + p.sum, last.count + p.count}
		}
		out = append(out, p)
	}
	return out
}
