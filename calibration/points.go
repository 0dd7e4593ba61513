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

// edge is the share of a full tank within which a mark at the end of the live
// band still counts as reached.
const edge = 1e-9

// AtMarks returns a point at every mark of the dial. Of several marks in one
// blind band only the outermost is kept, since they would share one input; the
// others are returned as dropped.
func (r *Rig) AtMarks() (points []Point, dropped []gauge.Mark) {
	low, high := r.Level.Reach()
	slack := edge * r.Tank.Full
	marks := r.Dial.Marks
	below := func(i int) bool { return r.Dial.Litres(marks[i].Share) < low-slack }
	above := func(i int) bool { return r.Dial.Litres(marks[i].Share) > high+slack }
	for i, m := range marks {
		if below(i) && i > 0 || above(i) && i < len(marks)-1 {
			dropped = append(dropped, m)
			continue
		}
		// A mark just where the blind band of another ends would share its
		// input; the outer one is kept.
		p, n := r.point(m, below(i) || above(i)), len(points)
		switch {
		case n > 0 && points[n-1].Blind && points[n-1].Litres < low && p.Litres <= low+slack:
			dropped = append(dropped, m)
			continue
		case n > 1 && p.Blind && points[n-1].Litres >= high-slack:
			dropped = append(dropped, marks[i-1])
			points = points[:n-1]
		}
		points = append(points, p)
	}
	return apart(points, dropped, marks)
}

// apart drops points that share an input with the one before, as marks on one
// contact of a stem do; of the last two it drops the inner.
func apart(points []Point, dropped []gauge.Mark, marks []gauge.Mark) ([]Point, []gauge.Mark) {
	var out []Point
	for i, p := range points {
		if n := len(out); n > 0 && math.Abs(out[n-1].InputOhms-p.InputOhms) <= 1e-9*(1+p.InputOhms) {
			lost := p
			if i == len(points)-1 && n > 1 {
				lost, out[n-1] = out[n-1], p
			}
			for _, m := range marks {
				if m.Label == lost.Label {
					dropped = append(dropped, m)
				}
			}
			continue
		}
		out = append(out, p)
	}
	return out, dropped
}

func (r *Rig) point(m gauge.Mark, blind bool) Point {
	p := Point{Label: m.Label, Share: m.Share, Position: m.Position, Litres: r.Dial.Litres(m.Share), Blind: blind}
	p.Travel = r.Level.Travel(p.Litres)
	p.SenderOhms = r.Sender.Track().Ohms(p.Travel)
	p.InputOhms = r.Wiring.Input(p.SenderOhms)
	return p
}

// live tells whether a quantity lies in the live band, ends included.
func live(litres, low, high, slack float64) bool {
	return litres >= low-slack && litres <= high+slack
}
