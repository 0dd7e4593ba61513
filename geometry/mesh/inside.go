package mesh

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"floatarc/geometry"
)

// Contains implements geometry.Solid.
func (m *Mesh) Contains(p r3.Vec) bool {
	slack := geometry.Nearness * m.size()
	if lo, hi := within(m.lo, m.hi, p); r3.Norm(r3.Sub(lo, m.lo)) > slack || r3.Norm(r3.Sub(hi, m.hi)) > slack {
		return false
	}
	if _, d := m.nearest(p, 2*slack, nil); d <= slack {
		return true
	}
	return m.crossings(p) > 0
}

// Clearance implements geometry.Solid.
func (m *Mesh) Clearance(p r3.Vec) float64 {
	_, d := m.nearest(p, math.Inf(1), nil)
	return d
}

// The frame of the ray by which points are told inside from outside: a
// direction along which no drawing has its edges.
var (
	ray   = r3.Unit(r3.Vec{X: 0.2718281828, Y: 0.3141592653, Z: 0.9096})
	rayU  = r3.Unit(r3.Cross(ray, r3.Vec{X: 1}))
	rayV  = r3.Cross(ray, rayU)
	rayTo = r3.Vec{X: 1 / ray.X, Y: 1 / ray.Y, Z: 1 / ray.Z}
)

// crossings returns how often the ray from p leaves the solid less how often it
// enters it: how many times the surface winds around p.
func (m *Mesh) crossings(p r3.Vec) int {
	count := 0
	m.treeOf().pierced(p, func(face int32) {
		f := m.faces[face]
		count += crossing(p, m.points[f[0]], m.points[f[1]], m.points[f[2]])
	})
	return count
}

// pierced visits the triangles in the boxes that the ray from p meets.
func (t *tree) pierced(p r3.Vec, visit func(face int32)) {
	stack := append(make([]int32, 0, 64), 0)
	for len(stack) > 0 {
		n := &t.nodes[stack[len(stack)-1]]
		stack = stack[:len(stack)-1]
		switch {
		case !n.met(p):
		case n.count == 0:
			stack = append(stack, n.next, n.next+1)
		default:
			for _, k := range t.order[n.next : n.next+n.count] {
				visit(k)
			}
		}
	}
}

// met tells whether the ray from p meets a box, widened by rounding.
func (n *node) met(p r3.Vec) bool {
	from, to := 0.0, math.Inf(1)
	for _, s := range [3][3]float64{
		{n.lo.X - p.X, n.hi.X - p.X, rayTo.X}, {n.lo.Y - p.Y, n.hi.Y - p.Y, rayTo.Y}, {n.lo.Z - p.Z, n.hi.Z - p.Z, rayTo.Z},
	} {
		from, to = max(from, s[0]*s[2]), min(to, s[1]*s[2])
	}
	return from <= to*(1+1e-12)+1e-12
}

// crossing returns +1 where the ray from p leaves through a triangle, -1 where
// it enters, 0 where it passes by. Neighbours agree on their common edge: the
// side of the edge is an antisymmetric expression of its two ends, and an edge
// hit exactly belongs to one of the two (S. Woop, C. Benthin and I. Wald,
// "Watertight Ray/Triangle Intersection", Journal of Computer Graphics
// Techniques 2(1), 2013).
func crossing(p, a, b, c r3.Vec) int {
	a, b, c = r3.Sub(a, p), r3.Sub(b, p), r3.Sub(c, p)
	au, av := r3.Dot(a, rayU), r3.Dot(a, rayV)
	bu, bv := r3.Dot(b, rayU), r3.Dot(b, rayV)
	cu, cv := r3.Dot(c, rayU), r3.Dot(c, rayV)
	left := [3]bool{leftOf(au, av, bu, bv), leftOf(bu, bv, cu, cv), leftOf(cu, cv, au, av)}
	if left[0] != left[1] || left[1] != left[2] {
		return 0
	}
	normal := r3.Cross(r3.Sub(b, a), r3.Sub(c, a))
	out := 1
	if !left[0] {
		out = -1
	}
	// Ahead of p if the plane of the triangle is on the far side along its
	// normal, turned to face along the ray.
	if r3.Dot(normal, a)*float64(out) <= 0 {
		return 0
	}
	return out
}

// leftOf tells whether the origin lies to the left of the way from a to b.
func leftOf(au, av, bu, bv float64) bool {
	side := float64(au*bv) - float64(av*bu) // never fused, so that it is antisymmetric
	if side != 0 {
		return side > 0
	}
	return au < bu || au == bu && av < bv
}
