package plots

import (
	"cmp"
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r3"
	"gonum.org/v1/plot/vg"

	"floatarc/float"
	"floatarc/geometry"
	"floatarc/plots/ink"
)

// travels returns where the sender stands at the ends of its way in the tank, and at the marks.
func (t *tankPicture) travels() (ends, marks []float64) {
	ends = []float64{t.Rig.Low, t.Rig.High}
	for _, m := range t.Rig.Dial.Marks {
		at := t.rel.Travel(t.Rig.Dial.Litres(m.Share))
		if math.Abs(at-t.Rig.Low) > 1e-6 && math.Abs(at-t.Rig.High) > 1e-6 {
			marks = append(marks, at)
		}
	}
	return ends, marks
}

func (t *tankPicture) paintSender(e *easel, v *sight) {
	switch s := t.Rig.Sender.(type) {
	case *float.Arm:
		t.paintArm(e, v, s)
	case *float.Rod:
		t.paintRod(e, v, s)
	}
}

var (
	rest   = stroke{ink.Black, ink.Medium, ink.Solid}  // the sender at an end of its way
	passes = stroke{ink.Grey, ink.Thin, ink.Solid}     // at a mark
	way    = stroke{ink.Black, ink.Thin, ink.Dashed}   // of the float's centre in the tank
	beyond = stroke{ink.Black, ink.Medium, ink.Dotted} // up to the stops, where walls are in the way
)

func (t *tankPicture) paintArm(e *easel, v *sight, a *float.Arm) {
	low, high := a.Stops()
	t.paintWay(e, v, beyond, a.Centre, low, t.Rig.Low)
	t.paintWay(e, v, beyond, a.Centre, t.Rig.High, high)
	t.paintWay(e, v, way, a.Centre, t.Rig.Low, t.Rig.High)
	heading := geometry.Heading(a.Heading)
	axle := r3.Vec{X: -heading.Y, Y: heading.X}
	ends, marks := t.travels()
	pivot := r3.Add(a.Pivot, r3.Scale(a.Offset, axle))
	at := func(s stroke, travel float64) {
		centre := a.Centre(travel)
		e.line(s, v.of(pivot), v.of(centre))
		e.outline(s, v, a.Buoy, centre, axle)
		e.dot(s.color, v.of(centre), s.width)
	}
	for _, m := range marks {
		at(passes, m)
	}
	for _, end := range ends {
		at(rest, end)
	}
	e.dot(ink.White, v.of(pivot), 1.6*vg.Millimeter)
	e.dot(ink.Black, v.of(pivot), 1.2*vg.Millimeter)
	e.dot(ink.White, v.of(pivot), 0.4*vg.Millimeter)
}

func (t *tankPicture) paintRod(e *easel, v *sight, r *float.Rod) {
	along := r3.Unit(r3.Sub(r.Head, r.Foot))
	centre := func(travel float64) r3.Vec { return r3.Add(r.Foot, r3.Scale(travel, along)) }
	low, high := r.Stops()
	e.line(stroke{ink.Black, ink.Thick, ink.Solid}, v.of(centre(low)), v.of(centre(high)))
	ends, marks := t.travels()
	at := func(s stroke, travel float64) {
		e.outline(s, v, r.Buoy, centre(travel), along)
		e.dot(s.color, v.of(centre(travel)), 1.5*s.width)
	}
	for _, m := range marks {
		at(passes, m)
	}
	for _, end := range ends {
		at(rest, end)
	}
}

// paintWay draws where a float's centre passes.
func (t *tankPicture) paintWay(e *easel, v *sight, s stroke, centre func(float64) r3.Vec, from, to float64) {
	if to-from < 1e-3 {
		return
	}
	const steps = 60
	var points []vg.Point
	for k := range steps + 1 {
		at := centre(from + (to-from)*float64(k)/steps)
		if !v.near(at) { // beyond a wall there are names and sizes
			e.line(s, points...)
			points = nil
			continue
		}
		points = append(points, v.of(at))
	}
	e.line(s, points...)
}

// outline draws the float to size about its centre; a float without a size is not drawn.
func (e *easel) outline(s stroke, v *sight, b *float.Buoy, centre, axle r3.Vec) {
	if b == nil {
		return
	}
	var points []vg.Point
	for _, p := range b.Shape.Skin(axle, true) {
		points = append(points, v.of(r3.Add(centre, p)))
	}
	if around := hull(points); len(around) > 2 {
		e.loop(s, around...)
	}
}

// hull returns the convex hull of points, against the clock (A. Andrew, 1979).
func hull(points []vg.Point) []vg.Point {
	points = slices.Clone(points)
	slices.SortFunc(points, func(p, q vg.Point) int { return cmp.Or(cmp.Compare(p.X, q.X), cmp.Compare(p.Y, q.Y)) })
	half := func(out []vg.Point, points []vg.Point) []vg.Point {
		start := len(out)
		for _, p := range points {
			for len(out) >= start+2 {
				a, b := out[len(out)-2], out[len(out)-1]
				if (b.X-a.X)*(p.Y-a.Y)-(b.Y-a.Y)*(p.X-a.X) > 0 {
					break
				}
				out = out[:len(out)-1]
			}
			out = append(out, p)
		}
		return out[:len(out)-1]
	}
	if len(points) < 3 {
		return points
	}
	out := half(nil, points)
	slices.Reverse(points)
	return half(out, points)
}
