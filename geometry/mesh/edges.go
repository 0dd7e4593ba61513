package mesh

import (
	"fmt"
	"math"
	"slices"
	"sort"
	"strings"

	"gonum.org/v1/gonum/spatial/r3"
)

// An edge that the triangles do not run along as often one way as the other. On
// a closed, consistently oriented surface there is none.
type edge struct {
	a, b        int32 // a < b
	there, back int32 // triangles that run from a to b, and from b to a
}

// unbalanced returns the edges of faces that are not balanced. For every vertex
// it lists the edges to vertices of a higher number, one entry a triangle, and
// counts the two senses in each list, which is as long as the vertex has
// neighbours.
func unbalanced(faces [][3]int32, vertices int) []edge {
	start := make([]int32, vertices+1)
	for _, f := range faces {
		for i, a := range f {
			start[min(a, f[(i+1)%3])+1]++
		}
	}
	for v := range vertices {
		start[v+1] += start[v]
	}
	// An entry is the other vertex, doubled, plus 1 where the triangle runs
	// back.
	entries := make([]uint32, start[vertices])
	fill := slices.Clone(start[:vertices])
	for _, f := range faces {
		for i, a := range f {
			b := f[(i+1)%3]
			at, entry := a, uint32(b)<<1
			if b < a {
				at, entry = b, uint32(a)<<1|1
			}
			entries[fill[at]] = entry
			fill[at]++
		}
	}
	var out []edge
	for v := range vertices {
		list := entries[start[v]:start[v+1]]
		sortShort(list)
		for i := 0; i < len(list); {
			e := edge{a: int32(v), b: int32(list[i] >> 1)}
			for ; i < len(list) && int32(list[i]>>1) == e.b; i++ {
				e.back += int32(list[i] & 1)
				e.there += int32(1 - list[i]&1)
			}
			if e.there != e.back {
				out = append(out, e)
			}
		}
	}
	return out
}

// sortShort sorts lists that are nearly always a handful.
func sortShort(list []uint32) {
	if len(list) > 24 {
		slices.Sort(list)
		return
	}
	for i := 1; i < len(list); i++ {
		x, j := list[i], i
		for ; j > 0 && list[j-1] > x; j-- {
			list[j] = list[j-1]
		}
		list[j] = x
	}
}

// openError says which edges are open and where, or which triangles face
// opposite ways.
func openError(edges []edge, points []r3.Vec) error {
	var open, turned []edge
	for _, e := range edges {
		if e.there+e.back == 1 {
			open = append(open, e)
		} else {
			turned = append(turned, e)
		}
	}
	if len(open) == 0 {
		e := turned[0]
		return wrong("%d edges join triangles that face opposite ways or too many triangles, the first from %s to %s mm, expected a closed surface whose triangles all face outward",
			len(turned), place(points[e.a]), place(points[e.b]))
	}
	rims := rimsOf(open, points)
	hint := ""
	if gap, narrow := gapOf(open, points); narrow {
		hint = fmt.Sprintf(" (its corners lie within %.2g mm of others: perhaps they are meant to be the same)", gap)
	}
	return wrong("the surface is open along %d edges, in %s, expected a closed one: cap ports and fillers, close cracks%s", len(open), describeRims(rims), hint)
}

// A crack is open along two lines of corners that nearly meet: nearer than this
// share of the edges between them. Of many corners so many are looked at.
const (
	crack      = 0.01
	mostLooked = 1000
)

// gapOf returns the greatest distance from a corner of an open edge to another
// one near by, and whether most have one so near that the edges are a crack.
func gapOf(open []edge, points []r3.Vec) (gap float64, narrow bool) {
	shortest := math.Inf(1)
	var corners []r3.Vec
	for _, e := range open[:min(len(open), mostLooked)] {
		shortest = min(shortest, r3.Norm(r3.Sub(points[e.a], points[e.b])))
		corners = append(corners, points[e.a], points[e.b])
	}
	paired := 0
	for _, p := range corners {
		near := math.Inf(1)
		for _, q := range corners {
			if p != q {
				near = min(near, r3.Norm(r3.Sub(p, q)))
			}
		}
		if near < crack*shortest {
			gap = max(gap, near)
			paired++
		}
	}
	return gap, 2*paired > len(corners)
}

// A rim is a chain of open edges: a hole in the surface.
type rim struct {
	edges  int
	lo, hi r3.Vec
}

// across is the size of the hole, mm.
func (r rim) across() float64 { return r3.Norm(r3.Sub(r.hi, r.lo)) }

// rimsOf gathers open edges that hang together, the longest chain first.
func rimsOf(open []edge, points []r3.Vec) []rim {
	sets := newSets(len(points))
	for _, e := range open {
		sets.join(e.a, e.b)
	}
	byRoot := map[int32]*rim{}
	for _, e := range open {
		root := sets.find(e.a)
		r := byRoot[root]
		if r == nil {
			r = &rim{lo: points[e.a], hi: points[e.a]}
			byRoot[root] = r
		}
		r.edges++
		r.lo, r.hi = within(r.lo, r.hi, points[e.a])
		r.lo, r.hi = within(r.lo, r.hi, points[e.b])
	}
	rims := make([]rim, 0, len(byRoot))
	for _, r := range byRoot {
		rims = append(rims, *r)
	}
	sort.Slice(rims, func(i, j int) bool {
		a, b := rims[i], rims[j]
		if a.edges != b.edges {
			return a.edges > b.edges
		}
		return less(a.lo, b.lo)
	})
	return rims
}

// describeRims names the three largest holes.
func describeRims(rims []rim) string {
	var words []string
	for _, r := range rims[:min(3, len(rims))] {
		centre := r3.Scale(0.5, r3.Add(r.lo, r.hi))
		words = append(words, fmt.Sprintf("%d edges about %s, %.4g mm across", r.edges, place(centre), r.across()))
	}
	holes := fmt.Sprintf("%d holes", len(rims))
	if len(rims) == 1 {
		holes = "1 hole"
	}
	return holes + " (" + strings.Join(words, "; ") + ")"
}

func less(a, b r3.Vec) bool {
	if a.X != b.X {
		return a.X < b.X
	}
	if a.Y != b.Y {
		return a.Y < b.Y
	}
	return a.Z < b.Z
}

// within widens a box to hold a point.
func within(lo, hi, p r3.Vec) (r3.Vec, r3.Vec) {
	return r3.Vec{X: min(lo.X, p.X), Y: min(lo.Y, p.Y), Z: min(lo.Z, p.Z)},
		r3.Vec{X: max(hi.X, p.X), Y: max(hi.Y, p.Y), Z: max(hi.Z, p.Z)}
}

// sets are disjoint sets of numbers (union by the smaller root, paths halved).
type sets []int32

func newSets(n int) sets {
	s := make(sets, n)
	for i := range s {
		s[i] = int32(i)
	}
	return s
}

func (s sets) find(i int32) int32 {
	for s[i] != i {
		s[i] = s[s[i]]
		i = s[i]
	}
	return i
}

func (s sets) join(a, b int32) {
	a, b = s.find(a), s.find(b)
	if a < b {
		s[b] = a
	} else {
		s[a] = b
	}
}
