package mesh

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"
)

// TestTallTrianglesAreListedFewTimes: a prism of many sides, all as tall as the
// tank, must not be listed once for every span.
func TestTallTrianglesAreListedFewTimes(t *testing.T) {
	const sides = 2000
	f := NewFacets(4 * sides)
	low, high := f.Vertex(r3.Vec{}), f.Vertex(r3.Vec{Z: 400})
	corner := func(k int, z float64) int32 {
		sin, cos := math.Sincos(2 * math.Pi * float64(k%sides) / sides)
		return f.Vertex(r3.Vec{X: 200 * cos, Y: 200 * sin, Z: z})
	}
	for k := range sides {
		a, b, c, d := corner(k, 0), corner(k+1, 0), corner(k+1, 400), corner(k, 400)
		f.Face(a, b, c)
		f.Face(a, c, d)
		f.Face(low, b, a)
		f.Face(high, d, c)
	}
	m, err := New(f, Unsaid)
	if err != nil {
		t.Fatal(err)
	}
	c := m.Cut(r3.Vec{X: 2e-3, Y: 1e-3, Z: 1}).(*curve)
	if n := len(c.spansOf().faces); n > (listed+1)*m.Triangles() {
		t.Errorf("%d triangles are listed %d times, expected at most %d", m.Triangles(), n, (listed+1)*m.Triangles())
	}
}
