package mesh

import (
	"math"
	"sync"

	"gonum.org/v1/gonum/spatial/r3"
)

// A Use says what a drawing shows.
type Use int

// Uses of a drawing.
const (
	Unsaid Use = iota // the fuel, unless it looks like metal: then it is refused
	Solid             // the fuel: what the outermost surfaces enclose
	Cavity            // the metal: the fuel is what the next surfaces inward enclose
)

// A Mesh is a solid bounded by triangles. It implements geometry.Solid.
type Mesh struct {
	points []r3.Vec
	faces  [][3]int32 // anticlockwise seen from outside the fuel
	lo, hi r3.Vec     // box around it
	volume float64    // mm³
	Notes  Notes

	treeOnce sync.Once
	tree     *tree
}

// Notes tell what was done to a drawing to make a solid of it.
type Notes struct {
	Collapsed int  // triangles dropped because two of their corners are one point
	Flipped   bool // every triangle faced inward
	Voids     int  // closed surfaces inside the fuel that take its place
	Cavity    bool // the fuel is inside the inner surface
}

// New returns the solid that triangles bound; it takes over f. Coordinates are
// mm. It mends only
// what is safe: triangles that collapse to a line through welded corners are
// dropped, a surface that faces inward as a whole is turned. Anything else is
// refused with a geometry.DimensionError: no triangles, coordinates that are
// not finite, open edges, triangles that face opposite ways, nested surfaces or
// a thin solid where the drawing shows the metal, surfaces that run through
// each other.
func New(f *Facets, use Use) (*Mesh, error) {
	m := &Mesh{points: f.Points}
	if err := m.take(f.Faces); err != nil {
		return nil, err
	}
	if edges := unbalanced(m.faces, len(m.points)); len(edges) > 0 {
		return nil, openError(edges, m.points)
	}
	if err := m.orient(use); err != nil {
		return nil, err
	}
	if err := m.probe(use); err != nil {
		return nil, err
	}
	return m, nil
}

// largest is the greatest coordinate, mm, and most the greatest number of
// triangles.
const (
	largest = 1e6
	most    = 1 << 28
)

// take keeps the triangles that are not collapsed.
func (m *Mesh) take(faces [][3]int32) error {
	if len(faces) == 0 {
		return wrong("no triangles, expected a closed surface")
	}
	if len(faces) > most || len(m.points) > most {
		return wrong("%d triangles, expected at most %d", len(faces), most)
	}
	var kept [][3]int32
	for i, f := range faces {
		if f[0] == f[1] || f[1] == f[2] || f[2] == f[0] {
			if kept == nil {
				kept = append(make([][3]int32, 0, len(faces)), faces[:i]...)
			}
			m.Notes.Collapsed++
			continue
		}
		if kept != nil {
			kept = append(kept, f)
		}
	}
	m.faces = faces
	if kept != nil {
		m.faces = kept
	}
	if len(m.faces) < 4 {
		return wrong("%d triangles that are not collapsed, expected a closed surface, of four or more", len(m.faces))
	}
	m.settle()
	for i, p := range m.points {
		if !(math.Abs(p.X) <= largest && math.Abs(p.Y) <= largest && math.Abs(p.Z) <= largest) {
			return wrong("vertex %d lies at %s, expected coordinates within ±%g mm", i, place(p), float64(largest))
		}
	}
	return nil
}

// settle drops points that are in no triangle, and finds the box around the
// others.
func (m *Mesh) settle() {
	m.dropUnused()
	m.lo, m.hi = m.points[0], m.points[0]
	for _, p := range m.points {
		m.lo, m.hi = within(m.lo, m.hi, p)
	}
}

func (m *Mesh) dropUnused() {
	number := make([]int32, len(m.points))
	for _, f := range m.faces {
		number[f[0]], number[f[1]], number[f[2]] = 1, 1, 1
	}
	kept := int32(0)
	for i, used := range number {
		if used == 0 {
			continue
		}
		m.points[kept] = m.points[i]
		number[i] = kept
		kept++
	}
	if int(kept) == len(m.points) {
		return
	}
	m.points = m.points[:kept]
	for i, f := range m.faces {
		m.faces[i] = [3]int32{number[f[0]], number[f[1]], number[f[2]]}
	}
}

func (m *Mesh) centre() r3.Vec { return r3.Scale(0.5, r3.Add(m.lo, m.hi)) }

// size is the diagonal of the box, mm.
func (m *Mesh) size() float64 { return r3.Norm(r3.Sub(m.hi, m.lo)) }

// Triangles returns their number.
func (m *Mesh) Triangles() int { return len(m.faces) }

// Box returns the least and the greatest coordinates, mm.
func (m *Mesh) Box() (lo, hi r3.Vec) { return m.lo, m.hi }

// enclosed returns the signed volume that faces enclose, positive if they face
// outward: the sum of the tetrahedra from an origin amid them, a·(b×c)/6
// (B. Mirtich, "Fast and Accurate Computation of Polyhedral Mass Properties",
// Journal of Graphics Tools 1(2), 1996), with the rounding of the sum carried
// along (A. Neumaier, 1974, from memory).
func enclosed(points []r3.Vec, faces [][3]int32, origin r3.Vec) float64 {
	sum, lost := 0.0, 0.0
	for _, f := range faces {
		a, b, c := r3.Sub(points[f[0]], origin), r3.Sub(points[f[1]], origin), r3.Sub(points[f[2]], origin)
		sum, lost = add(sum, lost, r3.Dot(a, r3.Cross(b, c))/6)
	}
	return sum + lost
}

// add adds a term to a sum and to the rounding it has lost.
func add(sum, lost, term float64) (float64, float64) {
	t := sum + term
	if math.Abs(sum) >= math.Abs(term) {
		lost += sum - t + term
	} else {
		lost += term - t + sum
	}
	return t, lost
}

// Extent implements geometry.Solid.
func (m *Mesh) Extent(n r3.Vec) (lo, hi float64) {
	lo, hi = math.Inf(1), math.Inf(-1)
	for _, p := range m.points {
		z := r3.Dot(n, p)
		lo, hi = min(lo, z), max(hi, z)
	}
	return lo, hi
}
