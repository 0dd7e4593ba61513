package mesh

import "runtime"

// A quadratic holds the coefficients of a quadratic of the height over a knot,
// the constant first.
type quadratic [3]float64

func (q *quadratic) add(sign float64, o quadratic) {
	q[0] += sign * o[0]
	q[1] += sign * o[1]
	q[2] += sign * o[2]
}

// shift moves the origin up by d (Taylor's shift, by Horner's scheme).
func (q *quadratic) shift(d float64) {
	q[0] += d * (q[1] + d*q[2])
	q[1] += 2 * d * q[2]
}

// A sweep adds up the areas of the strips of a mesh as polynomials: for each
// piece between two knots, the sum over the strips that cross it, as a
// quadratic of the height over its lower knot.
type sweep struct {
	*heights
	near   int32 // strips of so many pieces are added to each piece
	slabs  []int32
	slab   []int32     // of each knot
	starts []quadratic // of each slab, the sum over the strips that reach into it
	steps  []quadratic // of each vertex, what starts less what ends there
	pieces []piece     // of each knot
}

// nearPieces is the number of pieces up to which a strip is added to each of
// them: few for many triangles, so that the work stays linear, and all of them
// for a small mesh, whose large triangles would leave more behind.
func nearPieces(faces int) int32 { return int32(8 + (1<<18)/faces) }

// areas returns pieces that know the area of the section over each knot.
func (h *heights) areas(faces [][3]int32) []piece {
	w := &sweep{heights: h, near: nearPieces(len(faces))}
	w.slabs = slabs(h.knots, int(w.near), len(faces))
	w.slab = make([]int32, len(h.knots))
	for i, from := range w.slabs {
		for k := from; k < w.end(i); k++ {
			w.slab[k] = int32(i)
		}
	}
	w.starts = make([]quadratic, len(w.slabs))
	w.steps = make([]quadratic, len(h.points))
	w.pieces = make([]piece, len(h.knots))
	workers := min(runtime.GOMAXPROCS(0), len(w.slabs))
	if len(faces) < 4096 {
		workers = 1
	}
	share := func(i int) int { return len(w.slabs) * i / workers }
	done := make(chan struct{})
	for i := range workers {
		go func() {
			w.work(faces, share(i), share(i+1))
			done <- struct{}{}
		}()
	}
	for range workers {
		<-done
	}
	return w.pieces
}

// end returns the knot at which a slab ends.
func (w *sweep) end(slab int) int32 {
	if slab+1 < len(w.slabs) {
		return w.slabs[slab+1]
	}
	return int32(len(w.knots))
}

// work does the slabs from first up to last, on its own: every worker looks at
// all faces and takes what lies in its slabs.
func (w *sweep) work(faces [][3]int32, first, last int) {
	from, to := w.slabs[first], w.end(last-1)
	var strips [2]strip
	for _, f := range faces {
		a, b, c := w.knot[f[0]], w.knot[f[1]], w.knot[f[2]]
		if max(a, b, c) <= from || min(a, b, c) >= to {
			continue
		}
		n := w.strips(f, &strips)
		for i := range n {
			w.add(&strips[i], from, to)
		}
	}
	for i := first; i < last; i++ {
		w.sum(i)
	}
}

// add books a strip in the pieces from up to to.
func (w *sweep) add(s *strip, from, to int32) {
	low, high := max(s.from, from), min(s.to, to)
	if low >= high {
		return
	}
	if s.to-s.from <= w.near {
		for k := low; k < high; k++ {
			w.pieces[k].area.add(1, s.area(w.knots[k]))
		}
		return
	}
	slab := w.slab[low]
	if s.from == low {
		w.steps[s.foot].add(1, s.area(w.knots[low]))
		slab++
	}
	for ; int(slab) < len(w.slabs) && w.slabs[slab] < high; slab++ {
		w.starts[slab].add(1, s.area(w.knots[w.slabs[slab]]))
	}
	if s.to < to && w.slabs[w.slab[s.to]] != s.to {
		w.steps[s.head].add(-1, s.area(w.knots[s.to]))
	}
}

// sum runs the quadratic of the long strips up through a slab.
func (w *sweep) sum(slab int) {
	running := w.starts[slab]
	from, to := w.slabs[slab], w.end(slab)
	for k := from; k < to; k++ {
		if k > from {
			running.shift(w.knots[k] - w.knots[k-1])
		}
		for _, v := range w.at(k) {
			running.add(1, w.steps[v])
		}
		w.pieces[k].area.add(1, running)
	}
}
