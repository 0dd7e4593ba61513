package band

// A line passes through a point at a slope.
type line struct {
	through Vertex
	slope   float64
	drawn   bool // not where any slope will do
	contact int  // index of the vertex through, in its chain
}

func (l *line) at(x float64) float64 { return l.through.Y + l.slope*(x-l.through.X) }

// leaves returns where the line crosses an edge of a chain.
func (l *line) leaves(from, to Vertex) Vertex {
	a, b := from.Y-l.at(from.X), to.Y-l.at(to.X)
	x := to.X
	if from.X != to.X && a != b {
		x = from.X + (to.X-from.X)*max(0, min(1, a/(a-b)))
	}
	return Vertex{x, l.at(x)}
}

// A link is the search for the straight line that gets furthest through a
// corridor: the vertices are added from left to right, and of all lines that
// clear them the flattest and the steepest are kept.
type link struct {
	// limit of each chain is the line that its next vertex can block: the
	// steepest for the lower chain, the flattest for the upper one.
	limit [2]line
	hull  [2]hull
}

func (l *link) reset() {
	l.limit = [2]line{}
	for k := range l.hull {
		l.hull[k].points, l.hull[k].at = l.hull[k].points[:0], 0
	}
}

// add takes in a vertex of a chain, and reports false if no line clears it.
func (l *link) add(k int, v Vertex, index int) bool {
	sign, other := outward[k], 1-k
	if limit := &l.limit[k]; limit.drawn && sign*v.Y > sign*limit.at(v.X) {
		return false
	}
	if limit := &l.limit[other]; !limit.drawn || sign*v.Y > sign*limit.at(v.X) {
		if slope, ok := l.hull[other].tangent(v, outward[other]); ok {
			limit.through, limit.slope, limit.drawn, limit.contact = v, slope, true, index
		}
	}
	l.hull[k].add(v, sign)
	return true
}

// middle returns a line that clears everything added: the mean of the steepest
// and the flattest. The constraints are linear, so that it clears them too.
func (l *link) middle() line {
	a, b := l.limit[lower], l.limit[upper]
	switch {
	case a.drawn && b.drawn:
		x := (a.through.X + b.through.X) / 2
		return line{through: Vertex{x, (a.at(x) + b.at(x)) / 2}, slope: (a.slope + b.slope) / 2, drawn: true}
	case a.drawn:
		return a
	case b.drawn:
		return b
	}
	low, high := l.hull[lower].points, l.hull[upper].points
	return line{through: Vertex{low[0].X, (low[len(low)-1].Y + high[len(high)-1].Y) / 2}, drawn: true}
}

// A hull is the convex hull of the vertices of a chain, on the corridor's side,
// from the contact of the limiting line on.
type hull struct {
	points []Vertex
	at     int // the contact
}

// add takes in a vertex to the right of the others.
func (h *hull) add(v Vertex, sign float64) {
	if n := len(h.points); n > 0 && h.points[n-1].X == v.X && sign*v.Y <= sign*h.points[n-1].Y {
		return
	}
	for n := len(h.points); n > h.at; n-- {
		last := &h.points[n-1]
		if n-1 > h.at {
			before := &h.points[n-2]
			if sign*((last.X-before.X)*(v.Y-before.Y)-(last.Y-before.Y)*(v.X-before.X)) < 0 {
				break
			}
		} else if last.X < v.X {
			break
		}
		h.points = h.points[:n-1]
	}
	h.points = append(h.points, v)
}

// tangent returns the slope of the limiting line from the hull to a vertex on its
// right; none if nothing lies to the left of the vertex.
func (h *hull) tangent(v Vertex, sign float64) (slope float64, ok bool) {
	for ; h.at < len(h.points) && h.points[h.at].X < v.X; h.at++ {
		s := (v.Y - h.points[h.at].Y) / (v.X - h.points[h.at].X)
		if ok && sign*s > sign*slope {
			break
		}
		slope, ok = s, true
	}
	if ok {
		h.at--
	}
	return slope, ok
}
