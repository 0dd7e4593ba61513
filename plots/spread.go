package plots

import (
	"cmp"
	"slices"

	"gonum.org/v1/plot/vg"
)

// spread moves places along a line apart until neighbours keep a gap and all lie
// between two ends, if there is room, each as little as can be in the square: neighbours
// that are too near are pooled and share the move (pool adjacent violators; R. Barlow et
// al., Statistical Inference under Order Restrictions, 1972, from memory). The order of the
// places is kept; equal ones keep that in which they are given.
func spread(places []vg.Length, gap, low, high vg.Length) []vg.Length {
	order := make([]int, len(places))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(places[a], places[b]) })
	type pool struct {
		sum   vg.Length // of places less the gaps before them
		count int
	}
	mean := func(p pool) vg.Length { return p.sum / vg.Length(p.count) }
	var pools []pool
	for k, i := range order {
		p := pool{places[i] - vg.Length(k)*gap, 1}
		for len(pools) > 0 && mean(pools[len(pools)-1]) > mean(p) {
			last := pools[len(pools)-1]
			pools, p = pools[:len(pools)-1], pool{last.sum + p.sum, last.count + p.count}
		}
		pools = append(pools, p)
	}
	out := make([]vg.Length, len(places))
	top := high - vg.Length(len(places)-1)*gap
	k := 0
	for _, p := range pools {
		for range p.count {
			out[order[k]] = max(low, min(top, mean(p))) + vg.Length(k)*gap
			k++
		}
	}
	return out
}
