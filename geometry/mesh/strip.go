package mesh

import "gonum.org/v1/gonum/spatial/r3"

// A strip is the part of a triangle between two of its vertex heights. Level
// planes cut it in a segment from a point on the triangle's long edge to one on
// a short edge; both run along straight lines as the level rises, and meet in
// the apex, the lowest or the highest corner. sign is +1 where the fuel lies to
// the left of the segment in that direction.
//
// By Green's theorem the section of the solid has the area ∮ x dy, and since the
// level plane itself is horizontal and the field (x, 0, 0) as well, summing
// strips needs no cap: each adds a quadratic of the level to the area, and a
// cubic to the volume.
type strip struct {
	from, to    int32 // knots
	foot, head  int32 // a vertex at each
	apex        r3.Vec
	long, short slant // the two edges
	sign        float64
}

// A slant is how far an edge runs in x and y per mm of rise.
type slant struct{ x, y float64 }

func slantOf(a, b r3.Vec) slant {
	perRise := 1 / (b.Z - a.Z)
	return slant{(b.X - a.X) * perRise, (b.Y - a.Y) * perRise}
}

// strips returns the strips of a triangle, at most two, lower first.
func (h *heights) strips(f [3]int32, out *[2]strip) int {
	lo, mid, hi, sign := h.sorted(f)
	k0, k1, k2 := h.knot[lo], h.knot[mid], h.knot[hi]
	if k0 == k2 {
		return 0 // level: a step in the area, which the strips around it make
	}
	p0, p1, p2 := &h.points[lo], &h.points[mid], &h.points[hi]
	long := slantOf(*p0, *p2)
	n := 0
	if k0 < k1 {
		out[0] = strip{from: k0, to: k1, foot: lo, head: mid, apex: *p0, long: long, short: slantOf(*p0, *p1), sign: sign}
		n = 1
	}
	if k1 < k2 {
		out[n] = strip{from: k1, to: k2, foot: mid, head: hi, apex: *p2, long: long, short: slantOf(*p1, *p2), sign: sign}
		n++
	}
	return n
}

// sorted returns the corners of a triangle by height, and +1 if they are so in
// their own cyclic order.
func (h *heights) sorted(f [3]int32) (lo, mid, hi int32, sign float64) {
	lo, mid, hi, sign = f[0], f[1], f[2], 1
	if h.knot[lo] > h.knot[mid] {
		lo, mid, sign = mid, lo, -sign
	}
	if h.knot[mid] > h.knot[hi] {
		mid, hi, sign = hi, mid, -sign
	}
	if h.knot[lo] > h.knot[mid] {
		lo, mid, sign = mid, lo, -sign
	}
	return lo, mid, hi, sign
}

// area returns what the strip adds to the area of the section, as a quadratic
// of the height over z: (x_l + x_s)/2 (y_s - y_l).
func (s *strip) area(z float64) quadratic {
	d := z - s.apex.Z
	grow := s.sign * (s.short.y - s.long.y)
	run := (s.long.x + s.short.x) / 2
	return product(s.apex.X+d*run, run, d*grow, grow)
}

// segment returns the two ends of the segment at a height.
func (s *strip) segment(z float64) (lx, ly, sx, sy float64) {
	d := z - s.apex.Z
	return s.apex.X + d*s.long.x, s.apex.Y + d*s.long.y, s.apex.X + d*s.short.x, s.apex.Y + d*s.short.y
}
