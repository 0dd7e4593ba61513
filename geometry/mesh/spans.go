package mesh

import "gonum.org/v1/gonum/spatial/r3"

// spans lists, for spans of knots side by side, the triangles that reach into
// each: few of a mesh's triangles are cut by one level.
type spans struct {
	*heights
	all   [][3]int32
	width int32 // knots in a span
	start []int32
	faces []int32
	below []r3.Vec // first moments below each span, in the frame of the heights
}

// The number of spans, at most, and how many times a triangle may be listed on
// average: tall triangles, which many levels cut, make the spans wide.
const (
	usualSpans = 1024
	listed     = 4
)

// spanWidth returns the number of knots in a span.
func spanWidth(h *heights, faces [][3]int32) int32 {
	reach := 0
	for _, f := range faces {
		a, b, c := h.knot[f[0]], h.knot[f[1]], h.knot[f[2]]
		reach += int(max(a, b, c) - min(a, b, c))
	}
	return int32(max(len(h.knots)/usualSpans, reach/(listed*len(faces)))) + 1
}

// spansOf returns the spans, which are made when they are first asked for.
func (c *curve) spansOf() *spans {
	c.spansOnce.Do(func() {
		c.spans = newSpans(c.heights, c.mesh.faces)
		c.spans.addMoments()
	})
	return c.spans
}

func newSpans(h *heights, faces [][3]int32) *spans {
	s := &spans{heights: h, all: faces, width: spanWidth(h, faces)}
	n := int32(len(h.knots))/s.width + 1
	s.start = make([]int32, n+1)
	visit := func(do func(span, face int32)) {
		for i, f := range faces {
			a, b, d := h.knot[f[0]], h.knot[f[1]], h.knot[f[2]]
			lo, hi := min(a, b, d), max(a, b, d)
			if lo == hi {
				continue
			}
			for k := lo / s.width; k <= (hi-1)/s.width; k++ {
				do(k, int32(i))
			}
		}
	}
	visit(func(span, _ int32) { s.start[span+1]++ })
	for k := range n {
		s.start[k+1] += s.start[k]
	}
	s.faces = make([]int32, s.start[n])
	next := append([]int32{}, s.start[:n]...)
	visit(func(span, face int32) {
		s.faces[next[span]] = face
		next[span]++
	})
	return s
}

// each visits the strips of the triangles that reach into the span of knot k.
func (s *spans) each(k int32, visit func(*strip)) {
	span := k / s.width
	var strips [2]strip
	for _, face := range s.faces[s.start[span]:s.start[span+1]] {
		n := s.strips(s.all[face], &strips)
		for i := range n {
			visit(&strips[i])
		}
	}
}
