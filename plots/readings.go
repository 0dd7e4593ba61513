package plots

import (
	"fmt"
	"math"
	"slices"

	"gonum.org/v1/plot/plotter"
	"gonum.org/v1/plot/vg"

	"floatarc/calibration"
	"floatarc/float"
	"floatarc/gauge"
	"floatarc/plots/ink"
	"floatarc/tanks/quantity"
	"floatarc/volume"
)

// The lines that the pictures have in common: how it is, how it was, how it is to be.
var (
	truthLine    = stroke{ink.Black, ink.Medium, ink.Solid}
	straightLine = stroke{ink.Vermilion, ink.Medium, ink.Dashed}
	storedLine   = stroke{ink.Purple, ink.Medium, ink.Chain}
	marksLine    = stroke{ink.Sky, ink.Medium, ink.Solid}
	bestLine     = stroke{ink.Blue, ink.Thick, ink.Solid}
	asideLine    = stroke{ink.Grey, ink.Thin, ink.Dashed}
)

// samples is into how many steps a smooth line is divided.
const samples = 300

// even returns places from one to another.
func even(from, to float64, steps int) []float64 {
	out := make([]float64, steps+1)
	for i := range out {
		out[i] = from + (to-from)*float64(i)/float64(steps)
	}
	return out
}

func (s Subject) of(litres float64) float64 { return s.Units.Volume.Of(litres) }

// inTank is the axis of what is in the tank.
func (s Subject) inTank() axis {
	return axis{label: "in the tank, " + s.Units.Volume.Symbol, low: 0, high: s.of(s.Rig.Tank.Full)}
}

// markTicks are the marks of the dial at their litres.
func (s Subject) markTicks() []tick {
	var out []tick
	for _, m := range s.Rig.Dial.Marks {
		out = append(out, tick{s.of(s.Rig.Dial.Litres(m.Share)), m.Label})
	}
	return out
}

// unseen are the stretches that the sender does not see, and the entry of the key that
// says so.
func (s Subject) unseen(rel *volume.Relation) ([]zone, []entry) {
	low, high := rel.Live()
	least := 1e-3 * s.Rig.Tank.Full
	var out []zone
	if low > least {
		out = append(out, zone{low: 0, high: s.of(low), hatch: true})
	}
	if high < s.Rig.Tank.Full-least {
		out = append(out, zone{low: s.of(high), high: s.of(s.Rig.Tank.Full), hatch: true})
	}
	if out == nil {
		return nil, nil
	}
	return out, []entry{{hatchedWhite, "not seen by the sender: it rests on a stop, and reads the same"}}
}

func hatchedWhite(e *easel, r vg.Rectangle) {
	e.hatch(corners(r))
	e.loop(stroke{ink.Grey, ink.Hair, nil}, corners(r)...)
}

// travelAxis tells what a sender's travel is and how it reads.
func (s Subject) travelAxis() (label string, of func(float64) float64) {
	switch r := s.Rig.Sender.(type) {
	case *float.Arm:
		return "arm, ° above level", func(t float64) float64 { return t }
	case *float.Rod:
		if r.Stem {
			return "float's centre above the foot, " + s.Units.Length.Symbol, s.Units.Length.Of
		}
		return "wetted, " + s.Units.Length.Symbol, s.Units.Length.Of
	}
	return "surface above the origin, " + s.Units.Length.Symbol, s.Units.Length.Of
}

// ErrNoTravel is returned for a sender that is known by litres alone.
var ErrNoTravel = fmt.Errorf("the sender is known by litres alone, expected one with an arm, a stem or heights")

// Travel draws what every place of the sender's travel stands for, at the attitude of a
// relation; with those of rising and falling fuel, unless they are nil.
func Travel(s Subject, rel, rising, falling *volume.Relation) (*Picture, error) {
	if s.ByLitres {
		return nil, ErrNoTravel
	}
	label, of := s.travelAxis()
	low, high := s.Rig.Sender.Stops()
	c := &chart{name: s.at(), what: "What every place of the sender means",
		x: axis{label: label, low: of(low), high: of(high)},
		y: axis{label: "in the tank, " + s.Units.Volume.Symbol, low: 0, high: s.of(s.Rig.Tank.Full)}}
	line := func(r *volume.Relation) plotter.XYs {
		var out plotter.XYs
		for _, t := range even(r.Low, r.High, samples) {
			out = append(out, plotter.XY{X: of(t), Y: s.of(r.Litres(t))})
		}
		return out
	}
	if rising != nil && falling != nil {
		c.series = append(c.series, series{name: "falling", stroke: asideLine, points: line(falling)}, series{name: "rising", stroke: asideLine, points: line(rising)})
	}
	c.series = append(c.series, series{stroke: bestLine, points: line(rel)})
	zones, key := s.unseen(rel)
	for _, z := range zones {
		z.y, z.x = true, [2]float64{c.x.low, c.x.high}
		c.zones = append(c.zones, z)
	}
	c.key = key
	for _, m := range s.Rig.Dial.Marks {
		litres := s.Rig.Dial.Litres(m.Share)
		c.spots = append(c.spots, spot{x: of(rel.Travel(litres)), y: s.of(litres), name: m.Label, color: ink.Black})
	}
	c.y.high *= 1.04 // so that the mark of a full tank is seen whole
	return c.picture(), nil
}

// Inputs draws what the terminals show over what is in the tank, at the attitude of a
// relation, with points and what a conditioner that stores them takes each input for.
func Inputs(s Subject, rel *volume.Relation, points []calibration.Point, lines *gauge.Lines) *Picture {
	c := &chart{name: s.at(), what: "What the terminals show, and the points to store", x: s.inTank(), marks: s.markTicks()}
	truth := series{name: "what the terminals show", stroke: truthLine}
	least, most := math.Inf(1), 0.0
	for _, l := range even(0, s.Rig.Tank.Full, samples) {
		y := s.Rig.Input(rel, l)
		truth.points = append(truth.points, plotter.XY{X: s.of(l), Y: y})
		least, most = math.Min(least, y), math.Max(most, y)
	}
	taken := series{name: "what the conditioner takes it for", stroke: marksLine}
	inputs := even(least, most, samples)
	for _, p := range points {
		c.spots = append(c.spots, spot{x: s.of(p.Litres), y: p.InputOhms, name: p.Label + "  " + quantity.Fixed(p.InputOhms, 1) + " Ω", color: ink.Blue, open: p.Blind})
	}
	for _, in := range inputs {
		taken.points = append(taken.points, plotter.XY{X: s.of(s.Rig.Dial.Litres(s.Rig.Dial.ShareAt(lines.Show(in)))), Y: in})
	}
	c.series = []series{taken, truth}
	c.y = axis{label: "at the terminals, Ω", low: math.Max(0, least-0.14*(most-least)), high: most + 0.14*(most-least)}
	c.zones, c.key = s.unseen(rel)
	if slices.ContainsFunc(points, func(p calibration.Point) bool { return p.Blind }) {
		c.key = append(c.key, entry{hollow, "hollow: the sender rests there, and the point stands for more than it shows"})
	}
	return c.picture()
}

func hollow(e *easel, r vg.Rectangle) {
	e.dot(ink.Blue, middleOf(r), 1.2*vg.Millimeter)
	e.dot(ink.White, middleOf(r), 0.7*vg.Millimeter)
}

// Grain draws how many litres lie behind an ohm at the terminals, at the attitude of a
// relation: where that is much, the sender sees little.
func Grain(s Subject, rel *volume.Relation) *Picture {
	c := &chart{name: s.at(), what: "What an ohm is worth", x: s.inTank(), marks: s.markTicks()}
	line := series{stroke: bestLine}
	const off = 0.004 // of the travel, either way
	span := rel.High - rel.Low
	most := 0.0
	for _, t := range even(rel.Low+off*span, rel.High-off*span, samples) {
		ohms := s.Rig.EvenAt(t+off*span) - s.Rig.EvenAt(t-off*span)
		y := math.Abs((rel.Litres(t+off*span) - rel.Litres(t-off*span)) / ohms)
		if math.IsInf(y, 0) || math.IsNaN(y) {
			continue
		}
		line.points = append(line.points, plotter.XY{X: s.of(rel.Litres(t)), Y: s.of(y)})
		most = math.Max(most, s.of(y))
	}
	c.series = []series{line}
	c.y = axis{label: s.Units.Volume.Symbol + " behind an ohm", low: 0, high: 1.15 * most}
	c.zones, c.key = s.unseen(rel)
	c.key = append(c.key, entry{lineSample(bestLine), "an ohm more of a joint or of earth moves the needle by as much"})
	return c.picture()
}
