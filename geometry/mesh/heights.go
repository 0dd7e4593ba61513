package mesh

import (
	"cmp"
	"math"
	"runtime"
	"slices"
	"sync"

	"gonum.org/v1/gonum/spatial/r3"
)

// heights is a mesh seen along one "up": its vertices in a frame whose z points
// up, and their heights in order. Vertices at one height share a knot.
type heights struct {
	points []r3.Vec  // x, y, z in the frame, from the mesh's centre
	knots  []float64 // the different heights, rising
	knot   []int32   // of each vertex
	order  []int32   // the vertices, rising
	first  []int32   // of each knot, the place of its first vertex in order
}

// at returns the vertices at a knot.
func (h *heights) at(k int32) []int32 { return h.order[h.first[k]:h.first[k+1]] }

// merge is how far apart, as a share of the size of the mesh, two heights must
// be to be told apart: some roundings of the turned coordinates. What stands at
// one height so stays at one height when it is turned.
const merge = 1e-15

// newHeights turns the vertices of a mesh into the frame u, v, up.
func newHeights(m *Mesh, u, v, up r3.Vec) *heights {
	h := &heights{points: make([]r3.Vec, len(m.points)), knot: make([]int32, len(m.points))}
	centre := m.centre()
	parallel(len(m.points), len(m.points), func(from, to int) {
		for i, p := range m.points[from:to] {
			p = r3.Sub(p, centre)
			h.points[from+i] = r3.Vec{X: r3.Dot(u, p), Y: r3.Dot(v, p), Z: r3.Dot(up, p)}
		}
	})
	h.number(inOrder(h.points), merge*m.size())
	return h
}

// A standing is a vertex and its height.
type standing struct {
	z      float64
	vertex int32
}

// inOrder sorts the vertices by height: first into drawers of equal height, then
// each drawer by itself.
func inOrder(points []r3.Vec) []standing {
	lo, hi := math.Inf(1), math.Inf(-1)
	for _, p := range points {
		lo, hi = min(lo, p.Z), max(hi, p.Z)
	}
	drawers := max(1, len(points)/8)
	scale := float64(drawers) / (hi - lo) * (1 - 1e-12)
	if !(scale <= math.MaxFloat64) {
		scale = 0 // all at one height
	}
	start := make([]int32, drawers+1)
	for _, p := range points {
		start[int((p.Z-lo)*scale)+1]++
	}
	for d := range drawers {
		start[d+1] += start[d]
	}
	sorted := make([]standing, len(points))
	next := slices.Clone(start[:drawers])
	for i, p := range points {
		d := int((p.Z - lo) * scale)
		sorted[next[d]] = standing{z: p.Z, vertex: int32(i)}
		next[d]++
	}
	parallel(drawers, len(points), func(from, to int) {
		for d := from; d < to; d++ {
			slices.SortFunc(sorted[start[d]:start[d+1]], func(a, b standing) int { return cmp.Compare(a.z, b.z) })
		}
	})
	return sorted
}

// number gives every vertex its knot, and the height of the knot.
func (h *heights) number(sorted []standing, apart float64) {
	h.knots, h.first = make([]float64, 0, len(sorted)), make([]int32, 0, len(sorted)+1)
	h.order = make([]int32, len(sorted))
	for i, s := range sorted {
		if n := len(h.knots); n == 0 || s.z-h.knots[n-1] > apart {
			h.knots, h.first = append(h.knots, s.z), append(h.first, int32(i))
		}
		h.order[i] = s.vertex
	}
	h.first = append(h.first, int32(len(sorted)))
	parallel(len(h.knots), len(h.points), func(from, to int) {
		for k := from; k < to; k++ {
			for _, v := range h.at(int32(k)) {
				h.knot[v], h.points[v].Z = int32(k), h.knots[k]
			}
		}
	})
}

// parallel splits n pieces of work over the processors, where there is enough to
// do in all: so many vertices or triangles.
func parallel(n, toDo int, work func(from, to int)) {
	workers := min(runtime.GOMAXPROCS(0), n)
	if toDo < 4096 || workers < 2 {
		work(0, n)
		return
	}
	var all sync.WaitGroup
	for w := range workers {
		all.Add(1)
		go func() {
			defer all.Done()
			work(n*w/workers, n*(w+1)/workers)
		}()
	}
	all.Wait()
}
