package plots

import (
	"image/color"
	"io"

	"gonum.org/v1/plot/font"
	"gonum.org/v1/plot/text"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"floatarc/calibration"
	"floatarc/plots/ink"
	"floatarc/tanks/quantity"
)

// at returns the name of what is drawn at an attitude.
func (s Subject) at() string {
	if s.Stands == "" {
		return s.Name
	}
	return s.Name + ". " + s.Stands
}

// width is that of a picture.
const width = 120 * vg.Millimeter

// A Subject is whose pictures are drawn, and in which units people read them.
type Subject struct {
	Name string
	// Stands says how the vehicle stands, if not on level ground, for what is drawn there.
	Stands string
	Rig    *calibration.Rig
	Units  quantity.System
	// ByLitres says that the tank has no heights: its levels are litres.
	ByLitres bool
}

// A Picture is drawn on any canvas.
type Picture struct {
	title  string
	height vg.Length
	paint  func(*easel)
}

// Title says in one line what the picture shows.
func (p *Picture) Title() string { return p.title }

// Size returns how large it is.
func (p *Picture) Size() (w, h vg.Length) { return width, p.height }

// Paint draws it on a canvas of its size.
func (p *Picture) Paint(c vg.CanvasSizer) { p.paint(newEasel(c)) }

// Write writes it as a file of a format.
func (p *Picture) Write(w io.Writer, f ink.Format) error {
	return f.Write(w, p.title, width, p.height, p.Paint)
}

// An easel is a canvas with what is drawn with: the letters, and the boxes that texts
// took.
type easel struct {
	draw.Canvas
	handler text.Handler
	taken   []vg.Rectangle
}

func newEasel(c vg.CanvasSizer) *easel {
	w, h := c.Size()
	e := &easel{Canvas: draw.NewCanvas(c, w, h), handler: ink.Handler()}
	e.SetColor(ink.White)
	e.Fill(box(vg.Rectangle{Max: vg.Point{X: w, Y: h}}))
	return e
}

// A stroke is how a line is drawn.
type stroke struct {
	color  color.Color
	width  vg.Length
	dashes []vg.Length
}

func (e *easel) line(s stroke, points ...vg.Point) {
	if len(points) < 2 {
		return
	}
	e.trace(s, path(points, false))
}

func (e *easel) trace(s stroke, p vg.Path) {
	e.SetColor(s.color)
	e.SetLineWidth(s.width)
	e.SetLineDash(s.dashes, 0)
	e.Stroke(p)
}

// loop draws a closed line.
func (e *easel) loop(s stroke, points ...vg.Point) {
	if len(points) < 3 {
		return
	}
	e.trace(s, path(points, true))
}

func (e *easel) area(c color.Color, points ...vg.Point) {
	if len(points) < 3 {
		return
	}
	e.SetColor(c)
	e.Fill(path(points, true))
}

func path(points []vg.Point, closed bool) vg.Path {
	var p vg.Path
	for i, at := range points {
		if i == 0 {
			p.Move(at)
		} else {
			p.Line(at)
		}
	}
	if closed {
		p.Close()
	}
	return p
}

func box(r vg.Rectangle) vg.Path { return path(corners(r), true) }

func corners(r vg.Rectangle) []vg.Point {
	return []vg.Point{r.Min, {X: r.Max.X, Y: r.Min.Y}, r.Max, {X: r.Min.X, Y: r.Max.Y}}
}

// A pen is how a text is written.
type pen struct {
	font  font.Font
	color color.Color
	x, y  text.XAlignment // of the point it is written at; y counts up
	turn  float64         // radians
}

func (p pen) style(h text.Handler) draw.TextStyle {
	return draw.TextStyle{Color: p.color, Font: p.font, Rotation: p.turn, XAlign: p.x, YAlign: text.YAlignment(p.y), Handler: h}
}

var (
	small = pen{font: ink.Regular(ink.Small), color: ink.Black}
	quiet = pen{font: ink.Regular(ink.Small), color: ink.Grey}
	firm  = pen{font: ink.Bold(ink.Small), color: ink.Black}
	head  = pen{font: ink.Bold(ink.Head), color: ink.Black}
)

// aligned returns a pen whose texts stand about their point: 0 right of or above it, -0.5
// across it, -1 left of or below it.
func (p pen) aligned(x, y float64) pen {
	p.x, p.y = text.XAlignment(x), text.XAlignment(y)
	return p
}

func (p pen) of(c color.Color) pen {
	p.color = c
	return p
}

func (p pen) width(s string) vg.Length { return ink.Width(p.font, s) }

// write writes a text and keeps others away from it.
func (e *easel) write(p pen, at vg.Point, s string) {
	e.FillText(p.style(e.handler), at, s)
	e.taken = append(e.taken, p.bounds(at, s))
}

// bounds returns the box that a text takes, without its turn.
func (p pen) bounds(at vg.Point, s string) vg.Rectangle {
	w, h := p.width(s), p.font.Size
	if p.turn != 0 {
		w, h = h, w
	}
	min := vg.Point{X: at.X + w*vg.Length(p.x), Y: at.Y + h*vg.Length(p.y)}
	if p.turn != 0 { // a quarter turn to the left goes up from its point
		min = vg.Point{X: at.X - w*(1+vg.Length(p.y)), Y: at.Y + h*vg.Length(p.x)}
	}
	return vg.Rectangle{Min: min, Max: vg.Point{X: min.X + w, Y: min.Y + h}}
}

// title writes what the picture shows at the top, broken into lines, and returns how
// far down it reaches.
func (e *easel) title(name, what string) vg.Length {
	y := e.Max.Y - 2*vg.Millimeter
	for _, l := range lines(head, what, width-6*vg.Millimeter) {
		e.write(head.aligned(0, -1), vg.Point{X: 3 * vg.Millimeter, Y: y}, l)
		y -= 1.25 * ink.Head
	}
	for _, l := range lines(quiet, name, width-6*vg.Millimeter) {
		e.write(quiet.aligned(0, -1), vg.Point{X: 3 * vg.Millimeter, Y: y}, l)
		y -= 1.25 * ink.Small
	}
	return e.Max.Y - y
}

// titleHeight returns how much of a picture's top its title takes.
func titleHeight(what, name string) vg.Length {
	room := width - 6*vg.Millimeter
	return 2*vg.Millimeter + 1.25*ink.Head*vg.Length(len(lines(head, what, room))) + 1.25*ink.Small*vg.Length(len(lines(quiet, name, room)))
}
