package plots

import (
	"gonum.org/v1/plot/vg"

	"floatarc/plots/ink"
)

// A TankShape is one of the tanks that are sketched.
type TankShape int

// The shapes.
const (
	BoxTank  TankShape = iota // with rounded long edges
	VeeTank                   // with a V bottom
	DrumTank                  // lying, with dished heads
)

// Sizes of the sketch of a tank, mm.
const (
	tankTall   = 27.0
	sideLeft   = 19.0
	sideRight  = 70.0
	endLeft    = 78.0
	endRight   = 105.0
	rowAt      = 7.0 // the first dimension below a tank, and from one to the next
	rowNext    = 5.3
	sideAxle   = 45.0 // across
	sidePickup = 36.0
	endAxle    = 91.5
	endPickup  = 86.0
	axleUp     = 21.0 // above the tank's bottom
	pickupUp   = 7.0
	fuelUp     = 22.5
)

// A tankSketch is a tank with its bottom so high, mm.
type tankSketch struct {
	sketch
	shape  TankShape
	bottom float64
}

// TankSketch draws a tank of a shape from the side and from behind, with letters where to
// hold the tape; what has no letter is left out.
func TankSketch(shape TankShape, letter func(SketchPart) string) *Picture {
	bottom := 6 + rowAt + 2*rowNext + tagSize + 0.4
	if shape == VeeTank {
		bottom += rowNext
	}
	return newSketch("The tank: where to hold the tape. Not to scale", bottom+tankTall+18.5, letter, func(s sketch) {
		t := tankSketch{s, shape, bottom}
		side, end := t.outlines()
		t.fuel(side)
		t.fuel(end)
		t.walls(side, end)
		t.fittings()
		t.axes(sideLeft, 1, "x forward")
		t.axes(endRight, -1, "y left")
		t.sideSizes()
		t.endSizes()
		t.own()
		t.captions()
	})
}

// up is so high above the tank's bottom.
func (t tankSketch) up(y float64) float64 { return t.bottom + y }

// row is a dimension below the tank, counted from 0.
func (t tankSketch) row(k int) float64 { return t.bottom - rowAt - float64(k)*rowNext }

// outlines are those of the two views.
func (t tankSketch) outlines() (side, end []vg.Point) {
	const high = tankTall
	side = ats(sideLeft, t.up(0), sideRight, t.up(0), sideRight, t.up(high), sideLeft, t.up(high))
	switch t.shape {
	case VeeTank:
		middle := (endLeft + endRight) / 2
		end = append(ats(endLeft, t.up(high), endLeft, t.up(veeUp)), bow(middle, t.up(3.4), 3, 3, 237, 303)...)
		end = append(end, ats(endRight, t.up(veeUp), endRight, t.up(high))...)
	case DrumTank:
		side = append(bow(sideLeft+headDeep, t.up(high/2), headDeep, high/2, 90, 270), bow(sideRight-headDeep, t.up(high/2), headDeep, high/2, -90, 90)...)
		end = bow((endLeft+endRight)/2, t.up(high/2), high/2, high/2, 0, 360)
	default:
		end = rounded(endLeft, t.up(0), endRight, t.up(high), cornerRadius)
	}
	return side, end
}

const (
	veeUp        = 9.5
	headDeep     = 6.0
	cornerRadius = 4.5
)

// rounded is a box with round corners.
func rounded(left, bottom, right, top, r float64) []vg.Point {
	out := bow(right-r, top-r, r, r, 0, 90)
	out = append(out, bow(left+r, top-r, r, r, 90, 180)...)
	out = append(out, bow(left+r, bottom+r, r, r, 180, 270)...)
	return append(out, bow(right-r, bottom+r, r, r, 270, 360)...)
}

// fuel fills an outline up to where the filler stops.
func (t tankSketch) fuel(outline []vg.Point) {
	s := below(outline, t.up(fuelUp))
	t.area(ink.Fuel, s...)
	t.loop(thin, s...)
}

// walls draws the shell, from behind with its thickness.
func (t tankSketch) walls(side, end []vg.Point) {
	t.loop(shell, side...)
	t.loop(shell, end...)
	middle := at((endLeft+endRight)/2, t.up(tankTall/2))
	var inner []vg.Point
	for _, p := range end {
		inner = append(inner, vg.Point{X: middle.X + 0.92*(p.X-middle.X), Y: middle.Y + 0.92*(p.Y-middle.Y)})
	}
	t.loop(stroke{ink.Black, ink.Hair, ink.Solid}, inner...)
	switch t.shape {
	case VeeTank:
		t.line(thin, ats(sideLeft, t.up(veeUp), sideRight, t.up(veeUp))...)
	case DrumTank:
		for _, x := range []float64{sideLeft + headDeep, sideRight - headDeep} {
			t.line(thin, ats(x, t.up(0), x, t.up(tankTall))...)
		}
	}
}

// axes draws the origin and the axes from it, one across and one up.
func (t tankSketch) axes(x, way float64, across string) {
	const long = 12
	if t.shape == DrumTank { // the corner of the box around it lies in the air
		t.line(unseen, ats(x, t.up(tankTall/2), x, t.up(0), x+way*tankTall/2, t.up(0))...)
	}
	if t.shape == VeeTank && way < 0 {
		t.line(unseen, ats(x, t.up(veeUp), x, t.up(0), (endLeft+endRight)/2, t.up(0))...)
	}
	t.arrow(axisLine, x, t.up(0), x+way*long, t.up(0))
	t.arrow(axisLine, x, t.up(0), x, t.up(long))
	t.originMark(x, t.up(0))
	blue := small.of(ink.Blue)
	if way > 0 {
		t.say(blue, x+1.5, t.up(-4), across)
		t.say(blue, x+1.5, t.up(10.2), "z up")
		t.sayLeft(firm.of(ink.Blue), x-1.8, t.up(-4), "origin")
		return
	}
	t.sayLeft(blue, x-1.5, t.up(-4), across)
	t.sayLeft(blue, x-1.5, t.up(10.2), "z up")
	t.say(firm.of(ink.Blue), x+1.8, t.up(-4), "origin")
}

// originMark is a ring around a dot.
func (t tankSketch) originMark(x, y float64) {
	t.dot(ink.Blue, at(x, y), 1.5*vg.Millimeter)
	t.dot(ink.White, at(x, y), 1.0*vg.Millimeter)
	t.dot(ink.Blue, at(x, y), 0.5*vg.Millimeter)
}

// captions names the views, and what the origin is.
func (t tankSketch) captions() {
	y := t.up(tankTall + 7.8)
	t.say(firm, sideLeft, y, "Side, front to the right")
	t.say(firm, endLeft, y, "End, seen from behind")
	t.originMark(5, 3.6)
	what := "origin: rear right lower corner"
	switch t.shape {
	case VeeTank:
		what += ", level with the keel"
	case DrumTank:
		what += " of the box around the drum"
	}
	t.say(small, 8, 2.4, what)
}
