package fullsize

import (
	"image/color"
	"math"

	"gonum.org/v1/plot/font"
	"gonum.org/v1/plot/text"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"floatarc/geometry"
	"floatarc/plots/ink"
)

// A pen draws on a canvas in millimetres.
type pen struct{ c vg.CanvasSizer }

// A stroke is how a line is drawn.
type stroke struct {
	width  vg.Length
	color  color.Color
	dashes []vg.Length
}

// The strokes.
var (
	hair    = stroke{width: ink.Hair, color: ink.Grey}
	fine    = stroke{width: ink.Thin, color: ink.Black}
	bold    = stroke{width: ink.Medium, color: ink.Black}
	dashed  = stroke{width: ink.Thin, color: ink.Grey, dashes: ink.Dashed}
	fillEnd = stroke{width: ink.Medium, color: ink.Vermilion}
	dialEnd = stroke{width: ink.Thin, color: ink.Blue}
)

// at is a point of the page.
func at(x, y float64) vg.Point { return vg.Point{X: vg.Length(x) * mm, Y: vg.Length(y) * mm} }

// lines strokes a line through points, x and y in turn.
func (p *pen) lines(s stroke, xy ...float64) {
	var path vg.Path
	for i := 0; i+1 < len(xy); i += 2 {
		if i == 0 {
			path.Move(at(xy[0], xy[1]))
		} else {
			path.Line(at(xy[i], xy[i+1]))
		}
	}
	p.stroke(s, path)
}

// arc strokes part of a circle, from an angle over a sweep, degrees.
func (p *pen) arc(s stroke, x, y, radius, from, sweep float64) {
	var path vg.Path
	sin, cos := geometry.Sincos(from)
	path.Move(at(x+radius*cos, y+radius*sin))
	path.Arc(at(x, y), vg.Length(radius)*mm, from*math.Pi/180, sweep*math.Pi/180)
	p.stroke(s, path)
}

func (p *pen) stroke(s stroke, path vg.Path) {
	p.c.SetColor(s.color)
	p.c.SetLineWidth(s.width)
	p.c.SetLineDash(s.dashes, 0)
	p.c.Stroke(path)
}

// fill fills a rectangle.
func (p *pen) fill(c color.Color, x0, y0, x1, y1 float64) {
	var path vg.Path
	path.Move(at(x0, y0))
	path.Line(at(x1, y0))
	path.Line(at(x1, y1))
	path.Line(at(x0, y1))
	path.Close()
	p.c.SetColor(c)
	p.c.Fill(path)
}

// cross marks a point, its arms so long.
func (p *pen) cross(s stroke, x, y, arm float64) {
	p.lines(s, x-arm, y, x+arm, y)
	p.lines(s, x, y-arm, x, y+arm)
}

// Which part of a text stands at its point.
const (
	left   = 0
	middle = -0.5
	right  = -1
)

// letters are how a text is set.
type letters struct {
	font  font.Font
	color color.Color
}

func regular(size float64) letters { return letters{ink.Regular(vg.Length(size)), ink.Black} }
func strong(size float64) letters  { return letters{ink.Bold(vg.Length(size)), ink.Black} }

func (l letters) in(c color.Color) letters {
	l.color = c
	return l
}

// width of a text, mm.
func (l letters) width(text string) float64 { return float64(ink.Width(l.font, text) / mm) }

// cap is the height of capitals and figures, mm: that of Liberation Sans as a share of
// the size of its letters.
func (l letters) cap() float64 { return 0.72 * float64(l.font.Size/mm) }

// line is the distance from one line of text to the next, mm.
func (l letters) line() float64 { return 1.25 * float64(l.font.Size/mm) }

// text sets a text with its base line at a point.
func (p *pen) text(l letters, align, x, y float64, words string) {
	p.turned(l, align, x, y, 0, words)
}

// beside sets a text with the middle of its capitals at a height.
func (p *pen) beside(l letters, align, x, y float64, words string) {
	p.text(l, align, x, y-l.cap()/2, words)
}

// turned sets a text turned by degrees about its point.
func (p *pen) turned(l letters, align, x, y, degrees float64, words string) {
	style := draw.TextStyle{Color: l.color, Font: l.font, Handler: ink.Handler(), XAlign: text.XAlignment(align)}
	p.c.Push()
	p.c.Translate(at(x, y))
	if degrees != 0 {
		p.c.Rotate(degrees * math.Pi / 180)
	}
	// The handler sets the top of a line of letters; the base line is wanted.
	size := l.font.Size
	canvas := draw.NewCanvas(p.c, 0, 0)
	canvas.FillText(style, vg.Point{Y: style.FontExtents().Ascent - size}, words)
	p.c.Pop()
}
