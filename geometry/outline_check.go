package geometry

import (
	"fmt"
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r2"
)

func pointName(i int) string { return fmt.Sprintf("points[%d]", i) }

// checkCorners refuses corners that do not make a simple polygon.
func checkCorners(corners []Corner) error {
	n := len(corners)
	if n < 3 {
		return wrong("points", "%d corners, expected 3 or more", n)
	}
	for i, c := range corners {
		if !(math.Abs(c.U) <= largest) || !(math.Abs(c.V) <= largest) {
			return wrong(pointName(i), "(%g, %g), expected coordinates within ±%g mm", c.U, c.V, float64(largest))
		}
		if !(c.Fillet >= 0) || c.Fillet > largest {
			return wrong(pointName(i), "fillet radius %g mm, expected 0 or more", c.Fillet)
		}
		if c.vec() == corners[(i+1)%n].vec() {
			return wrong(pointName((i+1)%n), "the same corner as the one before it, expected every corner once (the outline closes by itself)")
		}
	}
	return checkCrossings(corners)
}

// checkCrossings refuses an outline whose edges meet anywhere but in the
// corner they share.
func checkCrossings(corners []Corner) error {
	n := len(corners)
	at := func(i int) r2.Vec { return corners[i%n].vec() }
	for i := range n {
		in, out := r2.Sub(at(i+1), at(i)), r2.Sub(at(i+2), at(i+1))
		if r2.Cross(in, out) == 0 && r2.Dot(in, out) < 0 {
			return wrong(pointName((i+1)%n), "the outline turns straight back at (%g, %g), expected one that does not cross itself", at(i+1).X, at(i+1).Y)
		}
		for j := i + 2; j < n; j++ {
			if (j+1)%n == i {
				continue
			}
			if edgesMeet(at(i), at(i+1), at(j), at(j+1)) {
				return wrong(pointName(i), "the edge to the next corner meets the edge from points[%d] to points[%d], expected an outline that does not cross itself", j, (j+1)%n)
			}
		}
	}
	return nil
}

// edgesMeet tells whether the closed segments ab and cd share a point.
func edgesMeet(a, b, c, d r2.Vec) bool {
	side := func(p, q, x r2.Vec) float64 { return r2.Cross(r2.Sub(q, p), r2.Sub(x, p)) }
	ca, cb := side(c, d, a), side(c, d, b)
	ac, ad := side(a, b, c), side(a, b, d)
	if ca*cb < 0 && ac*ad < 0 {
		return true
	}
	between := func(p, q, x r2.Vec) bool {
		return math.Min(p.X, q.X) <= x.X && x.X <= math.Max(p.X, q.X) &&
			math.Min(p.Y, q.Y) <= x.Y && x.Y <= math.Max(p.Y, q.Y)
	}
	return ca == 0 && between(c, d, a) || cb == 0 && between(c, d, b) ||
		ac == 0 && between(a, b, c) || ad == 0 && between(a, b, d)
}

// anticlockwise returns the corners in anticlockwise order.
func anticlockwise(corners []Corner) []Corner {
	if enclosed(corners) > 0 {
		return corners
	}
	out := slices.Clone(corners)
	slices.Reverse(out)
	return out
}

// enclosed returns the signed area of the polygon, positive if anticlockwise.
func enclosed(corners []Corner) float64 {
	sum, origin := 0.0, corners[0].vec()
	for i, c := range corners {
		next := corners[(i+1)%len(corners)].vec()
		sum += r2.Cross(r2.Sub(c.vec(), origin), r2.Sub(next, origin))
	}
	return sum / 2
}

// checkFillets refuses a fillet that cuts another part of the outline away: one
// with a corner between its arc and its own corner. An edge alone cannot lie
// there without crossing the two edges that the fillet joins.
func checkFillets(corners []Corner) error {
	n := len(corners)
	for i, c := range corners {
		f := newFillet(corners[(i+n-1)%n].vec(), c, corners[(i+1)%n].vec())
		if f.arc.radius == 0 {
			continue
		}
		for j, other := range corners {
			p := other.vec()
			if j != i && inTriangle(p, f.from, c.vec(), f.to) && r2.Norm(r2.Sub(p, f.arc.centre)) > f.arc.radius {
				return wrong(pointName(i), "fillet radius %g mm would cut away the corner points[%d], expected a smaller radius", c.Fillet, j)
			}
		}
	}
	return nil
}

// inTriangle tells whether p lies strictly inside abc.
func inTriangle(p, a, b, c r2.Vec) bool {
	side := func(x, y r2.Vec) float64 { return r2.Cross(r2.Sub(y, x), r2.Sub(p, x)) }
	u, v, w := side(a, b), side(b, c), side(c, a)
	return u > 0 && v > 0 && w > 0 || u < 0 && v < 0 && w < 0
}
