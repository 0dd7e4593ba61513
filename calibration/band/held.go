package band

// Held returns a path with the fewest corners, at most so many, that is level
// before its first corner and after its last one; false if there is none.
//
// The points that a level line from the left end reaches are bounded by a stretch
// of the highest or lowest such line; a path through the corridor may begin
// there. So the corridor is cut at that stretch, and likewise at its right end,
// and crossed by links between the two.
func (c Corridor) Held(corners int) ([]Vertex, bool) {
	if corners < 1 || len(c.Lower) == 0 || len(c.Upper) == 0 || !c.open() {
		return nil, false
	}
	left, ok := c.hold(fromLeft)
	if !ok { // one level line will do
		low, high := c.within()
		return []Vertex{{c.Lower[0].X, (low + high) / 2}}, true
	}
	right, _ := c.hold(fromRight)
	cut, ok := c.cut(left, right)
	if !ok {
		return nil, false
	}
	windows, ok := cut.links(corners - 1)
	if !ok {
		return nil, false
	}
	path := []Vertex{left.window.meet(windows[0].line)}
	path = append(path, joints(windows)...)
	return append(path, right.window.meet(windows[len(windows)-1].line)), true
}

// directions in which a corridor is walked.
const (
	fromLeft  = 1
	fromRight = -1
)

// along returns the place in a chain of its i-th vertex in a direction.
func along(direction, i, length int) int {
	if direction == fromRight {
		return length - 1 - i
	}
	return i
}

// A hold is the stretch that bounds what a level line from one end reaches.
type hold struct {
	window window
	chain  int    // that blocks the line
	at     int    // index of the vertex that does
	exit   Vertex // where it does
	touch  int    // index of the last vertex touched, of the other chain
}

// hold draws the level line from one end that gets furthest; false if one gets to
// the other end.
func (c Corridor) hold(direction int) (hold, bool) {
	var walked [2]int
	innermost := [2]int{-1, -1} // index of the vertex of each chain that reaches in furthest
	for {
		k, at := -1, 0
		for i := range 2 {
			chain := c.chain(i)
			if walked[i] == len(chain) {
				continue
			}
			j := along(direction, walked[i], len(chain))
			if k < 0 || float64(direction)*(chain[j].X-c.chain(k)[at].X) < 0 {
				k, at = i, j
			}
		}
		if k < 0 {
			return hold{}, false
		}
		chain, v, sign := c.chain(k), c.chain(k)[at], outward[k]
		if other := innermost[1-k]; other >= 0 && sign*v.Y > sign*c.chain(1 - k)[other].Y {
			touched := c.chain(1 - k)[other]
			flat := line{through: touched, drawn: true}
			before := chain[max(0, min(len(chain)-1, at-direction))]
			out := flat.leaves(before, v)
			if float64(direction)*(out.X-touched.X) < 0 {
				out.X = touched.X
			}
			w := window{flat, min(touched.X, out.X), max(touched.X, out.X)}
			return hold{window: w, chain: k, at: at, exit: out, touch: other}, true
		}
		if in := innermost[k]; in < 0 || sign*v.Y >= sign*chain[in].Y {
			innermost[k] = at
		}
		walked[k]++
	}
}

// within returns the greatest Y of the lower chain and the least of the upper.
func (c Corridor) within() (low, high float64) {
	low, high = c.Lower[0].Y, c.Upper[0].Y
	for _, v := range c.Lower {
		low = max(low, v.Y)
	}
	for _, v := range c.Upper {
		high = min(high, v.Y)
	}
	return low, high
}

// cut returns the corridor without what the holds at its ends pass by; false if
// nothing of a chain is left.
func (c Corridor) cut(left, right hold) (*stretch, bool) {
	s := &stretch{}
	for k := range 2 {
		chain := c.chain(k)
		if left.chain == k {
			s.start[k], chain = left.exit, chain[left.at:]
		} else {
			s.start[k], chain = chain[left.touch], chain[left.touch+1:]
		}
		gone := len(c.chain(k)) - len(chain)
		to := right.touch + 1
		if right.chain == k {
			to, s.end[k] = right.at+1, right.exit
		}
		if to < gone {
			return nil, false
		}
		s.chain[k] = chain[:to-gone]
		s.count[k] = len(s.chain[k])
		if right.chain == k {
			s.count[k]++
		}
	}
	return s, true
}
