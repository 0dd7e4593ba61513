package fullsize

import (
	"fmt"
	"math"

	"gonum.org/v1/plot/vg"

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
	// Litres in the tank at a position, rising from 0 to 1; nil for a face of marks alone.
	Litres func(position float64) float64
	Units  quantity.System
	Paper  Paper
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

const faceUse = "Print on clear film, cut along the outer ring and lay it on the glass, the cross over the needle's pivot; or cut the middle out of paper. Outside the arc the dial's own marks, inside it what is in the tank when the needle stands there."

// DialOverlay returns a scale to lay over a gauge, at its true size.
func DialOverlay(f *Face) (*Page, error) {
	if err := f.check(); err != nil {
		return nil, err
	}
	head := header{title: f.Title + ": dial"}
	head.add(regular(9), faceUse, f.Paper)
	head.add(regular(9), fmt.Sprintf("Diameter %s, sweep %s°.", f.Units.Length.Size(f.Diameter), quantity.Trimmed(f.Sweep, 1)), f.Paper)
	o := &overlay{Face: f, r: f.Diameter / 2, x: f.Paper.Width / 2, y: f.Paper.Height - margin - head.height() - 8 - f.Diameter/2}
	o.grow = math.Max(1, math.Min(2, f.Diameter/52))
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
}

// angle of a position, degrees from the right.
func (o *overlay) angle(position float64) float64 { return 90 + o.Sweep/2 - position*o.Sweep }

func (o *overlay) point(position, radius float64) (x, y float64) {
	s, c := sincos(o.angle(position))
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

// leastLetters is the smallest size of letters on a face, points.
const leastLetters = 5.0

// drawMarks draws the dial's marks outside the arc. Where labels would touch, those of
// the end marks stay.
func (o *overlay) drawMarks(p *pen, arc float64) (taken []box) {
	g := o.grow
	for _, m := range o.Marks {
		x0, y0 := o.point(m.Position, arc)
		x1, y1 := o.point(m.Position, arc+2*g)
		p.lines(bold, x0, y0, x1, y1)
	}
	l := strong(math.Max(leastLetters, 6.5*g)).in(ink.Blue)
	for _, i := range endsFirst(len(o.Marks)) {
		m := o.Marks[i]
		x, y := o.point(m.Position, arc+4.1*g)
		text := shortened(l, m.Label, 8*g)
		if b := boxOf(l, x, y, text); b.clear(taken) && o.holds(b) {
			p.beside(l, middle, x, y, text)
			taken = append(taken, b)
		}
	}
	return taken
}

// drawLitres draws ticks at round quantities inside the arc.
func (o *overlay) drawLitres(p *pen, arc float64, taken []box) {
	g := o.grow
	v := o.Units.Volume
	low, high := v.Of(o.Litres(0)), v.Of(o.Litres(1))
	if !(high > low) {
		return
	}
	l := regular(math.Max(leastLetters, 5.5*g))
	inner := arc - 4.4*g
	along := func(value float64) float64 { return o.position(value) * o.Sweep * math.Pi / 180 * inner }
	widest := math.Max(l.width(quantity.Trimmed(low, 2)), l.width(quantity.Trimmed(high, 0)))
	s := scaleFor(o.Units, low, high, math.Max(widest, l.cap())+1.2, 0.9, along)
	for _, value := range withZero(low, high, s.minor) {
		length := 1.3 * g
		if whole(value, s.major) {
			length = 2.4 * g
		}
		at := o.position(value)
		x0, y0 := o.point(at, arc)
		x1, y1 := o.point(at, arc-length)
		p.lines(stroke{width: ink.Hair, color: ink.Black}, x0, y0, x1, y1)
		if !whole(value, s.major) {
			continue
		}
		x, y := o.point(at, inner)
		if b := boxOf(l, x, y, s.label(value)); b.clear(taken) {
			p.beside(l, middle, x, y, s.label(value))
			taken = append(taken, b)
		}
	}
	unit := regular(math.Max(leastLetters, 5.5*g)).in(ink.Grey)
	p.beside(unit, middle, o.x, o.y-7*g, v.Symbol)
}

// withZero returns the multiples of a step, 0 among them.
func withZero(low, high, step float64) []float64 {
	out := multiples(low, high, step)
	if low <= 0 && high >= 0 {
		out = append(out, 0)
	}
	return out
}

// position returns that at which the tank holds a value of the units that people read.
func (o *overlay) position(value float64) float64 {
	low, high := 0.0, 1.0
	for range 60 {
		mid := (low + high) / 2
		if o.Units.Volume.Of(o.Litres(mid)) < value {
			low = mid
		} else {
			high = mid
		}
	}
	return (low + high) / 2
}

// A box is where a text stands, mm.
type box struct{ x0, y0, x1, y1 float64 }

func boxOf(l letters, x, y float64, text string) box {
	w, h := l.width(text)/2+0.25, float64(l.font.Size/vg.Millimeter)/2+0.1
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

// endsFirst returns the order first, last, and then the middle before the rest, by
// halving.
func endsFirst(n int) []int {
	var out []int
	seen := make([]bool, n)
	add := func(i int) {
		if i >= 0 && i < n && !seen[i] {
			seen[i] = true
			out = append(out, i)
		}
	}
	add(0)
	add(n - 1)
	for step := n - 1; step > 1; step = (step + 1) / 2 {
		for i := 0; i < n; i += max(1, step/2) {
			add(i)
		}
	}
	for i := range n {
		add(i)
	}
	return out
}
