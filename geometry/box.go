package geometry

import "gonum.org/v1/gonum/spatial/r3"

// A Box describes a tank with flat sides and, along one axis, rounded edges.
// It stands with its least corner at the origin.
type Box struct {
	Length, Width, Height float64 // along x, y, z, mm
	Along                 Axis    // direction of the four rounded edges
	Radius                float64 // of those edges, mm
	Wall                  float64 // mm; above 0 the sizes are outside sizes
}

// Solid returns the inside of the box, or a [DimensionError].
func (b Box) Solid() (Solid, error) {
	sizes := [3]float64{b.Length, b.Width, b.Height}
	names := [3]string{"length", "width", "height"}
	for i, s := range sizes {
		if err := positive(names[i], s); err != nil {
			return nil, err
		}
		if err := wallFits(b.Wall, names[i], s); err != nil {
			return nil, err
		}
	}
	u, v, w := across3(b.Along, sizes)
	if !(b.Radius >= 0) || 2*b.Radius > min(u, v)*(1+1e-12) {
		return nil, wrong("radius", "%g mm, expected at most half the smaller side across, %g mm", b.Radius, min(u, v)/2)
	}
	outline, err := insetOutline(rectangle(u, v, b.Radius), b.Wall)
	if err != nil {
		return nil, err
	}
	prism, err := NewPrism(outline, w-2*b.Wall)
	if err != nil {
		return nil, err
	}
	origin := Across(b.Along, r3.Vec{})
	return Place(prism, Across(b.Along, r3.Scale(b.Wall, origin.W))), nil
}

func rectangle(u, v, radius float64) []Corner {
	return []Corner{{0, 0, radius}, {u, 0, radius}, {u, v, radius}, {0, v, radius}}
}

// across3 orders sizes along x, y, z as u, v, w for a sweep along an axis.
func across3(along Axis, s [3]float64) (u, v, w float64) {
	switch along {
	case Y:
		return s[0], s[2], s[1]
	case Z:
		return s[0], s[1], s[2]
	}
	return s[1], s[2], s[0]
}
