package geometry

import "math"

// A HeadKind is the shape of the end of a cylinder.
type HeadKind int

// Head shapes, as pressure-vessel drawings name them.
const (
	Flat HeadKind = iota
	Cone
	Ellipsoidal
	Hemispherical
	Torispherical
	Spherical
)

// A Head closes a cylinder. Depths are measured along the axis from the end of
// the straight part. A negative depth bulges inward. A field left at 0 takes
// its usual value: an ellipsoidal depth of a quarter of the diameter, a dish
// radius of one diameter, a knuckle radius of 6 % of the diameter (as D. Jones,
// "Calculating Tank Volume", defines ASME flanged and dished heads). Cones and
// spherical caps have no usual depth.
type Head struct {
	Kind          HeadKind
	Depth         float64 // mm
	DishRadius    float64 // mm, torispherical
	KnuckleRadius float64 // mm, torispherical
}

// An end is a head made definite for one cylinder: its meridian as it lies at
// the low end, from the tip to the joint with the straight part near w = 0.
type end struct {
	depth    float64   // how far the tip lies beyond the straight part; below 0 within it
	shift    float64   // how far the joint with the straight part moves outward
	meridian []stretch // as if it bulged outward, the tip at -|depth|; nil for a flat head
}

// resolve returns the head for an outside radius and a wall's thickness, both
// in mm; prefix names it in errors ("low_head").
func (h Head) resolve(radius, wall float64, prefix string) (end, error) {
	h = h.withDefaults(2 * radius)
	inward := h.Depth < 0
	if inward && wall > 0 {
		if h.Kind == Torispherical {
			return end{}, wrong(prefix+".depth", "%g mm with a wall, expected inside sizes (no wall) for a torispherical head that bulges inward", h.Depth)
		}
		wall = -wall // the fuel touches the far side of the metal
	}
	depth := math.Abs(h.Depth)
	inner := radius - math.Abs(wall)
	var e end
	var err error
	switch h.Kind {
	case Flat:
		return end{depth: -wall, shift: -wall}, nil
	case Cone:
		e, err = coneEnd(radius, inner, depth, wall)
	case Ellipsoidal:
		e, err = ellipsoidEnd(inner, radius-wall, depth-wall)
	case Hemispherical:
		if h.Depth != 0 && math.Abs(depth-radius) > 1e-6*radius {
			return end{}, wrong(prefix+".depth", "%g mm, expected none, or the radius %g mm, for a hemispherical head", h.Depth, radius)
		}
		e, err = capEnd(radius, inner, radius, wall)
	case Spherical:
		e, err = capEnd(radius, inner, depth, wall)
	case Torispherical:
		e, err = torisphericalEnd(h, radius, wall)
	}
	if err != nil {
		d := err.(*DimensionError)
		d.Dimension = prefix + "." + d.Dimension
		return end{}, d
	}
	if inward {
		e.depth, e.shift = -e.depth, -e.shift
	}
	return e, nil
}

func (h Head) withDefaults(diameter float64) Head {
	if h.Kind == Ellipsoidal && h.Depth == 0 {
		h.Depth = diameter / 4
	}
	if h.Kind == Torispherical {
		if h.DishRadius == 0 {
			h.DishRadius = diameter
		}
		if h.KnuckleRadius == 0 {
			h.KnuckleRadius = 0.06 * diameter
		}
	}
	return h
}

// coneEnd moves the cone's side in parallel by the wall.
func coneEnd(radius, inner, depth, wall float64) (end, error) {
	if err := positive("depth", depth); err != nil {
		return end{}, err
	}
	slant := math.Hypot(1, radius/depth)
	tip := depth - wall*math.Hypot(1, depth/radius)
	joint := (radius - wall*slant - inner) * depth / radius
	if err := room(tip-joint, wall); err != nil {
		return end{}, err
	}
	return end{depth: tip, shift: joint, meridian: []stretch{straight(-tip, 0, -joint, inner)}}, nil
}

// ellipsoidEnd is half an ellipsoid over a rim of the given radius, cut off where
// it is wider than the shell inside: with a wall, a head that bulges inward is.
func ellipsoidEnd(inner, rim, depth float64) (end, error) {
	if err := positive("depth", depth); err != nil {
		return end{}, err
	}
	half, joint := math.Pi/2, 0.0
	if inner < rim {
		half = math.Asin(inner / rim)
		joint = depth * math.Cos(half)
	}
	return end{
		depth: depth, shift: joint,
		meridian: []stretch{ellipseArc(0, 0, depth, rim, math.Pi, math.Pi-half)},
	}, nil
}

// capEnd is a spherical cap over a rim of the given radius; a hemisphere is the
// cap as deep as its rim. The sphere shrinks by the wall about its own centre.
func capEnd(radius, inner, depth, wall float64) (end, error) {
	if err := positive("depth", depth); err != nil {
		return end{}, err
	}
	if depth > radius*(1+1e-9) {
		return end{}, wrong("depth", "%g mm, expected at most the cylinder's radius %g mm for a spherical cap", depth, radius)
	}
	sphere := (radius*radius + depth*depth) / (2 * depth)
	back := sphere - depth // from the rim to the sphere's centre
	ball := sphere - wall
	joint := math.Sqrt(math.Max(0, ball*ball-inner*inner)) - back
	if err := room(ball-back-joint, wall); err != nil {
		return end{}, err
	}
	rim := math.Pi - math.Atan2(inner, joint+back)
	return end{depth: ball - back, shift: joint, meridian: []stretch{ellipseArc(back, 0, ball, ball, math.Pi, rim)}}, nil
}

// torisphericalEnd is a dish of one radius joined to the shell by a knuckle of
// another; both shrink by the wall about their own centres.
func torisphericalEnd(h Head, radius, wall float64) (end, error) {
	dish, knuckle := h.DishRadius, h.KnuckleRadius
	switch {
	case !(knuckle > 0) || knuckle > radius:
		return end{}, wrong("knuckle_radius", "%g mm, expected above 0 and at most the cylinder's radius %g mm", knuckle, radius)
	case !(dish >= radius) || dish > largest:
		return end{}, wrong("dish_radius", "%g mm, expected at least the cylinder's radius %g mm", dish, radius)
	case knuckle <= wall:
		return end{}, wrong("knuckle_radius", "%g mm, expected more than the wall of %g mm", knuckle, wall)
	}
	ring := radius - knuckle // radius of the circle of the knuckle's centres
	back := math.Sqrt((dish-knuckle)*(dish-knuckle) - ring*ring)
	depth := dish - back
	if h.Depth != 0 && math.Abs(math.Abs(h.Depth)-depth) > 0.01*depth {
		return end{}, wrong("depth", "%g mm, expected none, or the %.2f mm that follow from the dish radius %g mm and the knuckle radius %g mm",
			h.Depth, depth, dish, knuckle)
	}
	tangent := math.Pi - math.Atan2(ring, back)
	return end{depth: depth - wall, meridian: []stretch{
		ellipseArc(back, 0, dish-wall, dish-wall, math.Pi, tangent),
		ellipseArc(0, ring, knuckle-wall, knuckle-wall, tangent, math.Pi/2),
	}}, nil
}

func room(depth, wall float64) error {
	if depth <= 0 {
		return wrong("depth", "a wall of %g mm leaves nothing of the head, expected a thinner wall", wall)
	}
	return nil
}
