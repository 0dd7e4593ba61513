package mesh

import (
	"math"
	"sort"
	"sync"

	"gonum.org/v1/gonum/spatial/r3"

	"floatarc/geometry"
)

// A curve is the fill curve of a mesh at one attitude: between two knots, the
// volume is a cubic of the level. It implements geometry.Cut.
type curve struct {
	mesh   *Mesh
	frame  geometry.Frame // x, y level, z up, from the mesh's centre
	length float64        // of the vector that the levels are told along
	base   float64        // level of the mesh's centre

	*heights
	pieces []piece

	spansOnce sync.Once
	spans     *spans
}

// A piece is the curve over one knot, as a function of the height t over it:
// the volume below the knot and the integral of the area above it.
type piece struct {
	volume float64
	area   quadratic
}

func (p *piece) at(t float64) float64 {
	return p.volume + t*(p.area[0]+t*(p.area[1]/2+t*p.area[2]/3))
}

// Cut implements geometry.Solid. It costs a sort of the vertex heights and one
// sweep over the triangles; after it a level costs a binary search.
func (m *Mesh) Cut(n r3.Vec) geometry.Cut {
	length := r3.Norm(n)
	up := r3.Scale(1/length, n)
	u := geometry.Beside(up)
	v := r3.Cross(up, u)
	c := &curve{mesh: m, length: length, base: r3.Dot(n, m.centre()), frame: geometry.Frame{Origin: m.centre(), U: u, V: v, W: up}}
	c.heights = newHeights(m, u, v, up)
	c.pieces = c.areas(m.faces)
	total, lost := 0.0, 0.0
	for k := range c.pieces {
		p := &c.pieces[k]
		grown := 0.0
		if k > 0 {
			grown = c.pieces[k-1].at(c.knots[k]-c.knots[k-1]) - c.pieces[k-1].volume
		}
		total, lost = add(total, lost, max(0, grown))
		p.volume = total + lost
	}
	return c
}

// height returns the height over the mesh's centre at a level, mm.
func (c *curve) height(h float64) float64 { return (h - c.base) / c.length }

// find returns the piece that a height lies in, -1 below the first knot.
func (c *curve) find(z float64) int {
	return sort.Search(len(c.knots), func(k int) bool { return c.knots[k] > z }) - 1
}

// Volume implements geometry.Cut.
func (c *curve) Volume(h float64) float64 {
	z := c.height(h)
	k := c.find(z)
	last := len(c.pieces) - 1
	switch {
	case k < 0:
		return 0
	case k == last:
		return c.pieces[last].volume
	}
	p := &c.pieces[k]
	return min(max(p.at(z-c.knots[k]), p.volume), c.pieces[k+1].volume)
}

// Surface implements geometry.Cut.
func (c *curve) Surface(h float64) float64 {
	z := c.height(h)
	k := c.find(z)
	if k < 0 || k == len(c.pieces)-1 {
		return 0
	}
	p, t := &c.pieces[k], z-c.knots[k]
	return max(0, p.area[0]+t*(p.area[1]+t*p.area[2])) / c.length
}

// Level implements geometry.Inverse: the piece by a search among the volumes at
// the knots, the place in it by halving.
func (c *curve) Level(volume float64) float64 {
	k := sort.Search(len(c.pieces), func(k int) bool { return c.pieces[k].volume >= volume }) - 1
	switch {
	case k < 0:
		k = 0
	case k == len(c.pieces)-1:
		return c.base + c.length*c.knots[k]
	}
	p := &c.pieces[k]
	if k == len(c.pieces)-1 || p.volume >= volume {
		return c.base + c.length*c.knots[k]
	}
	t := geometry.LastInside(func(t float64) bool { return p.at(t) <= volume }, 0, c.knots[k+1]-c.knots[k])
	return c.base + c.length*(c.knots[k]+t)
}

// rounding of a sum of the terms of a closed surface, as a share of the volume
// of its box: some units in the last place.
const rounding = 1e-15

// Error implements geometry.Cut. It is measured: the volume at the top of the
// curve against the sum of tetrahedra, which the curve does not use.
func (c *curve) Error() float64 {
	return math.Abs(c.pieces[len(c.pieces)-1].volume-c.mesh.volume) + rounding*c.mesh.boxVolume()
}
