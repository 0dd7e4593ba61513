package plots

import (
	"cmp"
	"math"
	"slices"

	"gonum.org/v1/plot/plotter"
	"gonum.org/v1/plot/vg"

	"floatarc/plots/ink"
	"floatarc/tanks/quantity"
)

// A Swept is a rig with one key at many values.
type Swept struct {
	Name  string // of the rig
	Key   string
	Unit  string // in which the values are told; empty for none
	Count bool   // they are whole numbers
	Away  bool   // an end of the dial lies where some of the senders see nothing
	Now   float64
	Units quantity.System
	Rows  []Varied
}

// A Varied is what comes of one value; NaN for what is not known, and all of it where there is
// no such rig.
type Varied struct {
	Value       float64
	Marks, Best float64 // worst error away from the stops, percent of the dial
	Low, High   float64 // live band, litres
	Lamp        float64 // litres with which the low-fuel lamp lights
}

// Sweep draws what comes of one key of a rig: how far the needle lies off by both methods, and
// below it the litres that the sender sees and those with which the low-fuel lamp lights.
func Sweep(s Swept) *Picture {
	s.Rows = slices.SortedFunc(slices.Values(s.Rows), func(a, b Varied) int { return cmp.Compare(a.Value, b.Value) })
	upper := &chart{x: s.across(), y: axis{label: "worst, % of the dial"}}
	upper.addRun(s, "points at the marks", marksLine, func(v Varied) float64 { return v.Marks })
	upper.addRun(s, "best points", bestLine, func(v Varied) float64 { return v.Best })
	upper.y.high = upper.over(0.1)
	lower := &chart{x: s.across(), y: axis{label: "in the tank, " + s.Units.Volume.Symbol}}
	lower.addLive(s)
	lower.addRun(s, "the low-fuel lamp lights", lampLine, func(v Varied) float64 { return s.Units.Volume.Of(v.Lamp) })
	lower.y.high = lower.over(0)
	if !math.IsNaN(s.Now) {
		upper.marks, lower.marks = []tick{{s.Now, "now"}}, []tick{{s.Now, ""}}
		upper.ruled, lower.ruled = true, true
	}
	lower.key = s.remarks()
	return stacked(s.Name, "What comes of "+s.Key, upper, lower)
}

var (
	lampLine  = leanStrokes[0][0] // as in the picture of the lamp
	liveLine  = stroke{ink.Grey, ink.Thin, ink.Solid}
	liveColor = ink.Fuel
)

// across is the axis of the key; whole numbers stand clear of its ends.
func (s Swept) across() axis {
	a := axis{label: s.Key, low: s.Rows[0].Value, high: s.Rows[len(s.Rows)-1].Value, counts: s.Count}
	if s.Unit != "" {
		a.label += ", " + s.Unit
	}
	if s.Count {
		a.low, a.high = a.low-0.5*s.apart(), a.high+0.5*s.apart()
	}
	return a
}

// apart is how far the two nearest values lie from each other.
func (s Swept) apart() float64 {
	least := math.Inf(1)
	for i := 1; i < len(s.Rows); i++ {
		least = math.Min(least, s.Rows[i].Value-s.Rows[i-1].Value)
	}
	return least
}

// over returns where an axis ends that begins at 0 and holds all that is drawn over it, and at
// least so much.
func (c *chart) over(least float64) float64 {
	most := least
	for _, l := range c.series {
		for _, q := range l.points {
			most = math.Max(most, known(q.Y))
		}
	}
	for _, b := range c.bands {
		for _, q := range b.corners {
			most = math.Max(most, q.Y)
		}
	}
	return 1.2 * most
}

// addRun adds a figure over the values: a line with gaps, or dots where the values are whole or
// have no neighbours.
func (c *chart) addRun(s Swept, name string, as stroke, of func(Varied) float64) {
	line := series{name: name, stroke: as, unseen: s.Count}
	knows := func(i int) bool { return i >= 0 && i < len(s.Rows) && !math.IsNaN(of(s.Rows[i])) }
	seen := false
	for i, v := range s.Rows {
		y := of(v)
		line.points = append(line.points, plotter.XY{X: v.Value, Y: y})
		seen = seen || knows(i)
		if knows(i) && (s.Count || !knows(i-1) && !knows(i+1)) {
			c.spots = append(c.spots, spot{x: v.Value, y: y, color: as.color})
		}
	}
	if seen {
		c.series = append(c.series, line)
	}
}

// nameHigh is how far up in the live band its name stands: the lamp lights further down.
const nameHigh = 0.75

// addLive adds the live band: an area between gaps, or bars.
func (c *chart) addLive(s Swept) {
	v := s.Units.Volume
	name := series{name: "live band", stroke: liveLine, unseen: true}
	bar := 0.3 * s.apart()
	for i := 0; i < len(s.Rows); {
		if math.IsNaN(s.Rows[i].Low) {
			name.points = append(name.points, plotter.XY{X: s.Rows[i].Value, Y: math.NaN()})
			i++
			continue
		}
		end := i + 1
		for end < len(s.Rows) && !s.Count && !math.IsNaN(s.Rows[end].Low) {
			end++
		}
		run := s.Rows[i:end]
		for _, r := range run {
			name.points = append(name.points, plotter.XY{X: r.Value, Y: v.Of(r.Low + nameHigh*(r.High-r.Low))})
		}
		if len(run) == 1 {
			left, right := run[0], run[0]
			left.Value, right.Value = left.Value-bar, right.Value+bar
			run = []Varied{left, right}
		}
		c.addBand(run, v)
		i = end
	}
	c.series = append(c.series, name)
}

// addBand adds one stretch of the live band, with a line along either edge.
func (c *chart) addBand(run []Varied, v quantity.Display) {
	var low, high plotter.XYs
	for _, r := range run {
		low = append(low, plotter.XY{X: r.Value, Y: v.Of(r.Low)})
		high = append(high, plotter.XY{X: r.Value, Y: v.Of(r.High)})
	}
	c.series = append(c.series, series{stroke: liveLine, points: low}, series{stroke: liveLine, points: high})
	around := slices.Clone(high)
	slices.Reverse(around)
	c.bands = append(c.bands, band{corners: append(slices.Clone(low), around...), color: liveColor})
}

// remarks say what the lines do not.
func (s Swept) remarks() []entry {
	methods := "light: points at the marks; dark: best points"
	if s.Away {
		methods += "; both away from the stops"
	}
	out := []entry{{bothLines, methods}, {livePatch, "live band: litres between which the sender's reading changes"}}
	if slices.ContainsFunc(s.Rows, func(v Varied) bool { return math.IsNaN(v.Low) }) {
		out = append(out, entry{func(*easel, vg.Rectangle) {}, "In a gap there is no such rig: the value is refused."})
	}
	return out
}

func livePatch(e *easel, r vg.Rectangle) {
	e.area(liveColor, corners(r)...)
	e.loop(liveLine, corners(r)...)
}

// bothLines are those of the two methods.
func bothLines(e *easel, r vg.Rectangle) {
	third := (r.Max.Y - r.Min.Y) / 3
	for i, l := range []stroke{bestLine, marksLine} {
		y := r.Min.Y + third*vg.Length(i+1)
		e.line(l, vg.Point{X: r.Min.X, Y: y}, vg.Point{X: r.Max.X, Y: y})
	}
}
