package plots

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
	"gonum.org/v1/plot/vg"

	"floatarc/float"
	"floatarc/plots/ink"
)

// paintSizes draws the dimensions: overall, and where the axle or the foot is.
func (t *tankPicture) paintSizes(e *easel, v *sight) {
	row := v.bottom - dimensionAt
	if len(t.sights) > 1 {
		e.across(v.at(v.low).X, v.at(v.high).X, row, t.Units.Length.Text(v.wide()))
	}
	column := v.left - dimensionAt
	if t.ByLitres {
		return
	}
	if place, ok := t.fixed(); ok {
		p := v.plane.On(place)
		if v.wide() > 0 && p.X > v.low.X && p.X < v.high.X && len(t.sights) > 1 {
			edge, size := v.low.X, p.X-v.low.X
			if v.end { // measured from the right side, as the file does
				edge, size = v.high.X, v.high.X-p.X
			}
			e.across(v.at(r2.Vec{X: edge}).X, v.at(p).X, row-dimensionAt, t.Units.Length.Text(size))
		}
		if p.Y > v.low.Y {
			e.upright(v.at(v.low).Y, v.at(p).Y, column, t.Units.Length.Text(p.Y-v.low.Y))
			column -= dimensionAt
		}
	}
	e.upright(v.at(v.low).Y, v.at(v.high).Y, column, t.Units.Length.Text(v.tall()))
}

// fixed returns what the place of a sender is measured at.
func (t *tankPicture) fixed() (r3.Vec, bool) {
	switch s := t.Rig.Sender.(type) {
	case *float.Arm:
		return s.Pivot, true
	case *float.Rod:
		return s.Foot, true
	}
	return r3.Vec{}, false
}

var measured = stroke{ink.Grey, ink.Hair, ink.Solid}

// across draws a lying dimension, its text in the line or, where that is too short, right
// of it.
func (e *easel) across(from, to, y vg.Length, text string) {
	from, to = min(from, to), max(from, to)
	gap := quiet.width(text) + 2*vg.Millimeter
	middle := (from + to) / 2
	for _, x := range []vg.Length{from, to} {
		e.line(measured, vg.Point{X: x, Y: y - vg.Millimeter}, vg.Point{X: x, Y: y + vg.Millimeter})
	}
	if to-from < gap+3*vg.Millimeter {
		e.line(measured, vg.Point{X: from, Y: y}, vg.Point{X: to, Y: y})
		e.write(quiet.aligned(0, -0.4), vg.Point{X: to + 1.5*vg.Millimeter, Y: y}, text)
		return
	}
	e.line(measured, vg.Point{X: from, Y: y}, vg.Point{X: middle - gap/2, Y: y})
	e.line(measured, vg.Point{X: middle + gap/2, Y: y}, vg.Point{X: to, Y: y})
	e.write(quiet.aligned(-0.5, -0.4), vg.Point{X: middle, Y: y}, text)
}

// upright draws a standing dimension, its text turned in the line or, where that is too
// short, above it.
func (e *easel) upright(from, to, x vg.Length, text string) {
	from, to = min(from, to), max(from, to)
	turned := quiet
	turned.turn = math.Pi / 2
	gap := quiet.width(text) + 2*vg.Millimeter
	middle := (from + to) / 2
	for _, y := range []vg.Length{from, to} {
		e.line(measured, vg.Point{X: x - vg.Millimeter, Y: y}, vg.Point{X: x + vg.Millimeter, Y: y})
	}
	if to-from < gap+3*vg.Millimeter {
		e.line(measured, vg.Point{X: x, Y: from}, vg.Point{X: x, Y: to})
		e.write(turned.aligned(0, -0.5), vg.Point{X: x, Y: to + 1.5*vg.Millimeter}, text)
		return
	}
	e.line(measured, vg.Point{X: x, Y: from}, vg.Point{X: x, Y: middle - gap/2})
	e.line(measured, vg.Point{X: x, Y: middle + gap/2}, vg.Point{X: x, Y: to})
	e.write(turned.aligned(-0.5, -0.5), vg.Point{X: x, Y: middle}, text)
}
