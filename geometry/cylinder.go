package geometry

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// A Cylinder describes a round tank. Its axis is w; it stands between w = 0 and
// its overall length, centred on u = v = 0.
type Cylinder struct {
	Diameter float64 // mm
	Length   float64 // of the straight part, mm; 0 to take it from Overall
	Overall  float64 // over the heads, mm; 0 to take it from Length
	Low      Head    // the end of smaller w
	High     Head
	Wall     float64 // mm; above 0 the sizes are outside sizes
}

// Solid returns the inside of the cylinder, or a [DimensionError].
//
// A wall comes off in parallel: sides, cones, spheres and knuckles move inward
// by it at right angles to their surface. An ellipsoidal head becomes the
// ellipsoid smaller by the wall in depth and radius, which is the parallel
// surface at its crown and rim and within a few percent of the wall between.
func (c Cylinder) Solid() (Solid, error) {
	if err := positive("diameter", c.Diameter); err != nil {
		return nil, err
	}
	if err := wallFits(c.Wall, "diameter", c.Diameter); err != nil {
		return nil, err
	}
	radius := c.Diameter / 2
	var outer, inner [2]end
	for i, h := range []Head{c.Low, c.High} {
		var err error
		prefix := [2]string{"low_head", "high_head"}[i]
		if outer[i], err = h.resolve(radius, 0, prefix); err != nil {
			return nil, err
		}
		if inner[i], err = h.resolve(radius, c.Wall, prefix); err != nil {
			return nil, err
		}
	}
	start := math.Max(0, outer[0].depth) // of the straight part, from the least w
	straight, err := c.straight(start + math.Max(0, outer[1].depth))
	if err != nil {
		return nil, err
	}
	return assemble(radius-c.Wall, start-inner[0].shift, start+straight+inner[1].shift, inner)
}

// straight returns the length of the straight part, given what the heads add.
func (c Cylinder) straight(heads float64) (float64, error) {
	if c.Overall == 0 {
		if c.Length == 0 && heads > 0 {
			return 0, nil // two heads, rim to rim
		}
		return c.Length, positive("length", c.Length)
	}
	if err := positive("overall", c.Overall); err != nil {
		return 0, err
	}
	if c.Overall < heads*(1-1e-12) {
		return 0, wrong("overall", "%g mm is less than the two heads together, %.4g mm, expected more", c.Overall, heads)
	}
	return math.Max(0, c.Overall-heads), nil
}

// assemble joins the straight part from w = low to high with its two heads.
func assemble(radius, low, high float64, ends [2]end) (Solid, error) {
	if high-low < domes(ends) {
		return nil, wrong("length", "the straight part leaves %.4g mm inside, expected more than the heads and the wall take", high-low)
	}
	tank := vessel{}
	add := func(s Solid, at, w float64, displaces bool) {
		f := Frame{Origin: r3.Vec{Z: at}, U: r3.Vec{X: 1}, V: r3.Vec{Y: 1}, W: r3.Vec{Z: w}}
		tank.Bodies = append(tank.Bodies, Body{Solid: Place(s, f), Displaces: displaces})
	}
	if high > low {
		add(&Prism{Outline: Circle(radius), Length: high - low}, low, 1, false)
		tank.wall = append(tank.wall, straight(low, radius, high, radius))
	}
	for i, e := range ends {
		if e.meridian == nil {
			w := [2]float64{low, high}[i]
			tank.wall = append(tank.wall, straight(w, 0, w, radius))
			continue
		}
		// The meridian lies at a low end with its joint at -shift; a high
		// end mirrors it, and so does a head that bulges inward.
		side := 1 - 2*float64(i)
		at := low + e.shift
		if i == 1 {
			at = high - e.shift
		}
		inward := e.depth < 0
		if inward {
			side = -side
		}
		add(newRevolved(e.meridian...), at, side, inward)
		for _, s := range e.meridian {
			tank.wall = append(tank.wall, s.moved(at, side))
		}
	}
	return tank, nil
}

// A vessel is a cylinder with its heads. The discs in which they join are not
// walls.
type vessel struct {
	Composite
	wall profile
}

// Clearance implements [Solid]; p is (u, v, w).
func (v vessel) Clearance(p r3.Vec) float64 { return v.wall.distance(p.Z, math.Hypot(p.X, p.Y)) }

// domes returns how far the heads that bulge inward reach into the straight
// part.
func domes(ends [2]end) float64 {
	sum := 0.0
	for _, e := range ends {
		if e.meridian != nil && e.depth < 0 {
			sum -= e.depth - e.shift
		}
	}
	return sum
}
