package calibration

import (
	"math"

	"floatarc/gauge"
)

// A Point is one calibration point: an input to store, the dial position that
// goes with it, and what they stand for.
type Point struct {
	Label      string
	Share      float64 // of the fuel between the empty and the full mark
	Position   float64 // on the dial
	Litres     float64 // in the tank
	Travel     float64 // of the sender
	SenderOhms float64
	InputOhms  float64
	// Blind says that the mark lies where the sender does not move: the
	// input is that of the end of the live band, the litres are the mark's.
	Blind bool
	End   End // of what the conditioner is told of, if it is blind
}

// Pair returns what the conditioner stores.
func (p Point) Pair() gauge.Pair { return gauge.Pair{Input: p.InputOhms, Position: p.Position} }

// Pairs returns what the conditioner stores.
func Pairs(points []Point) []gauge.Pair {
	out := make([]gauge.Pair, len(points))
	for i, p := range points {
		out[i] = p.Pair()
	}
	return out
}

// edge is the share of a full tank, or of the travel, within which a point at the end
// of the live band still counts as there.
const edge = 1e-9

// AtMarks returns a point at every mark of the dial. Of several marks in one
// blind band only the outermost is kept, and of several that share an input, as
// they do where the live band ends or on one contact of a stem, the first, or at
// the full mark the last; the others are returned as dropped.
func (r *Rig) AtMarks() (points []Point, dropped []gauge.Mark) {
	told := r.Told(r.Level)
	low, high := told.Low.Litres, told.High.Litres
	slack := edge * r.Tank.Full
	marks := r.Dial.Marks
	last := len(marks) - 1
	var kept []gauge.Mark // of each point
	for i, m := range marks {
		litres := r.Dial.Litres(m.Share)
		below, above := litres < low-slack, litres > high+slack
		if below && i > 0 || above && i < last {
			dropped = append(dropped, m)
			continue
		}
		p := r.point(m)
		switch {
		case below:
			p.Blind, p.End = true, LowEnd
		case above:
			p.Blind, p.End = true, HighEnd
		}
		if n := len(points); n > 0 && points[n-1].shares(p) {
			if i < last || n == 1 {
				dropped = append(dropped, m)
				continue
			}
			dropped = append(dropped, kept[n-1])
			points, kept = points[:n-1], kept[:n-1]
		}
		points, kept = append(points, p), append(kept, m)
	}
	return points, dropped
}

// shares tells whether two points have one input.
func (p Point) shares(q Point) bool {
	return math.Abs(p.InputOhms-q.InputOhms) <= 1e-9*(1+q.InputOhms)
}

func (r *Rig) point(m gauge.Mark) Point {
	p := Point{Label: m.Label, Share: m.Share, Position: m.Position, Litres: r.Dial.Litres(m.Share)}
	told := r.Told(r.Level)
	p.Travel = told.within(r.Level.Travel(p.Litres))
	for _, end := range []Border{told.Low, told.High} {
		if math.Abs(p.Litres-end.Litres) <= edge*r.Tank.Full { // to within rounding
			p.Travel = end.Travel
		}
	}
	p.SenderOhms = r.Sender.Track().Ohms(p.Travel)
	p.InputOhms = r.Wiring.Input(p.SenderOhms)
	return p
}

// free returns a point at an input and a position; its litres are those that the
// input stands for.
func (r *Rig) free(label string, input, position float64) Point {
	told := r.Told(r.Level)
	p := Point{Label: label, Position: position, InputOhms: input, SenderOhms: r.Wiring.Sender(input)}
	p.Travel = told.within(r.TravelAt(input))
	p.Litres = r.LitresNear(r.Level, input)
	rounding := edge * (told.High.Travel - told.Low.Travel)
	switch {
	case p.Travel <= told.Low.Travel+rounding && told.Low.Blind:
		p.Litres, p.Blind, p.End = told.Low.Litres, true, LowEnd
	case p.Travel >= told.High.Travel-rounding && told.High.Blind:
		p.Litres, p.Blind, p.End = told.High.Litres, true, HighEnd
	}
	p.Share = r.Dial.Share(p.Litres)
	return p
}

// live tells whether a quantity lies in the live band, ends included.
func live(litres, low, high, slack float64) bool {
	return litres >= low-slack && litres <= high+slack
}
