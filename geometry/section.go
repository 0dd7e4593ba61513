package geometry

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// A Plane is a drawing plane in the tank frame: a point of it, and two unit vectors at
// right angles, to the right and up in the drawing.
type Plane struct{ Origin, Right, Up r3.Vec }

// On returns where a point lies in the drawing, seen square to the plane.
func (p Plane) On(q r3.Vec) r2.Vec {
	q = r3.Sub(q, p.Origin)
	return r2.Vec{X: r3.Dot(q, p.Right), Y: r3.Dot(q, p.Up)}
}

// At returns the point of the plane that is drawn at a place.
func (p Plane) At(q r2.Vec) r3.Vec {
	return r3.Add(p.Origin, r3.Add(r3.Scale(q.X, p.Right), r3.Scale(q.Y, p.Up)))
}

// A Ring is a closed line in a drawing plane, mm; it lists each corner once. The solid
// lies to its left: an outer ring runs against the clock, a hole with it.
type Ring []r2.Vec

// sectionCells is the number of cells along the longer side of a section between which
// its outline is followed, and sectionSeeds how many lie between the lines that look for
// it: a piece that is thinner than so many cells one way may be missed.
const (
	sectionCells = 2048
	sectionSeeds = 8
)

// SectionOf returns the outlines of a solid in a plane. It asks the solid nothing but what
// it contains, so that it serves any shape: outlines are followed from cell to cell of a
// fine grid, their crossings with its lines are bisected, and corners are off by less than
// a thousandth of the solid's size. Where the plane misses the solid there are none; nor
// are there for a solid whose extent is not known.
func SectionOf(s Solid, p Plane) []Ring {
	f, ok := newFollower(s, p)
	if !ok {
		return nil
	}
	var rings []Ring
	for j := 0; j <= f.rows; j += sectionSeeds {
		for i := 0; i < f.columns; i += sectionSeeds {
			if f.in(i, j) == f.in(i+sectionSeeds, j) {
				continue
			}
			if r := f.follow(f.between(i, i+sectionSeeds, j), j); len(r) > 2 {
				rings = append(rings, r)
			}
		}
	}
	return rings
}

// A follower walks along the outline in a grid of cells.
type follower struct {
	solid         Solid
	plane         Plane
	least         r2.Vec // of the grid's first node
	cell          float64
	columns, rows int
	known         map[[2]int]bool
	passed        map[[2]int]bool // lying sides of cells that a ring crosses
}

func newFollower(s Solid, p Plane) (*follower, bool) {
	left, right := s.Extent(p.Right)
	bottom, top := s.Extent(p.Up)
	o := r2.Vec{X: r3.Dot(p.Origin, p.Right), Y: r3.Dot(p.Origin, p.Up)}
	long := math.Max(right-left, top-bottom)
	if !(long > 0) || math.IsInf(long, 0) {
		return nil, false
	}
	f := &follower{solid: s, plane: p, cell: long / sectionCells, known: map[[2]int]bool{}, passed: map[[2]int]bool{}}
	// Off the walls by an odd part of a cell, which no tape measure gives.
	const off = 2.618
	f.least = r2.Vec{X: left - o.X - off*f.cell, Y: bottom - o.Y - off*f.cell}
	whole := func(span float64) int {
		return sectionSeeds * int(math.Ceil((span/f.cell+2*off)/sectionSeeds))
	}
	f.columns, f.rows = whole(right-left), whole(top-bottom)
	return f, true
}

func (f *follower) place(i, j float64) r2.Vec {
	return r2.Vec{X: f.least.X + i*f.cell, Y: f.least.Y + j*f.cell}
}

// in tells whether a node lies in the solid.
func (f *follower) in(i, j int) bool {
	if i <= 0 || j <= 0 || i >= f.columns || j >= f.rows {
		return false
	}
	key := [2]int{i, j}
	inside, known := f.known[key]
	if !known {
		inside = f.solid.Contains(f.plane.At(f.place(float64(i), float64(j))))
		f.known[key] = inside
	}
	return inside
}

// between returns the column of the lying side, between two nodes of a row that differ,
// that the outline crosses.
func (f *follower) between(from, to, j int) int {
	first := f.in(from, j)
	for to-from > 1 {
		if m := (from + to) / 2; f.in(m, j) == first {
			from = m
		} else {
			to = m
		}
	}
	return from
}

// The sides of a cell, against the clock.
const (
	south = iota
	east
	north
	west
)

// follow returns the ring through the lying side right of node (i, j), the solid to its
// left; nil if a ring passes there already.
func (f *follower) follow(i, j int) Ring {
	if f.passed[[2]int{i, j}] {
		return nil
	}
	// With the solid to the left one goes up through a side whose left end is inside.
	from := south
	if f.in(i+1, j) {
		from, j = north, j-1
	}
	var ring Ring
	for start, first := [3]int{i, j, from}, true; first || start != [3]int{i, j, from}; first = false {
		ring = append(ring, f.crossing(i, j, from))
		switch from {
		case south:
			f.passed[[2]int{i, j}] = true
		case north:
			f.passed[[2]int{i, j + 1}] = true
		}
		i, j, from = f.step(i, j, from)
	}
	return thinned(ring, f.cell/4)
}

// step goes through a cell that was entered by one of its sides, and returns the next
// cell and the side by which that one is entered.
func (f *follower) step(i, j, from int) (nextI, nextJ, by int) {
	corners := [4]bool{f.in(i, j), f.in(i+1, j), f.in(i+1, j+1), f.in(i, j+1)}
	// Against the clock from where one came in there is the first side whose corners
	// differ: where all four do, that joins the two pieces of solid.
	for k := 1; k < 4; k++ {
		side := (from + k) % 4
		if corners[side] != corners[(side+1)%4] && corners[(side+1)%4] {
			switch side {
			case south:
				return i, j - 1, north
			case east:
				return i + 1, j, west
			case north:
				return i, j + 1, south
			default:
				return i - 1, j, east
			}
		}
	}
	return i, j, from // cannot be: a line that comes in goes out
}

// crossing returns where the outline crosses a side of a cell.
func (f *follower) crossing(i, j, side int) r2.Vec {
	ends := [4][2][2]int{{{i, j}, {i + 1, j}}, {{i + 1, j}, {i + 1, j + 1}}, {{i, j + 1}, {i + 1, j + 1}}, {{i, j}, {i, j + 1}}}[side]
	a, b := f.place(float64(ends[0][0]), float64(ends[0][1])), f.place(float64(ends[1][0]), float64(ends[1][1]))
	if !f.in(ends[0][0], ends[0][1]) {
		a, b = b, a
	}
	for range 8 {
		m := r2.Scale(0.5, r2.Add(a, b))
		if f.solid.Contains(f.plane.At(m)) {
			a = m
		} else {
			b = m
		}
	}
	return r2.Scale(0.5, r2.Add(a, b))
}

// thinned leaves out corners that lie so near to the line of those beside them, mm
// (D. Douglas and T. Peucker, 1973).
func thinned(ring Ring, near float64) Ring {
	if len(ring) < 4 {
		return ring
	}
	far, at := 0.0, 0
	for k, p := range ring {
		if d := r2.Norm(r2.Sub(p, ring[0])); d > far {
			far, at = d, k
		}
	}
	there := simplified(ring[:at+1], near)
	back := simplified(append(append(Ring{}, ring[at:]...), ring[0]), near)
	return append(append(Ring{}, there[:len(there)-1]...), back[:len(back)-1]...)
}

func simplified(line Ring, near float64) Ring {
	first, last := line[0], line[len(line)-1]
	along := r2.Sub(last, first)
	length := r2.Norm(along)
	far, at := near, 0
	for k := 1; k < len(line)-1; k++ {
		d := r2.Sub(line[k], first)
		off := r2.Norm(d)
		if length > 0 {
			off = math.Abs(r2.Cross(along, d)) / length
		}
		if off > far {
			far, at = off, k
		}
	}
	if at == 0 {
		return Ring{first, last}
	}
	left := simplified(line[:at+1], near)
	return append(left[:len(left)-1:len(left)-1], simplified(line[at:], near)...)
}

// Area returns the area within a ring, mm²; of a hole it is negative.
func (r Ring) Area() float64 {
	sum := 0.0
	for k, p := range r {
		sum += r2.Cross(p, r[(k+1)%len(r)])
	}
	return sum / 2
}

// Below returns the part of a ring where a·p <= c, closed along that line (I. Sutherland
// and G. Hodgman, 1974); pieces that fall apart stay joined along it, which encloses
// nothing. It is empty if nothing is left.
func (r Ring) Below(a r2.Vec, c float64) Ring {
	var out Ring
	for k, p := range r {
		q := r[(k+1)%len(r)]
		dp, dq := r2.Dot(a, p)-c, r2.Dot(a, q)-c
		if dp <= 0 {
			out = append(out, p)
		}
		if (dp <= 0) != (dq <= 0) {
			out = append(out, r2.Add(p, r2.Scale(dp/(dp-dq), r2.Sub(q, p))))
		}
	}
	return out
}
