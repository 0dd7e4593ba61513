package band

import (
	"cmp"
	"math"
	"slices"
)

// A Stop is a place of a grid, and the ordinates that a corner may have there,
// rising.
type Stop struct {
	X float64
	Y []float64
}

// A node is a corner that a path on a grid can have.
type node struct {
	Vertex
	stop int
	from int // index of the corner before it, -1 at the first
}

// OnGrid is the course over corners on stops: see [Corridor.OnGrid].
func OnGrid(stops []Stop, held bool) Course {
	return func(c Corridor, corners int) ([]Vertex, bool) { return c.OnGrid(stops, held, corners) }
}

// OnGrid returns a path with the fewest corners, at most so many, whose corners
// all stand on the stops, which rise, each higher than the one before it: from end
// to end of the corridor, or held before its first corner and after its last one.
// It reports false if there is none.
//
// It goes from corner to corner, nearest first, with the range of slopes that
// clears every vertex passed, so that it finds the optimum on its grid.
func (c Corridor) OnGrid(stops []Stop, held bool, corners int) ([]Vertex, bool) {
	if len(c.Lower) == 0 || len(c.Upper) == 0 || !c.open() {
		return nil, false
	}
	s := newSearch(c, stops, held)
	var nodes []node
	reached := make([][]bool, len(stops))
	for i, stop := range stops {
		reached[i] = make([]bool, len(stop.Y))
		for r, y := range stop.Y {
			if s.begins(i, y) {
				reached[i][r] = true
				nodes = append(nodes, node{Vertex{stop.X, y}, i, -1})
			}
		}
	}
	for first, used := 0, 1; used <= corners; used++ {
		last := len(nodes)
		for n := first; n < last; n++ {
			if s.closes(nodes[n].stop, nodes[n].Y) {
				return trace(nodes, n), true
			}
		}
		if used == corners {
			break
		}
		for n := first; n < last; n++ {
			s.sweep(nodes[n].stop, nodes[n].Y, func(i, r int) {
				if !reached[i][r] {
					reached[i][r] = true
					nodes = append(nodes, node{Vertex{stops[i].X, stops[i].Y[r]}, i, n})
				}
			})
		}
		first = last
	}
	return nil, false
}

// trace returns the path that ends at a node.
func trace(nodes []node, n int) []Vertex {
	var path []Vertex
	for ; n >= 0; n = nodes[n].from {
		path = append(path, nodes[n].Vertex)
	}
	slices.Reverse(path)
	return path
}

// A wall is a vertex of either chain.
type wall struct {
	Vertex
	sign float64
}

// A span is a range of ordinates.
type span struct{ low, high float64 }

var whole = span{math.Inf(-1), math.Inf(1)}

// within returns what a wall leaves of a span.
func (s span) within(w wall) span {
	if w.sign > 0 {
		return span{max(s.low, w.Y), s.high}
	}
	return span{s.low, min(s.high, w.Y)}
}

func (s span) holds(y float64) bool {
	slack := 1e-12 * (1 + math.Abs(y))
	return y >= s.low-slack && y <= s.high+slack
}

// A search sweeps over the walls and the stops of a corridor.
type search struct {
	walls       []wall // by X
	stops       []Stop
	first       []int  // of each stop: index of the first wall not left of it
	open        []span // of each stop: what the corridor leaves
	head, tail  []span // of each stop: what a level line to it, or from it, clears
	left, right float64
	held        bool
}

func newSearch(c Corridor, stops []Stop, held bool) *search {
	n := len(stops)
	s := &search{
		stops: stops, held: held, left: c.Lower[0].X, right: c.Lower[len(c.Lower)-1].X,
		first: make([]int, n), open: make([]span, n), head: make([]span, n), tail: make([]span, n),
	}
	for k := range 2 {
		for _, v := range c.chain(k) {
			s.walls = append(s.walls, wall{v, outward[k]})
		}
	}
	slices.SortStableFunc(s.walls, func(a, b wall) int { return cmp.Compare(a.X, b.X) })
	passed, w := whole, 0
	for i, stop := range stops {
		for ; w < len(s.walls) && s.walls[w].X < stop.X; w++ {
			passed = passed.within(s.walls[w])
		}
		s.first[i] = w
		s.head[i] = passed
		for j := w; j < len(s.walls) && s.walls[j].X == stop.X; j++ {
			s.head[i] = s.head[i].within(s.walls[j])
		}
		s.open[i] = c.at(stop.X)
	}
	ahead, w := whole, len(s.walls)
	for i := n - 1; i >= 0; i-- {
		for ; w > s.first[i]; w-- {
			ahead = ahead.within(s.walls[w-1])
		}
		s.tail[i] = ahead
	}
	return s
}

// at returns what the corridor leaves at one X; nothing is known outside it.
func (c Corridor) at(x float64) span {
	out := whole
	for k := range 2 {
		chain := c.chain(k)
		j, _ := slices.BinarySearchFunc(chain, x, func(v Vertex, x float64) int { return cmp.Compare(v.X, x) })
		if j > 0 && j < len(chain) && chain[j].X > x {
			out = out.within(wall{Vertex{x, between(chain[j-1], chain[j], x)}, outward[k]})
		}
		for ; j < len(chain) && chain[j].X == x; j++ {
			out = out.within(wall{chain[j], outward[k]})
		}
	}
	return out
}

// begins tells whether a path may have its first corner at a stop.
func (s *search) begins(i int, y float64) bool {
	if !s.open[i].holds(y) {
		return false
	}
	if s.held {
		return s.head[i].holds(y)
	}
	return s.stops[i].X == s.left
}

// closes tells whether a path may have its last corner at a stop.
func (s *search) closes(i int, y float64) bool {
	if s.held {
		return s.tail[i].holds(y)
	}
	return s.stops[i].X == s.right
}

// sweep names every corner to the right that a straight line from a corner
// reaches.
func (s *search) sweep(i int, y float64, reach func(j, r int)) {
	x, slopes, w := s.stops[i].X, whole, s.first[i]
	for j := i + 1; j < len(s.stops); j++ {
		stop := s.stops[j]
		for ; w < len(s.walls) && s.walls[w].X <= stop.X; w++ {
			if run := s.walls[w].X - x; run > 0 {
				slopes = slopes.within(wall{Vertex{Y: (s.walls[w].Y - y) / run}, s.walls[w].sign})
			}
		}
		if slopes.low > slopes.high+1e-12 {
			return
		}
		run := stop.X - x
		seen := span{max(s.open[j].low, y+slopes.low*run), min(s.open[j].high, y+slopes.high*run)}
		slack := 1e-12 * (1 + math.Abs(y))
		from, _ := slices.BinarySearch(stop.Y, seen.low-slack)
		for r := from; r < len(stop.Y) && stop.Y[r] <= seen.high+slack; r++ {
			if stop.Y[r] > y {
				reach(j, r)
			}
		}
	}
}
