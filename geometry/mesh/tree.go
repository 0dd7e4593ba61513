package mesh

import (
	"math"
	"sync"

	"gonum.org/v1/gonum/spatial/r3"
)

// A tree holds the triangles in boxes within boxes, for questions about points.
type tree struct {
	nodes []node
	order []int32 // triangles, those of a leaf side by side
}

// A node is a box. Its two halves stand at next and next+1; a leaf, with count
// above 0, holds the triangles order[next:next+count].
type node struct {
	lo, hi      r3.Vec
	next, count int32
}

const leafSize = 8

// grow returns the tree of a mesh.
func grow(points []r3.Vec, faces [][3]int32) *tree {
	g := grower{points: points, faces: faces, centres: make([]r3.Vec, len(faces))}
	t := &tree{order: make([]int32, len(faces)), nodes: make([]node, 2*len(faces))}
	for i, f := range faces {
		t.order[i] = int32(i)
		g.centres[i] = r3.Add(points[f[0]], r3.Add(points[f[1]], points[f[2]]))
	}
	g.tree = t
	g.split(0, 0, int32(len(faces)), 1, 1)
	return t
}

type grower struct {
	*tree
	points  []r3.Vec
	faces   [][3]int32
	centres []r3.Vec // three times the centre of each triangle
}

// split fills the node at place at with order[from:to]; free is the first place
// for its descendants, of which there are at most twice the triangles less two.
func (g *grower) split(at, from, to, free int32, depth int) {
	n := &g.nodes[at]
	n.lo, n.hi = r3.Vec{X: math.Inf(1), Y: math.Inf(1), Z: math.Inf(1)}, r3.Vec{X: math.Inf(-1), Y: math.Inf(-1), Z: math.Inf(-1)}
	clo, chi := n.lo, n.hi
	for _, k := range g.order[from:to] {
		for _, v := range g.faces[k] {
			n.lo, n.hi = within(n.lo, n.hi, g.points[v])
		}
		clo, chi = within(clo, chi, g.centres[k])
	}
	d := r3.Sub(chi, clo)
	if to-from <= leafSize || d == (r3.Vec{}) {
		n.next, n.count = from, to-from
		return
	}
	along := func(k int32) float64 { return g.centres[k].X }
	switch max(d.X, d.Y, d.Z) {
	case d.X:
	case d.Y:
		along = func(k int32) float64 { return g.centres[k].Y }
	default:
		along = func(k int32) float64 { return g.centres[k].Z }
	}
	mid := (from + to) / 2
	sortOut(g.order[from:to], int(mid-from), along)
	n.next = free
	left, right := free+2, free+2*(mid-from)
	if to-from < 1<<15 || depth > 3 {
		g.split(free, from, mid, left, depth+1)
		g.split(free+1, mid, to, right, depth+1)
		return
	}
	var both sync.WaitGroup
	both.Add(1)
	go func() {
		defer both.Done()
		g.split(free, from, mid, left, depth+1)
	}()
	g.split(free+1, mid, to, right, depth+1)
	both.Wait()
}

// sortOut moves the k smallest to the front (C. A. R. Hoare, "Algorithm 65:
// FIND", Communications of the ACM 4(7), 1961, from memory).
func sortOut(list []int32, k int, of func(int32) float64) {
	lo, hi := 0, len(list)-1
	for lo < hi {
		pivot := of(list[(lo+hi)/2])
		i, j := lo, hi
		for i <= j {
			for of(list[i]) < pivot {
				i++
			}
			for of(list[j]) > pivot {
				j--
			}
			if i <= j {
				list[i], list[j] = list[j], list[i]
				i, j = i+1, j-1
			}
		}
		if j < k {
			lo = i
		}
		if i > k {
			hi = j
		}
	}
}

// nearest returns the point of the surface nearest to p, and how far it is; it
// looks no further than limit, and only at triangles that a test lets through.
func (m *Mesh) nearest(p r3.Vec, limit float64, counts func(face int32) bool) (q r3.Vec, distance float64) {
	t := m.treeOf()
	best := limit * limit
	stack := append(make([]int32, 0, 64), 0)
	for len(stack) > 0 {
		n := &t.nodes[stack[len(stack)-1]]
		stack = stack[:len(stack)-1]
		if n.away(p) > best {
			continue
		}
		if n.count > 0 {
			for _, k := range t.order[n.next : n.next+n.count] {
				if counts != nil && !counts(k) {
					continue
				}
				f := m.faces[k]
				c := onTriangle(p, m.points[f[0]], m.points[f[1]], m.points[f[2]])
				if d := r3.Norm2(r3.Sub(c, p)); d <= best {
					best, q = d, c
				}
			}
			continue
		}
		near, far := n.next, n.next+1
		if t.nodes[near].away(p) > t.nodes[far].away(p) {
			near, far = far, near
		}
		stack = append(stack, far, near)
	}
	return q, math.Sqrt(best)
}

// away returns the square of the distance from p to a box.
func (n *node) away(p r3.Vec) float64 {
	x := max(n.lo.X-p.X, 0, p.X-n.hi.X)
	y := max(n.lo.Y-p.Y, 0, p.Y-n.hi.Y)
	z := max(n.lo.Z-p.Z, 0, p.Z-n.hi.Z)
	return x*x + y*y + z*z
}

// onTriangle returns the point of a triangle nearest to p, by the regions of
// its corners, edges and face (C. Ericson, Real-Time Collision Detection, 2005,
// sec. 5.1.5, from memory).
func onTriangle(p, a, b, c r3.Vec) r3.Vec {
	ab, ac, ap := r3.Sub(b, a), r3.Sub(c, a), r3.Sub(p, a)
	d1, d2 := r3.Dot(ab, ap), r3.Dot(ac, ap)
	if d1 <= 0 && d2 <= 0 {
		return a
	}
	bp := r3.Sub(p, b)
	d3, d4 := r3.Dot(ab, bp), r3.Dot(ac, bp)
	if d3 >= 0 && d4 <= d3 {
		return b
	}
	if vc := d1*d4 - d3*d2; vc <= 0 && d1 >= 0 && d3 <= 0 {
		return r3.Add(a, r3.Scale(d1/(d1-d3), ab))
	}
	cp := r3.Sub(p, c)
	d5, d6 := r3.Dot(ab, cp), r3.Dot(ac, cp)
	if d6 >= 0 && d5 <= d6 {
		return c
	}
	if vb := d5*d2 - d1*d6; vb <= 0 && d2 >= 0 && d6 <= 0 {
		return r3.Add(a, r3.Scale(d2/(d2-d6), ac))
	}
	va := d3*d6 - d5*d4
	if va <= 0 && d4-d3 >= 0 && d5-d6 >= 0 {
		return r3.Add(b, r3.Scale((d4-d3)/(d4-d3+d5-d6), r3.Sub(c, b)))
	}
	vb, vc := d5*d2-d1*d6, d1*d4-d3*d2
	sum := va + vb + vc
	return r3.Add(a, r3.Add(r3.Scale(vb/sum, ab), r3.Scale(vc/sum, ac)))
}

func (m *Mesh) treeOf() *tree {
	m.treeOnce.Do(func() { m.tree = grow(m.points, m.faces) })
	return m.tree
}
