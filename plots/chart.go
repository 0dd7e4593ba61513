package plots

import (
	"image/color"
	"math"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/plotter"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"floatarc/plots/ink"
	"floatarc/tanks/quantity"
)

// A chart is a picture with two axes.
type chart struct {
	name, what string // whose it is, and what it shows
	x, y       axis
	zones      []zone
	bands      []band
	series     []series
	spots      []spot
	key        []entry
	marks      []tick // along the upper edge
	ruled      bool   // names keep clear of the lines below the marks
	level      bool   // a line at y = 0
}

// An axis is what is measured along it, and from where to where.
type axis struct {
	label     string
	low, high float64
	counts    bool // whole numbers only
	bare      bool // its numbers stand elsewhere
}

// A series is a line with its name, which is written beside it.
type series struct {
	name   string
	stroke stroke
	points plotter.XYs
	unseen bool // only the name is written: spots or a band are what is seen
}

// A band is an area between its corners.
type band struct {
	corners plotter.XYs
	color   color.Color
}

// A spot is a point with a name.
type spot struct {
	x, y  float64
	name  string
	color color.Color
	open  bool
}

// A tick is a place along x with a name.
type tick struct {
	at   float64
	name string
}

// A zone is a stretch of an axis, from edge to edge.
type zone struct {
	low, high float64
	hatch     bool
	edge      bool // with a dotted line around it
	color     color.Color
	y         bool // of y, and from left to right only as far as x tells
	x         [2]float64
}

const chartTall = 66 * vg.Millimeter

func (c *chart) picture() *Picture {
	below := vg.Length(0)
	if len(c.key) > 0 {
		below = keyHeight(c.key, width-2*margin) + margin
	}
	top := titleHeight(c.what, c.name) + 2*vg.Millimeter
	return &Picture{title: c.what + ": " + c.name, height: top + chartTall + below, paint: func(e *easel) {
		e.title(c.name, c.what)
		c.paint(e, vg.Rectangle{Min: vg.Point{X: margin, Y: below}, Max: vg.Point{X: width - margin, Y: below + chartTall}})
		e.key(c.key, vg.Point{X: margin, Y: below - vg.Millimeter}, width-2*margin)
	}}
}

// axes returns the axes in the one language of all pictures.
func (c *chart) axes(e *easel) *plot.Plot {
	p := plot.New()
	p.TextHandler = e.handler
	p.BackgroundColor = color.Transparent // what is shaded lies below
	for _, a := range []struct {
		of *plot.Axis
		as axis
	}{{&p.X, c.x}, {&p.Y, c.y}} {
		a.of.Min, a.of.Max = a.as.low, a.as.high
		a.of.Label.Text = a.as.label
		a.of.Label.TextStyle.Font, a.of.Label.TextStyle.Color, a.of.Label.TextStyle.Handler = ink.Regular(ink.Small), ink.Black, e.handler
		a.of.Tick.Label.Font, a.of.Tick.Label.Color, a.of.Tick.Label.Handler = ink.Regular(ink.Small), ink.Black, e.handler
		a.of.LineStyle = draw.LineStyle{Color: ink.Grey, Width: ink.Thin}
		a.of.Tick.LineStyle = draw.LineStyle{Color: ink.Grey, Width: ink.Thin}
		a.of.Tick.Length = 1.2 * vg.Millimeter
		a.of.Padding = 0
		a.of.Tick.Marker = plain{a.as.counts, a.as.bare}
	}
	p.X.Label.Padding, p.Y.Label.Padding = 1*vg.Millimeter, 1*vg.Millimeter
	grid := plotter.NewGrid()
	grid.Vertical = draw.LineStyle{Color: ink.Light, Width: ink.Hair}
	grid.Horizontal = grid.Vertical
	p.Add(grid)
	return p
}

// plain ticks stand at steps of 1, 2 or 5 times a power of ten, with short ones between.
type plain struct {
	counts bool // at whole numbers only
	bare   bool // without their numbers
}

// mostTicks is how many ticks of an axis have numbers at most.
const mostTicks = 7

// Ticks implements plot.Ticker.
func (p plain) Ticks(low, high float64) []plot.Tick {
	step, parts := niceStep((high - low) / mostTicks)
	if p.counts && step <= 1 {
		step, parts = 1, 1
	}
	decimals := max(0, -int(math.Floor(math.Log10(step)+1e-9)))
	fine := step / float64(parts)
	var out []plot.Tick
	for k := math.Ceil(low/fine - 1e-9); k*fine <= high+1e-9*step; k++ {
		t := plot.Tick{Value: k * fine}
		if math.Mod(math.Abs(k), float64(parts)) == 0 {
			t.Label = ink.Minus(quantity.Fixed(t.Value, decimals))
		}
		if p.bare {
			t.Label = ""
		}
		out = append(out, t)
	}
	return out
}

// niceStep returns the least step of 1, 2 or 5 times a power of ten that is no less, and
// into how many it is parted.
func niceStep(least float64) (step float64, parts int) {
	power := math.Pow(10, math.Floor(math.Log10(least)))
	switch m := least / power; {
	case m <= 1:
		return power, 5
	case m <= 2:
		return 2 * power, 4
	case m <= 5:
		return 5 * power, 5
	}
	return 10 * power, 5
}

// A field is where the data of a chart lie in the picture.
type field struct {
	area vg.Rectangle
	x, y func(float64) vg.Length
}

func (f field) at(x, y float64) vg.Point { return vg.Point{X: f.x(x), Y: f.y(y)} }

// laid lays the axes out in a box: all of the canvas, and what is left of it for the data.
func (c *chart) laid(e *easel, r vg.Rectangle) (p *plot.Plot, canvas, data draw.Canvas) {
	p = c.axes(e)
	if len(c.marks) > 0 {
		r.Max.Y -= 1.3 * ink.Small
	}
	canvas = draw.Canvas{Canvas: e.Canvas.Canvas, Rectangle: r}
	return p, canvas, p.DataCanvas(canvas)
}

func (c *chart) paint(e *easel, r vg.Rectangle) {
	p, canvas, data := c.laid(e, r)
	x, y := p.Transforms(&data)
	f := field{data.Rectangle, x, y}
	for _, z := range c.zones {
		c.paintZone(e, f, z)
	}
	for _, b := range c.bands {
		var around []vg.Point
		for _, q := range b.corners {
			around = append(around, f.within(f.at(q.X, q.Y)))
		}
		e.area(b.color, around...)
	}
	c.paintBareGrid(e, f)
	p.Draw(canvas)
	if c.level {
		e.line(stroke{ink.Black, ink.Thin, nil}, f.at(c.x.low, 0), f.at(c.x.high, 0))
	}
	c.paintMarks(e, f)
	for _, s := range c.series {
		c.paintLine(data, f, s)
	}
	for _, s := range c.spots {
		at := f.at(s.x, s.y)
		if !s.open {
			e.dot(s.color, at, 1.1*vg.Millimeter)
			continue
		}
		e.dot(s.color, at, 1.2*vg.Millimeter)
		e.dot(ink.White, at, 0.7*vg.Millimeter)
	}
	c.label(e, f)
}

// paintMarks draws places named along the upper edge; the ends are named first, the others where
// there is room left.
func (c *chart) paintMarks(e *easel, f field) {
	for _, k := range ink.EndsFirst(len(c.marks)) {
		m := c.marks[k]
		x := f.x(m.at)
		if x < f.area.Min.X-1 || x > f.area.Max.X+1 {
			continue
		}
		e.line(stroke{ink.Grey, ink.Hair, ink.Dotted}, vg.Point{X: x, Y: f.area.Min.Y}, vg.Point{X: x, Y: f.area.Max.Y})
		if m.name == "" {
			continue
		}
		name := firm.cut(m.name, 20*vg.Millimeter)
		wide := firm.width(name)
		at := vg.Point{X: max(0, min(x-wide/2, width-margin-wide)), Y: f.area.Max.Y + 0.8*vg.Millimeter}
		if !e.covers(grown(firm.bounds(at, name), 0.5*vg.Millimeter)) {
			e.write(firm, at, name)
		}
	}
}

// paintLine draws a line within the field.
func (c *chart) paintLine(data draw.Canvas, f field, s series) {
	if s.unseen {
		return
	}
	var points []vg.Point
	for _, q := range s.points {
		if math.IsNaN(q.Y) {
			data.StrokeLines(s.stroke.style(), data.ClipLinesXY(points)...)
			points = nil
			continue
		}
		points = append(points, f.at(q.X, q.Y))
	}
	data.StrokeLines(s.stroke.style(), data.ClipLinesXY(points)...)
}

func (s stroke) style() draw.LineStyle {
	return draw.LineStyle{Color: s.color, Width: s.width, Dashes: s.dashes}
}

// within returns a place, or the nearest one in the field.
func (f field) within(p vg.Point) vg.Point {
	return vg.Point{X: max(f.area.Min.X, min(f.area.Max.X, p.X)), Y: max(f.area.Min.Y, min(f.area.Max.Y, p.Y))}
}

func (c *chart) paintZone(e *easel, f field, z zone) {
	r := f.area
	if z.y {
		r.Min, r.Max = f.within(f.at(z.x[0], z.low)), f.within(f.at(z.x[1], z.high))
	} else {
		r.Min.X, r.Max.X = f.within(f.at(z.low, 0)).X, f.within(f.at(z.high, 0)).X
	}
	if r.Max.X-r.Min.X <= 0 || r.Max.Y-r.Min.Y <= 0 {
		return
	}
	if z.color != nil {
		e.area(z.color, corners(r)...)
	}
	if z.hatch {
		e.hatch(corners(r))
	}
	if z.edge {
		e.loop(edgeLine, corners(r)...)
	}
}
