package band

// A window is the part of the line of a link on which the next link begins: from
// the last vertex that the line touches to where it leaves the corridor.
type window struct {
	line     line
	from, to float64 // X
}

// Spanning returns a path from the left to the right end of the corridor with the
// fewest corners, at most so many; false if there is none.
//
// It is the greedy minimum-link path: the line that gets furthest is blocked by
// one chain after it last touched the other; every path with as many links meets
// that stretch of it, so that the next link may begin there. That next link must
// clear the point touched and the exit, and what comes after them.
func (c Corridor) Spanning(corners int) ([]Vertex, bool) {
	if len(c.Lower) == 0 || len(c.Upper) == 0 || !c.open() {
		return nil, false
	}
	windows, ok := c.stretch().links(corners - 1)
	if !ok {
		return nil, false
	}
	first, last := windows[0], windows[len(windows)-1]
	left, right := c.Lower[0].X, c.Lower[len(c.Lower)-1].X
	path := []Vertex{{left, first.line.at(left)}}
	path = append(path, joints(windows)...)
	return append(path, Vertex{right, last.line.at(right)}), true
}

// joints returns where each window meets the line after it.
func joints(windows []window) []Vertex {
	var out []Vertex
	for i := 1; i < len(windows); i++ {
		out = append(out, windows[i-1].meet(windows[i].line))
	}
	return out
}

// meet returns where a line crosses the window.
func (w window) meet(l line) Vertex {
	x := w.to
	if turn := l.slope - w.line.slope; turn != 0 {
		x = w.line.through.X + (w.line.through.Y-l.at(w.line.through.X))/turn
	}
	x = max(w.from, min(w.to, x))
	return Vertex{x, w.line.at(x)}
}

// A stretch is the part of a corridor that links must cross: from a start on each
// chain, along its vertices, to an end where it has one of its own.
type stretch struct {
	chain [2][]Vertex // after the start
	start [2]Vertex
	end   [2]Vertex
	count [2]int // vertices of each chain after the start, with its own end
}

// stretch returns the whole corridor.
func (c Corridor) stretch() *stretch {
	s := &stretch{}
	for k := range 2 {
		chain := c.chain(k)
		s.start[k], s.chain[k], s.count[k] = chain[0], chain[1:], len(chain)-1
	}
	return s
}

// at returns the vertex of a chain after the start.
func (s *stretch) at(k, i int) Vertex {
	if i < len(s.chain[k]) {
		return s.chain[k][i]
	}
	return s.end[k]
}

// links returns the windows of the links that cross the stretch, the last of
// which is a line to its end; false if it takes more than so many.
func (s *stretch) links(most int) ([]window, bool) {
	var l link
	var windows []window
	start, next := s.start, [2]int{}
	for range most {
		l.reset()
		w, blocked := s.run(&l, &start, &next)
		windows = append(windows, w)
		if !blocked {
			return windows, true
		}
	}
	return nil, false
}

// run draws one link. Where it is blocked, start and next, the vertices after the
// start, become those of the link after it.
func (s *stretch) run(l *link, start *[2]Vertex, next *[2]int) (w window, blocked bool) {
	before, pending := *start, *start
	index := [2]int{next[lower] - 1, next[upper] - 1} // of the pending ones
	for {
		k := lower
		switch {
		case index[lower] < s.count[lower]:
			if index[upper] < s.count[upper] && pending[upper].X < pending[lower].X {
				k = upper
			}
		case index[upper] < s.count[upper]:
			k = upper
		default:
			return window{line: l.middle()}, false
		}
		if !l.add(k, pending[k], index[k]) {
			line, other := l.limit[k], 1-k
			exit := line.leaves(before[k], pending[k])
			exit.X = max(exit.X, line.through.X)
			start[k], next[k] = exit, index[k]
			start[other], next[other] = line.through, line.contact+1
			return window{line: line, from: line.through.X, to: exit.X}, true
		}
		before[k] = pending[k]
		if index[k]++; index[k] < s.count[k] {
			pending[k] = s.at(k, index[k])
		}
	}
}
