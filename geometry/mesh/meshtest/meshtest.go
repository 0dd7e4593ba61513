// Package meshtest makes meshes of known shapes, at any fineness, for tests and
// benchmarks.
package meshtest

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"floatarc/geometry/mesh"
)

// Block returns the surface of a unit cube cut into a by b by c cells, each
// point of it moved by shape. shape must keep right-handed what is
// right-handed.
func Block(a, b, c int, shape func(u, v, w float64) r3.Vec) *mesh.Facets {
	f := mesh.NewFacets(4 * (a*b + b*c + c*a))
	vertex := func(i, j, k int) int32 {
		return f.Vertex(shape(float64(i)/float64(a), float64(j)/float64(b), float64(k)/float64(c)))
	}
	// side walks over one face of the cube, anticlockwise seen from outside.
	side := func(m, n int, at func(i, j int) int32) {
		for i := range m {
			for j := range n {
				p, q, r, s := at(i, j), at(i+1, j), at(i+1, j+1), at(i, j+1)
				f.Face(p, q, r)
				f.Face(p, r, s)
			}
		}
	}
	side(b, a, func(i, j int) int32 { return vertex(j, i, 0) })
	side(a, b, func(i, j int) int32 { return vertex(i, j, c) })
	side(a, c, func(i, j int) int32 { return vertex(i, 0, j) })
	side(c, a, func(i, j int) int32 { return vertex(j, b, i) })
	side(c, b, func(i, j int) int32 { return vertex(0, j, i) })
	side(b, c, func(i, j int) int32 { return vertex(a, i, j) })
	return f
}

// Saddle returns an invented saddle tank of about so many triangles: an arch
// over a shaft, 620 mm long, swelling and twisted a little so that no two
// vertices share a height.
func Saddle(triangles int) *mesh.Facets {
	// 4(ab + bc + ca) triangles with a = 3 cells round the arch to 1 across
	// its thickness and 2 along.
	n := math.Sqrt(float64(triangles) / (4 * (3*1 + 1*2 + 2*3)))
	cells := func(k float64) int { return max(1, int(math.Round(k*n))) }
	return Block(cells(3), cells(1), cells(2), saddlePoint)
}

func saddlePoint(u, v, w float64) r3.Vec {
	sin, cos := math.Sincos(math.Pi * (1.1*u - 0.05)) // round the arch
	swell := 1 + 0.08*math.Sin(math.Pi*w)*math.Cos(3*u)
	radius := 120 + 150*(1-v)*swell
	return r3.Vec{
		X: 620*w + 14*math.Sin(5*u)*v,
		Y: 300 + radius*cos*(1+0.05*w),
		Z: 90 + radius*sin - 11*w*u,
	}
}

// Lathe returns the surface of a profile turned about the x axis in so many
// steps: points (x, r) with x rising and r above 0 but at the ends, which are
// closed by a disc or, at r = 0, by a tip.
func Lathe(profile [][2]float64, steps int) *mesh.Facets {
	f := mesh.NewFacets(2 * steps * len(profile))
	ring := func(p [2]float64, k int) int32 {
		if p[1] == 0 {
			return f.Vertex(r3.Vec{X: p[0]})
		}
		sin, cos := math.Sincos(2 * math.Pi * float64(k%steps) / float64(steps))
		return f.Vertex(r3.Vec{X: p[0], Y: p[1] * cos, Z: p[1] * sin})
	}
	face := func(a, b, c int32) {
		if a != b && b != c && c != a {
			f.Face(a, b, c)
		}
	}
	closed := append(append([][2]float64{{profile[0][0], 0}}, profile...), [2]float64{profile[len(profile)-1][0], 0})
	for i, p := range closed[1:] {
		q := closed[i]
		for k := range steps {
			a, b, c, d := ring(q, k), ring(q, k+1), ring(p, k+1), ring(p, k)
			face(a, b, c)
			face(a, c, d)
		}
	}
	return f
}

// Polyhedron returns a convex polyhedron from its corners and its faces, each
// anticlockwise seen from outside.
func Polyhedron(corners []r3.Vec, faces [][]int) *mesh.Facets {
	f := mesh.NewFacets(4 * len(faces))
	for _, face := range faces {
		for i := 2; i < len(face); i++ {
			f.Face(f.Vertex(corners[face[0]]), f.Vertex(corners[face[i-1]]), f.Vertex(corners[face[i]]))
		}
	}
	return f
}
