package band

// A Vertex is a corner of a chain or of a path.
type Vertex struct{ X, Y float64 }

// between returns the Y at an X on the straight line between two vertices.
func between(a, b Vertex, x float64) float64 { return a.Y + (b.Y-a.Y)*(x-a.X)/(b.X-a.X) }

// A Corridor is all that lies between two chains of straight lines. X never
// falls along a chain, and both chains begin and end at the same X; where X
// stays, the chain is upright, and a path that passes there must clear both its
// ends.
type Corridor struct{ Lower, Upper []Vertex }

// chains of a corridor.
const (
	lower = iota
	upper
)

// chain returns one of the two.
func (c Corridor) chain(k int) []Vertex {
	if k == lower {
		return c.Lower
	}
	return c.Upper
}

// outward is the sign by which a chain's side is seen from below: what is beyond
// the lower chain has y·1 less than it, what is beyond the upper one y·(-1).
var outward = [2]float64{lower: 1, upper: -1}

// open tells whether the chains nowhere cross.
func (c Corridor) open() bool {
	return clears(c.Lower, c.Upper, outward[lower]) && clears(c.Upper, c.Lower, outward[upper])
}

// clears tells whether no vertex of a chain lies beyond the other one.
func clears(chain, other []Vertex, sign float64) bool {
	j := 0
	for _, v := range chain {
		for j < len(other) && other[j].X < v.X {
			j++
		}
		for i := j; i < len(other) && other[i].X == v.X; i++ {
			if sign*other[i].Y < sign*v.Y {
				return false
			}
		}
		if j > 0 && j < len(other) && other[j].X > v.X {
			if y := between(other[j-1], other[j], v.X); sign*y < sign*v.Y {
				return false
			}
		}
	}
	return true
}
