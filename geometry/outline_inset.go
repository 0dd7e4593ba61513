package geometry

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"
)

// Inset returns the corners of the outline that lies a wall's thickness (mm)
// inside another: every edge moved in parallel, fillets with it (smaller by
// the wall where the outline bulges, larger where it recedes; a corner without
// a fillet stays sharp). It refuses a wall that leaves an edge no room.
func Inset(corners []Corner, wall float64) ([]Corner, error) {
	if err := checkCorners(corners); err != nil {
		return nil, err
	}
	corners = anticlockwise(corners)
	n := len(corners)
	out := make([]Corner, n)
	for i, c := range corners {
		out[i] = insetCorner(corners[(i+n-1)%n].vec(), c, corners[(i+1)%n].vec(), wall)
	}
	for i := range out {
		j := (i + 1) % n
		was := r2.Sub(corners[j].vec(), corners[i].vec())
		if r2.Dot(was, r2.Sub(out[j].vec(), out[i].vec())) <= 0 {
			return nil, wrong("wall", "%g mm leaves nothing of the edge from (%g, %g) to (%g, %g), expected a thinner wall",
				wall, corners[i].U, corners[i].V, corners[j].U, corners[j].V)
		}
	}
	return out, nil
}

// insetOutline returns the outline a wall inside corners that are sound
// themselves.
func insetOutline(corners []Corner, wall float64) (*Outline, error) {
	inset, err := Inset(corners, wall)
	if err != nil {
		return nil, err
	}
	outline, err := NewOutline(inset)
	if err != nil {
		return nil, wrong("wall", "%g mm makes opposite sides of the outline meet, expected a thinner wall", wall)
	}
	return outline, nil
}

func insetCorner(before r2.Vec, corner Corner, after r2.Vec, wall float64) Corner {
	at := corner.vec()
	in, out := r2.Unit(r2.Sub(at, before)), r2.Unit(r2.Sub(after, at))
	turn := math.Atan2(r2.Cross(in, out), r2.Dot(in, out))
	// The new corner lies wall inside both edges: one wall along the inward
	// normal of the edge that arrives, and wall·tan(turn/2) back along it.
	left := r2.Vec{X: -in.Y, Y: in.X}
	p := r2.Add(at, r2.Scale(wall, left))
	p = r2.Sub(p, r2.Scale(wall*math.Tan(turn/2), in))
	fillet := corner.Fillet
	if fillet > 0 {
		fillet = math.Max(0, fillet-math.Copysign(wall, turn))
	}
	return Corner{U: p.X, V: p.Y, Fillet: fillet}
}
