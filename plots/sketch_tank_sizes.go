package plots

import (
	"gonum.org/v1/plot/vg"

	"floatarc/plots/ink"
)

// fittings draws the filler, the draw tube and the sender into both views.
func (t tankSketch) fittings() {
	top := t.up(tankTall)
	const neck = 61.0
	t.line(shell, ats(neck, top, neck, top+3.5)...)
	t.line(shell, ats(neck+5, top, neck+5, top+3.5)...)
	t.line(shell, ats(neck-0.8, top+3.8, neck+5.8, top+3.8)...)
	t.sayLeft(small, neck-1.5, top+1.5, "filler")
	t.sayLeft(small, sidePickup+3.5, top+1.5, "draw tube")
	t.say(small, sideAxle-4, top+1.5, "sender")
	for _, x := range []float64{sidePickup, endPickup} {
		t.line(thin, ats(x, top, x, t.up(pickupUp))...)
		t.drawPoint(at(x, t.up(pickupUp)))
	}
	for _, x := range []float64{sideAxle, endAxle} {
		t.line(stroke{ink.Black, 2 * ink.Thick, ink.Solid}, ats(x-3, top+0.6, x+3, top+0.6)...)
		t.line(thin, ats(x, top, x, t.up(axleUp))...)
	}
	t.swing(at(sideAxle, t.up(axleUp)), at(sideAxle+15, t.up(10)), bow(sideAxle+15, t.up(10), 2.8, 2.8, 0, 360))
	t.swing(at(endAxle, t.up(axleUp)), at(endAxle, t.up(10)), ats(endAxle-3, t.up(7.2), endAxle+3, t.up(7.2), endAxle+3, t.up(12.8), endAxle-3, t.up(12.8)))
}

// swing draws an arm with its float.
func (t tankSketch) swing(axle, centre vg.Point, around []vg.Point) {
	t.area(ink.White, around...)
	t.loop(thin, around...)
	t.line(rest, axle, centre)
	t.dot(ink.Black, centre, 0.7*vg.Millimeter)
	t.pin(axle)
}

// pin is an axle.
func (s sketch) pin(at vg.Point) {
	s.dot(ink.White, at, 1.6*vg.Millimeter)
	s.dot(ink.Black, at, 1.2*vg.Millimeter)
	s.dot(ink.White, at, 0.4*vg.Millimeter)
}

// sideSizes are those that all tanks have, from the side.
func (t tankSketch) sideSizes() {
	t.lying(sideLeft, sidePickup, t.row(0), t.up(pickupUp), t.place(Pickup, "x"))
	t.lying(sideLeft, sideAxle, t.row(1), t.up(axleUp), t.place(Axle, "x"))
	t.lying(sideLeft, sideRight, t.row(2), t.up(0), t.letter(Length))
	t.standing(sideLeft-5, t.up(0), t.up(pickupUp), sideLeft, sidePickup, t.place(Pickup, "z"))
	t.standing(sideLeft-11.5, t.up(0), t.up(axleUp), sideLeft, sideAxle, t.place(Axle, "z"))
	t.standing(sideRight+4, t.up(0), t.up(fuelUp), sideRight, sideRight, t.letter(Fill))
	t.plate(22.5, 13.3)
}

// plate is that of the tank's maker.
func (t tankSketch) plate(x, y float64) {
	around := ats(x, t.up(y), x+11, t.up(y), x+11, t.up(y+7), x, t.up(y+7))
	t.area(ink.White, around...)
	t.loop(thin, around...)
	t.tag(x+5.5, t.up(y+3.5), t.letter(Plate))
}

// endSizes are those that all tanks have, from behind.
func (t tankSketch) endSizes() {
	k := 0
	down := func(x, high float64, text string) {
		if text != "" {
			t.lying(endRight, x, t.row(k), high, text)
			k++
		}
	}
	down(endAxle, t.up(axleUp), t.place(Axle, "y"))
	down((endLeft+endRight)/2, t.up(0), t.letter(Keel))
	down(endPickup, t.up(pickupUp), t.place(Pickup, "y"))
	down(endLeft, t.up(veeUp), t.letter(Width))
	t.leader(endLeft+5, t.up(17), endLeft+0.4, t.up(15), t.letter(Wall))
}

// own are the sizes of one shape alone.
func (t tankSketch) own() {
	switch t.shape {
	case VeeTank:
		t.standing(endRight+5, t.up(0), t.up(veeUp), endRight, endRight, t.letter(Chine))
		t.standing(endRight+11, t.up(0), t.up(tankTall), endRight, endRight, t.letter(Height))
		t.leader(endLeft+3.5, t.up(1), (endLeft+endRight)/2-0.8, t.up(0.5), t.letter(Radius))
		t.level(sideLeft+0.5, t.letter(NoseUp))
		t.level(endLeft+0.5, t.letter(LeftUp))
	case DrumTank:
		t.around()
	default:
		t.standing(endRight+7, t.up(0), t.up(tankTall), endRight, endRight, t.letter(Height))
		r := cornerRadius * 0.3
		t.leader(endLeft+5, t.up(23.5), endLeft+r, t.up(tankTall-r), t.letter(Radius))
	}
}

// level is one that lies on the tank's top.
func (t tankSketch) level(x float64, text string) {
	y := t.up(tankTall)
	t.line(thin, ats(x, y+0.5, x+6, y+0.5, x+6, y+2.3, x, y+2.3, x, y+0.5)...)
	t.dot(ink.Black, at(x+3, y+1.4), 0.5*vg.Millimeter)
	t.tag(x+3, y+4.9, text)
}

// around is the tape around a drum.
func (t tankSketch) around() {
	const out = 2.2
	x, y, r := (endLeft+endRight)/2, t.up(tankTall/2), tankTall/2+out
	tape := bow(x, y, r, r, 8, 78)
	t.line(measured, tape...)
	for _, end := range [][2]float64{{14, 8}, {72, 78}} {
		x0, y0 := turned(x, y, r, end[0])
		x1, y1 := turned(x, y, r, end[1])
		t.tip(measured, x0, y0, x1, y1)
	}
	tx, ty := turned(x, y, r, 40)
	t.tag(tx, ty, t.letter(Around))
}
