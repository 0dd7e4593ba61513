package plots

import (
	"image/color"
	"math"

	"gonum.org/v1/plot/plotter"
	"gonum.org/v1/plot/vg"

	"floatarc/gauge"
	"floatarc/plots/ink"
	"floatarc/tanks/quantity"
	"floatarc/volume"
)

// A Needle is what a needle is driven by; nil for what is not known.
type Needle struct {
	Straight gauge.Indicator // the sender wired straight to the gauge
	Stored   gauge.Indicator // what the conditioner holds today
	Marks    gauge.Indicator // points at the marks
	Best     gauge.Indicator // where it lies least
	// NeverOver is the share of the fuel below which the best points never show too much;
	// 0 for no such promise.
	NeverOver float64
}

// A Spread is where 95 of 100 needles lie with so many litres in the tank, errors in percent of the dial.
type Spread struct{ Litres, Low, High float64 }

var (
	spreadColor = color.NRGBA{ink.Sky.R, ink.Sky.G, ink.Sky.B, 0x50}
	overColor   = color.NRGBA{ink.Vermilion.R, ink.Vermilion.G, ink.Vermilion.B, 0x30}
)

// farAway is how many times as far as the points a needle that is wired straight may lie off and
// still be drawn whole.
const farAway = 4

// Errors draws how far the needle lies off, over what is in the tank, at the attitude of a
// relation. What lies off the paper is told at its edge.
func Errors(s Subject, rel *volume.Relation, n Needle, spread []Spread) *Picture {
	c := &chart{name: s.at(), what: "How far the needle lies off", x: s.inTank(), marks: s.markTicks(), level: true}
	c.x.low, c.x.high = s.of(s.Rig.Dial.Empty), s.of(s.Rig.Dial.Full)
	most := 1.0
	add := func(name string, of gauge.Indicator, as stroke, whole bool) {
		if of == nil {
			return
		}
		line := series{name: name, stroke: as}
		far := 0.0
		curve := s.Rig.Curve(rel, of)
		for _, at := range curve.Samples {
			off, _ := curve.Off(of, at)
			line.points = append(line.points, plotter.XY{X: s.of(at.Litres), Y: 100 * off})
			far = math.Max(far, math.Abs(100*off))
		}
		if whole || far < farAway*most {
			most = math.Max(most, far)
		} else if name != "" {
			line.name += ": up to " + quantity.Fixed(far, 0) + " %"
		}
		c.series = append(c.series, line)
	}
	add("points at the marks", n.Marks, marksLine, true)
	add("best points", n.Best, bestLine, true)
	for _, b := range spread {
		most = math.Max(most, math.Max(math.Abs(b.Low), math.Abs(b.High)))
	}
	add("as stored today", n.Stored, storedLine, false)
	add("straight to the gauge", n.Straight, straightLine, false)
	c.y = axis{label: "too high +, too low −, % of the dial", low: -1.25 * most, high: 1.25 * most}
	c.addSpread(s, spread)
	c.addPromise(s, n)
	zones, key := s.unseen(rel)
	c.zones, c.key = append(c.zones, zones...), append(c.key, key...)
	return c.picture()
}

func (c *chart) addSpread(s Subject, spread []Spread) {
	if len(spread) == 0 {
		return
	}
	around := band{color: spreadColor}
	for _, b := range spread {
		around.corners = append(around.corners, plotter.XY{X: s.of(b.Litres), Y: b.High})
	}
	for k := len(spread) - 1; k >= 0; k-- {
		around.corners = append(around.corners, plotter.XY{X: s.of(spread[k].Litres), Y: spread[k].Low})
	}
	c.bands = append(c.bands, around)
	c.key = append(c.key, entry{patch(spreadColor), "where 95 of 100 rigs lie, measured as well as the file says"})
}

// edgeLine is around where the needle is not to stand: in a grey print its colour is that of
// the spread.
var edgeLine = stroke{ink.Vermilion, ink.Medium, ink.Dotted}

func overSample(e *easel, r vg.Rectangle) {
	e.area(overColor, corners(r)...)
	e.loop(edgeLine, corners(r)...)
}

// addPromise shades where the needle is never to stand.
func (c *chart) addPromise(s Subject, n Needle) {
	if n.NeverOver <= 0 || n.Best == nil || s.Stands != "" { // it is kept on level ground
		return
	}
	c.zones = append(c.zones, zone{y: true, low: 0, high: c.y.high, x: [2]float64{c.x.low, s.of(s.Rig.Dial.Litres(n.NeverOver))}, color: overColor, edge: true})
	c.key = append(c.key, entry{overSample, "too much shown near empty: the best points never do, on falling fuel"})
}
