package mesh

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

// product returns (p + dp t)(q + dq t).
func product(p, dp, q, dq float64) quadratic { return quadratic{p * q, p*dq + dp*q, dp * dq} }

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
	parallel(len(w.slabs), len(faces), func(first, last int) { w.work(faces, first, last) })
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
	part := share{sweep: w, from: w.slabs[first], to: w.end(last - 1)}
	for _, f := range faces {
		part.face(f)
	}
	for i := first; i < last; i++ {
		w.sum(i)
	}
}

// A share is the part of a sweep that one worker does: the knots from, up to to,
// and the slabs that start there.
type share struct {
	*sweep
	from, to int32
}

func (w *share) owns(knot int32) bool { return knot >= w.from && knot < w.to }

// face books a triangle. One that spans many knots on both sides of its middle
// corner changes the running quadratic only where it has a corner, and not its
// constant; any other goes strip by strip.
func (w *share) face(f [3]int32) {
	k := [3]int32{w.knot[f[0]], w.knot[f[1]], w.knot[f[2]]}
	if max(k[0], k[1], k[2]) < w.from || min(k[0], k[1], k[2]) >= w.to {
		return
	}
	lo, mid, hi, sign := w.sorted(f)
	k0, k1, k2 := w.knot[lo], w.knot[mid], w.knot[hi]
	if k1-k0 <= w.near || k2-k1 <= w.near {
		var strips [2]strip
		n := w.strips(f, &strips)
		for i := range n {
			w.strip(&strips[i])
		}
		return
	}
	p0, p1, p2 := &w.points[lo], &w.points[mid], &w.points[hi]
	long, low, high := slantOf(*p0, *p2), slantOf(*p0, *p1), slantOf(*p1, *p2)
	// Below and above the middle corner: by how much the segment grows in y,
	// and its middle runs in x, per mm of rise.
	growLow, growHigh := sign*(low.y-long.y), sign*(high.y-long.y)
	runLow, runHigh := (low.x+long.x)/2, (high.x+long.x)/2
	if w.owns(k0) {
		q := &w.steps[lo]
		q[1] += p0.X * growLow
		q[2] += runLow * growLow
	}
	if d := p1.Z - p0.Z; w.owns(k1) && w.starting(k1) {
		w.steps[mid].add(1, product(p0.X+d*runLow, runHigh, d*growLow, growHigh))
	} else if w.owns(k1) {
		q := &w.steps[mid]
		q[1] += (p0.X+d*runLow)*(growHigh-growLow) + d*growLow*(runHigh-runLow)
		q[2] += runHigh*growHigh - runLow*growLow
	}
	if w.owns(k2) && !w.starting(k2) {
		q := &w.steps[hi]
		q[1] -= p2.X * growHigh
		q[2] -= runHigh * growHigh
	}
	for slab := w.slabAfter(k0); slab < len(w.slabs) && w.slabs[slab] < min(k2, w.to); slab++ {
		knot := w.slabs[slab]
		apex, grow, run := p0, growLow, runLow
		switch {
		case knot == k1:
			continue // the upper part starts there by itself
		case knot > k1:
			apex, grow, run = p2, growHigh, runHigh
		}
		d := w.knots[knot] - apex.Z
		w.starts[slab].add(1, product(apex.X+d*run, run, d*grow, grow))
	}
}

// slabAfter returns the first of the worker's slabs that starts above a knot.
func (w *share) slabAfter(knot int32) int {
	if knot < w.from {
		return int(w.slab[w.from])
	}
	return int(w.slab[knot]) + 1
}

// starting tells whether a slab starts at a knot. There the sum starts with the
// strips that reach on beyond it: those that end there need not be taken away,
// which would leave their rounding.
func (w *share) starting(knot int32) bool { return w.slabs[w.slab[knot]] == knot }

// strip books a strip.
func (w *share) strip(s *strip) {
	if s.to-s.from <= w.near {
		for k := max(s.from, w.from); k < min(s.to, w.to); k++ {
			w.pieces[k].area.add(1, s.area(w.knots[k]))
		}
		return
	}
	if w.owns(s.from) {
		w.steps[s.foot].add(1, s.area(w.knots[s.from]))
	}
	if w.owns(s.to) && !w.starting(s.to) {
		w.steps[s.head].add(-1, s.area(w.knots[s.to]))
	}
	for slab := w.slabAfter(s.from); slab < len(w.slabs) && w.slabs[slab] < min(s.to, w.to); slab++ {
		w.starts[slab].add(1, s.area(w.knots[w.slabs[slab]]))
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
