package plots

import (
	"math"
	"strings"

	"gonum.org/v1/plot/vg"

	"floatarc/calibration"
	"floatarc/gauge"
	"floatarc/plots/ink"
	"floatarc/tanks/quantity"
	"floatarc/volume"
)

// The fan on which a dial is drawn: wide enough for its numbers, whatever the sweep of
// the gauge.
const (
	fanSweep  = 84.0 // degrees
	fanRadius = 66 * vg.Millimeter
	fanRow    = 9 * vg.Millimeter
)

// A dialRow is what is in the tank when the needle stands on each mark.
type dialRow struct {
	name   string
	stroke stroke // of the arc that its numbers stand on
	litres []string
}

// Dial draws what is in the tank when the needle stands on each mark, wired straight and with
// the points, at the attitude of a relation.
func Dial(s Subject, rel *volume.Relation, n Needle) *Picture {
	rows := []dialRow{{name: "what the mark stands for", stroke: stroke{ink.Black, ink.Hair, ink.Solid}}}
	for _, m := range s.Rig.Dial.Marks {
		rows[0].litres = append(rows[0].litres, s.short(s.Rig.Dial.Litres(m.Share)))
	}
	litres, inputs := s.sounded(rel)
	for _, w := range []struct {
		name   string
		stroke stroke
		ind    gauge.Indicator
	}{
		{"straight to the gauge", straightLine, n.Straight},
		{"as stored today", storedLine, n.Stored},
		{"with points at the marks", marksLine, n.Marks},
		{"with the best points", bestLine, n.Best},
	} {
		if w.ind != nil {
			rows = append(rows, dialRow{w.name, w.stroke, s.onMarks(litres, inputs, w.ind)})
		}
	}
	what := "In the tank when the needle stands on a mark, " + s.Units.Volume.Symbol
	below := s.fanFoot(rows)
	if !s.fanned(rows) {
		below = s.tableFoot(rows)
	}
	top := titleHeight(what, s.at())
	return &Picture{title: what + ": " + s.at(), height: top + fanRow + below.height + margin, paint: func(e *easel) {
		e.title(s.at(), what)
		arcTop := e.Max.Y - top - fanRow
		s.paintArc(e, vg.Point{X: width / 2, Y: arcTop - fanRadius})
		below.paint(e, arcTop)
	}}
}

// A foot is what stands below the top of the arc.
type foot struct {
	height vg.Length
	paint  func(e *easel, arcTop vg.Length)
}

// fanFoot writes the numbers of each row along an arc of its own.
func (s Subject) fanFoot(rows []dialRow) foot {
	var key []entry
	for _, r := range rows {
		key = append(key, entry{lineSample(r.stroke), r.name})
	}
	fan := lowest(rowRadius(len(rows)-1)) + ink.Small
	return foot{fan + keyHeight(key, width-2*margin), func(e *easel, arcTop vg.Length) {
		centre := vg.Point{X: width / 2, Y: arcTop - fanRadius}
		for k, r := range rows {
			s.paintRow(e, centre, r, rowRadius(k))
		}
		e.key(key, vg.Point{X: margin, Y: arcTop - fan}, width-2*margin)
	}}
}

// paintRow draws an arc of the fan with its numbers on it.
func (s Subject) paintRow(e *easel, centre vg.Point, r dialRow, radius vg.Length) {
	var arc []vg.Point
	for _, p := range even(0, 1, 60) {
		arc = append(arc, onFan(centre, p, radius))
	}
	e.line(r.stroke, arc...)
	p := firm.of(darker(r.stroke.color)).aligned(-0.5, -0.5)
	for i, m := range s.Rig.Dial.Marks {
		at := onFan(centre, m.Position, radius)
		e.area(ink.White, corners(grown(p.bounds(at, r.litres[i]), 0.6*vg.Millimeter))...)
		e.write(p, at, r.litres[i])
	}
}

// onFan returns where a position of the dial lies at a radius.
func onFan(centre vg.Point, position float64, radius vg.Length) vg.Point {
	sin, cos := math.Sincos((position - 0.5) * fanSweep * math.Pi / 180)
	return vg.Point{X: centre.X + radius*vg.Length(sin), Y: centre.Y + radius*vg.Length(cos)}
}

// short writes litres with no more digits than a dial needs.
func (s Subject) short(litres float64) string {
	v := s.of(litres)
	if math.Abs(v) >= 99.95 {
		return ink.Minus(quantity.Fixed(v, 0))
	}
	return ink.Minus(quantity.Fixed(v, 1))
}

// paintArc draws the arc of the dial and its marks. Where names would touch, those beside
// are moved along, or left out.
func (s Subject) paintArc(e *easel, centre vg.Point) {
	var arc []vg.Point
	for _, p := range even(0, 1, 60) {
		arc = append(arc, onFan(centre, p, fanRadius))
	}
	e.line(stroke{ink.Black, ink.Thick, nil}, arc...)
	marks := s.Rig.Dial.Marks
	for _, k := range ink.EndsFirst(len(marks)) {
		m := marks[k]
		e.line(stroke{ink.Black, ink.Thick, nil}, onFan(centre, m.Position, fanRadius), onFan(centre, m.Position, fanRadius+2*vg.Millimeter))
		p, name := head.aligned(-0.5, 0), head.cut(m.Label, 16*vg.Millimeter)
		at := onFan(centre, m.Position, fanRadius+3*vg.Millimeter)
		if r := p.bounds(at, name); clearance(r, arc) > 0 && !e.covers(grown(r, 0.5*vg.Millimeter)) {
			e.write(p, at, name)
		}
	}
}

// fanned tells whether the numbers fit on the fan: none touches the next.
func (s Subject) fanned(rows []dialRow) bool {
	for k, r := range rows {
		radius := rowRadius(k)
		for i := 1; i < len(r.litres); i++ {
			room := vg.Length(s.Rig.Dial.Marks[i].Position-s.Rig.Dial.Marks[i-1].Position) * radius * fanSweep * math.Pi / 180
			if room < (firm.width(r.litres[i-1])+firm.width(r.litres[i]))/2+vg.Millimeter {
				return false
			}
		}
	}
	return true
}

func rowRadius(k int) vg.Length { return fanRadius - fanRow*(vg.Length(k)+0.6) }

// lowest is how far down from the top of the arc a place at its ends and at a radius lies.
func lowest(radius vg.Length) vg.Length {
	return fanRadius - radius*vg.Length(math.Cos(fanSweep/2*math.Pi/180))
}

// sounded returns quantities from none to a full tank, and what the terminals show with them:
// asked by the travel of the sender, which costs no search.
func (s Subject) sounded(rel *volume.Relation) (litres, inputs []float64) {
	add := func(l, travel float64) {
		litres, inputs = append(litres, l), append(inputs, s.Rig.InputAt(travel))
	}
	add(0, rel.Low)
	for _, t := range even(rel.Low, rel.High, 5*samples) {
		if l := rel.Litres(t); l <= s.Rig.Tank.Full {
			add(l, t)
		}
	}
	if litres[len(litres)-1] < s.Rig.Tank.Full {
		add(s.Rig.Tank.Full, rel.Travel(s.Rig.Tank.Full))
	}
	return litres, inputs
}

// onMarks returns what is in the tank when the needle stands on each mark.
func (s Subject) onMarks(litres, inputs []float64, ind gauge.Indicator) []string {
	shown := make([]float64, len(litres))
	for i, in := range inputs {
		shown[i] = ind.Show(in)
	}
	var out []string
	for _, m := range s.Rig.Dial.Marks {
		out = append(out, s.ranges(litres, shown, m.Position))
	}
	return out
}

// ranges tells with how many litres a needle stands at a position: one quantity, a range where it
// stays put, several, or never.
func (s Subject) ranges(litres, shown []float64, position float64) string {
	var out []string
	for _, at := range calibration.Standing(litres, shown, position) {
		if at.High-at.Low > 1e-3*litres[len(litres)-1] {
			out = append(out, s.short(at.Low)+"–"+s.short(at.High))
		} else {
			out = append(out, s.short((at.Low+at.High)/2))
		}
	}
	switch {
	case len(out) == 0:
		return "never"
	case len(out) > 2:
		return out[0] + " … " + out[len(out)-1]
	}
	return strings.Join(out, ", ")
}
