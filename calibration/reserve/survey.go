package reserve

import (
	"cmp"
	"math"
	"runtime"
	"slices"
	"sync"
	"sync/atomic"

	"gonum.org/v1/gonum/optimize"

	"floatarc/geometry"
)

// A Spot is a quantity at an attitude.
type Spot struct {
	Attitude geometry.Attitude
	Litres   float64
}

// found is where a figure is least, and how much.
type found struct {
	at    geometry.Attitude
	value float64
}

func (f found) spot() Spot { return Spot{f.at, f.value} }

// negative returns a figure of which the most was looked for as the least.
func (f found) negative() found { return found{f.at, -f.value + 0} }

// fineness is the number of attitudes each way at which an envelope is looked at,
// and coarseness where a promise does not hang on it.
const (
	fineness   = 21
	coarseness = 5
)

// A figure of which the least is looked for, and where it is put.
type figure struct {
	of     func(*stance) float64
	starts int    // from how many of the lowest hollows of the grid it is looked for between nodes
	least  *found // nil if only the looking counts
}

// tries is how often a figure is looked at from each start, and still after how many
// without gain the search ends.
const (
	tries = 60
	still = 8
)

// survey finds where over the envelope each figure is least, and how much: on an
// n by n grid, all figures of an attitude together, and then between its nodes.
func (p *Promise) survey(n int, figures ...figure) error {
	grid := p.Envelope.Grid(n)
	values, err := p.look(grid, figures)
	if err != nil {
		return err
	}
	each(len(figures), func(k int) {
		hollows := hollowsOf(values, k)
		first := hollows[0]
		best := found{grid[first[0]][first[1]], values[first[0]][first[1]][k]}
		for _, h := range hollows[:min(figures[k].starts, len(hollows))] {
			if s := p.descend(grid[h[0]][h[1]], 1/float64(n-1), figures[k].of); s.value < best.value {
				best = s
			}
		}
		if into := figures[k].least; into != nil {
			*into = p.plain(best, figures[k].of)
		}
	})
	return nil
}

// plain returns what was found, or a place that is as good and easier to tell:
// level, without a lean, or with the left side up where both sides are alike.
func (p *Promise) plain(f found, of func(*stance) float64) found {
	upright, mirrored := f.at, f.at
	upright.LeftUp, mirrored.LeftUp = 0, math.Abs(f.at.LeftUp)
	for _, a := range []geometry.Attitude{{}, upright, mirrored} {
		if a == f.at {
			continue
		}
		if s, err := p.stand(a); err == nil {
			if v := of(s); v <= f.value+p.slack() {
				return found{a, v}
			}
		}
	}
	return f
}

// look returns the figures at every attitude of a grid.
func (p *Promise) look(grid [][]geometry.Attitude, figures []figure) ([][][]float64, error) {
	values := make([][][]float64, len(grid))
	wide := len(grid[0])
	for i := range values {
		values[i] = make([][]float64, wide)
	}
	var done atomic.Int64
	var watch sync.Mutex
	var failed error
	each(len(grid)*wide, func(k int) {
		s, err := p.stand(grid[k/wide][k%wide])
		if err != nil {
			watch.Lock()
			defer watch.Unlock()
			failed = err
			return
		}
		row := make([]float64, len(figures))
		for f, of := range figures {
			row[f] = of.of(s)
		}
		values[k/wide][k%wide] = row
		if p.Watch != nil {
			watch.Lock()
			defer watch.Unlock()
			p.Watch(int(done.Add(1)), len(grid)*wide)
		}
	})
	return values, failed
}

// each calls a function for every number below n, on all processors.
func each(n int, call func(int)) {
	var next atomic.Int64
	var all sync.WaitGroup
	for range min(n, runtime.GOMAXPROCS(0)) {
		all.Go(func() {
			for i := int(next.Add(1)) - 1; i < n; i = int(next.Add(1)) - 1 {
				call(i)
			}
		})
	}
	all.Wait()
}

// hollowsOf returns the nodes at which a figure is no more than at any beside them,
// the lowest first.
func hollowsOf(values [][][]float64, k int) [][2]int {
	at := func(i, j int) float64 { return values[i][j][k] }
	var out [][2]int
	for i := range values {
		for j := range values[i] {
			low := true
			for di := -1; di <= 1; di++ {
				for dj := -1; dj <= 1; dj++ {
					a, b := i+di, j+dj
					if a >= 0 && a < len(values) && b >= 0 && b < len(values[i]) && at(a, b) < at(i, j) {
						low = false
					}
				}
			}
			if low {
				out = append(out, [2]int{i, j})
			}
		}
	}
	slices.SortStableFunc(out, func(a, b [2]int) int { return cmp.Compare(at(a[0], a[1]), at(b[0], b[1])) })
	return out
}

// descend looks for the least figure about an attitude, at first a step away, as a
// share of the envelope.
func (p *Promise) descend(from geometry.Attitude, step float64, of func(*stance) float64) found {
	e := p.Envelope
	best := found{from, math.Inf(1)}
	extents := []float64{e.NoseUp, e.LeftUp}
	attitude := func(x []float64) geometry.Attitude {
		at := from
		k := 0
		for i, into := range []*float64{&at.NoseUp, &at.LeftUp} {
			if extents[i] > 0 {
				*into += x[k] * extents[i]
				k++
			}
		}
		return e.folded(at) // so that a search from an edge goes inward
	}
	problem := optimize.Problem{Func: func(x []float64) float64 {
		at := attitude(x)
		s, err := p.stand(at)
		if err != nil {
			return math.Inf(1)
		}
		v := of(s)
		if v < best.value {
			best = found{at, v}
		}
		return v
	}}
	var start []float64
	for _, extent := range extents {
		if extent > 0 {
			start = append(start, 0)
		}
	}
	if len(start) == 0 {
		problem.Func(nil)
		return best
	}
	settings := &optimize.Settings{FuncEvaluations: tries, Converger: &optimize.FunctionConverge{Absolute: p.slack() / 10, Iterations: still}}
	// The best place that was tried counts, however the search ended.
	_, _ = optimize.Minimize(problem, start, settings, &optimize.NelderMead{SimplexSize: step})
	return best
}
