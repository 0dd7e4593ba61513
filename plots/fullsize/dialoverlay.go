package fullsize

import (
	"fmt"
	"math"

	"floatarc/geometry"
	"floatarc/plots/ink"
	"floatarc/tanks/quantity"
)

// A Face is a dial as an overlay shows it: its sweep is centred on the top, the empty
// mark on the left.
type Face struct {
	Title    string
	Diameter float64 // mm, of the ring to cut out
	Sweep    float64 // degrees from position 0 to position 1
	Marks    []FaceMark
	// Litres in the tank at a position, rising from 0 to 1, not a number where nothing is to be
	// said of them; nil for a face of marks alone. Stretches without litres that are narrower
	// than a 400th of the sweep may be overlooked.
	Litres func(position float64) float64
	Notes  []string // printed at the top: for what the litres hold, where the needle tells nothing
	Units  quantity.System
	Paper  ink.Paper
}

// A FaceMark is a printed mark at a position from 0 to 1.
type FaceMark struct {
	Label    string
	Position float64
}

// Limits of a face.
const (
	leastDiameter = 30.0 // mm
	mostDiameter  = 160.0
	leastSweep    = 20.0 // degrees
	mostSweep     = 340.0
)

// check says why there is no overlay of a face.
func (f *Face) check() error {
	switch {
	case !(f.Diameter >= leastDiameter && f.Diameter <= mostDiameter):
		return fmt.Errorf("a dial of %g mm, expected a diameter of %g to %g mm", f.Diameter, leastDiameter, mostDiameter)
	case !(f.Sweep >= leastSweep && f.Sweep <= mostSweep):
		return fmt.Errorf("a sweep of %g°, expected %g° to %g°", f.Sweep, leastSweep, mostSweep)
	case len(f.Marks) == 0 && f.Litres == nil:
		return fmt.Errorf("a dial without marks and without litres, expected one or the other")
	}
	for _, m := range f.Marks {
		if !(m.Position >= 0 && m.Position <= 1) {
			return fmt.Errorf("mark %q at position %g, expected 0 to 1", m.Label, m.Position)
		}
	}
	return nil
}

// underFace is left free between a face and the check lines, mm.
const underFace = 4.0

const faceUse = "Print on clear film, cut along the outer ring and lay it on the glass, the cross over the needle's pivot; or cut the middle out of paper. Outside the arc the dial's own marks, inside it what is in the tank when the needle stands there."

// DialOverlay returns a scale to lay over a gauge, at its true size.
func DialOverlay(f *Face) (*Page, error) {
	if err := f.check(); err != nil {
		return nil, err
	}
	head := header{title: f.Title + ": dial"}
	head.add(regular(9), faceUse, f.Paper)
	head.add(regular(9), fmt.Sprintf("Diameter %s, sweep %s°.", f.Units.Length.Size(f.Diameter), quantity.Trimmed(f.Sweep, 1)), f.Paper)
	for _, note := range f.Notes {
		head.add(regular(9).in(ink.Vermilion), note, f.Paper)
	}
	o := &overlay{Face: f, r: f.Diameter / 2, x: inMM(f.Paper.Width) / 2, y: inMM(f.Paper.Height) - margin - head.height() - 8 - f.Diameter/2}
	o.grow = math.Max(1, math.Min(2, f.Diameter/52))
	if room := o.y + o.r - margin - checkHeight(f.Units) - underFace; f.Diameter > room {
		return nil, fmt.Errorf("the words over the dial leave %.0f mm of the page for it, expected %g mm or more: fewer or shorter notes", room, f.Diameter)
	}
	return &Page{title: f.Title + ": dial", paper: f.Paper, draw: func(p *pen) {
		head.draw(p, f.Paper, "")
		o.draw(p)
		p.checkLines(f.Units)
	}}, nil
}

// An overlay is a face on its page.
type overlay struct {
	*Face
	x, y, r float64 // mm
	grow    float64 // of letters and ticks, against a face of 52 mm

	stretches []stretch // on which litres are told
}

// angle of a position, degrees from the right.
func (o *overlay) angle(position float64) float64 { return 90 + o.Sweep/2 - position*o.Sweep }

func (o *overlay) point(position, radius float64) (x, y float64) {
	s, c := geometry.Sincos(o.angle(position))
	return o.x + radius*c, o.y + radius*s
}

func (o *overlay) draw(p *pen) {
	p.arc(fine, o.x, o.y, o.r, 0, 360)
	p.cross(hair, o.x, o.y, 3)
	g := o.grow
	arc := o.r - 7*g
	p.arc(fine, o.x, o.y, arc, o.angle(1), o.Sweep)
	marks := o.drawMarks(p, arc)
	if o.Litres != nil {
		o.drawLitres(p, arc, marks)
	}
}

// A box is where a text stands, mm.
type box struct{ x0, y0, x1, y1 float64 }

func boxOf(l letters, x, y float64, text string) box {
	w, h := l.width(text)/2+0.25, float64(l.font.Size/mm)/2+0.1
	return box{x - w, y - h, x + w, y + h}
}

// clear tells whether a box touches none of others.
func (b box) clear(others []box) bool {
	for _, o := range others {
		if b.x0 < o.x1 && o.x0 < b.x1 && b.y0 < o.y1 && o.y0 < b.y1 {
			return false
		}
	}
	return true
}

// holds tells whether a box lies on the face.
func (o *overlay) holds(b box) bool {
	for _, x := range []float64{b.x0, b.x1} {
		for _, y := range []float64{b.y0, b.y1} {
			if math.Hypot(x-o.x, y-o.y) > o.r-0.3 {
				return false
			}
		}
	}
	return true
}
