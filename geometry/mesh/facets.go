package mesh

import (
	"math"
	"math/bits"

	"gonum.org/v1/gonum/spatial/r3"
)

// Facets gathers the triangles of a drawing. Vertices that are equal to the
// last bit become one, so that triangles which meet in a file of loose
// triangles share their vertices here.
type Facets struct {
	Points []r3.Vec
	Faces  [][3]int32 // corners in the order of the file

	table []int32 // open hash table of indices into Points plus one
}

// NewFacets makes room for about so many triangles of a closed surface, which
// has half as many vertices as triangles. It is only a hint.
func NewFacets(triangles int) *Facets {
	f := &Facets{Points: make([]r3.Vec, 0, triangles/2+8), Faces: make([][3]int32, 0, triangles)}
	f.resize(triangles)
	return f
}

// resize makes the table hold so many vertices while half of it is free.
func (f *Facets) resize(vertices int) {
	f.table = make([]int32, 1<<bits.Len(uint(max(8, vertices))))
	for i, p := range f.Points {
		f.table[f.slot(p)] = int32(i) + 1
	}
}

// slot returns the place of a point in the table, or the free place where it
// belongs.
func (f *Facets) slot(p r3.Vec) uint64 {
	h := math.Float64bits(p.X)*0x9e3779b97f4a7c15 ^ math.Float64bits(p.Y)*0xc2b2ae3d27d4eb4f ^ math.Float64bits(p.Z)*0x165667b19e3779f9
	h ^= h >> 32
	h *= 0xd6e8feb86659fd93
	mask := uint64(len(f.table) - 1)
	for i := h >> 20 & mask; ; i = (i + 1) & mask {
		if k := f.table[i]; k == 0 || f.Points[k-1] == p {
			return i
		}
	}
}

// Vertex returns the index of a point, its coordinates finite, in any unit.
func (f *Facets) Vertex(p r3.Vec) int32 {
	p = r3.Vec{X: p.X + 0, Y: p.Y + 0, Z: p.Z + 0} // -0 is 0
	i := f.slot(p)
	if k := f.table[i]; k > 0 {
		return k - 1
	}
	if 2*len(f.Points) >= len(f.table) {
		f.resize(2 * len(f.Points))
		i = f.slot(p)
	}
	f.Points = append(f.Points, p)
	f.table[i] = int32(len(f.Points))
	return f.table[i] - 1
}

// Face adds a triangle, anticlockwise as seen from outside.
func (f *Facets) Face(a, b, c int32) { f.Faces = append(f.Faces, [3]int32{a, b, c}) }

// Scale multiplies every coordinate, as a drawing in another unit needs.
func (f *Facets) Scale(by float64) {
	if by == 1 {
		return
	}
	for i, p := range f.Points {
		f.Points[i] = r3.Scale(by, p)
	}
	f.table = nil // no more vertices
}
