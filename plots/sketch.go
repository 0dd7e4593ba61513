package plots

import (
	"math"

	"gonum.org/v1/plot/vg"

	"floatarc/plots/ink"
)

// A SketchPart is a size that a sketch shows by its letter.
type SketchPart int

// The parts. A place has three sizes: its letter stands with x, y and z.
const (
	_ SketchPart = iota
	Plate
	Length
	Width
	Height
	Chine // where a V bottom goes over into the sides, above the keel
	Keel  // from the right side
	Radius
	Around
	Wall
	Fill
	Pickup // a place
	NoseUp
	LeftUp
	Axle // a place
	ArmLength
	Heading
	StopLow
	StopHigh
	FloatAcross
	FloatLong
	Draft
	OhmsLow
	OhmsHigh
	OhmsBetween
)

// A sketch is drawn not to scale. Positions are mm from the lower left corner.
type sketch struct {
	*easel
	letter func(SketchPart) string
}

// newSketch returns a picture of a height, mm, with letters for its parts: what has none
// is not measured in it.
func newSketch(title string, height float64, letter func(SketchPart) string, paint func(sketch)) *Picture {
	return &Picture{title: title, height: vg.Length(height) * vg.Millimeter, paint: func(e *easel) {
		e.title("", title)
		paint(sketch{e, letter})
	}}
}

// at is a point so many mm from the lower left corner.
func at(x, y float64) vg.Point {
	return vg.Point{X: vg.Length(x) * vg.Millimeter, Y: vg.Length(y) * vg.Millimeter}
}

// ats are points given by turns right and up.
func ats(xy ...float64) []vg.Point {
	var out []vg.Point
	for i := 0; i+1 < len(xy); i += 2 {
		out = append(out, at(xy[i], xy[i+1]))
	}
	return out
}

// bow is an arc about a point, stretched by two radii, mm, between two angles in degrees.
func bow(x, y, across, up, from, to float64) []vg.Point {
	const steps = 32
	var out []vg.Point
	for k := range steps + 1 {
		sin, cos := math.Sincos((from + (to-from)*float64(k)/steps) * math.Pi / 180)
		out = append(out, at(x+across*cos, y+up*sin))
	}
	return out
}

// turned is a point so far, mm, from another one, at an angle in degrees.
func turned(x, y, far, angle float64) (float64, float64) {
	sin, cos := math.Sincos(angle * math.Pi / 180)
	return x + far*cos, y + far*sin
}

// Strokes of sketches.
var (
	shell    = stroke{ink.Black, ink.Thick, ink.Solid}
	thin     = stroke{ink.Black, ink.Thin, ink.Solid}
	unseen   = stroke{ink.Grey, ink.Thin, ink.Dotted} // an edge that is not there, but that is measured from
	help     = stroke{ink.Grey, ink.Hair, ink.Dashed} // from what is measured to its dimension
	axisLine = stroke{ink.Blue, ink.Thick, ink.Solid}
)

// tagSize is the radius of the circle around a letter, mm.
const tagSize = 2.4

// place is the letter of a place with an axis.
func (s sketch) place(part SketchPart, axis string) string {
	letter := s.letter(part)
	if letter == "" {
		return ""
	}
	return letter + axis
}

// tag writes a letter in a circle, so that it is not taken for a value.
func (s sketch) tag(x, y float64, text string) {
	if text == "" {
		return
	}
	half := max(0, float64(firm.width(text)/vg.Millimeter)/2-1.3)
	round := append(bow(x+half, y, tagSize, tagSize, -90, 90), bow(x-half, y, tagSize, tagSize, 90, 270)...)
	s.area(ink.White, round...)
	s.loop(thin, round...)
	s.write(firm.aligned(-0.5, -0.42), at(x, y), text)
}

// arrow draws a line with a head at its end.
func (s sketch) arrow(line stroke, x0, y0, x1, y1 float64) {
	s.line(line, ats(x0, y0, x1, y1)...)
	s.tip(line, x0, y0, x1, y1)
}

// tip draws the head of an arrow that comes from a point.
func (s sketch) tip(line stroke, x0, y0, x1, y1 float64) {
	size := 1.2 + 0.5*float64(line.width)
	back := math.Atan2(y0-y1, x0-x1) * 180 / math.Pi
	ax, ay := turned(x1, y1, size, back+20)
	bx, by := turned(x1, y1, size, back-20)
	s.area(line.color, ats(x1, y1, ax, ay, bx, by)...)
}

// between draws a dimension line with a head at each end.
func (s sketch) between(x0, y0, x1, y1 float64) {
	s.arrow(measured, x0, y0, x1, y1)
	s.tip(measured, x1, y1, x0, y0)
}

// shortest is a dimension that has room for its letter, mm.
const shortest = 2*tagSize + 3

// lying draws a dimension across at a height, its letter in the line or, where that is
// short, beyond its second end. What it measures lies so high.
func (s sketch) lying(from, to, y, high float64, text string) {
	if text == "" {
		return
	}
	s.line(help, ats(from, high, from, y-1)...)
	s.line(help, ats(to, high, to, y-1)...)
	s.between(from, y, to, y)
	at := (from + to) / 2
	if math.Abs(to-from) < shortest {
		at = to + math.Copysign(tagSize+1, to-from)
	}
	s.tag(at, y, text)
}

// standing draws an upright dimension. What it measures lies so far across, at its lower
// and its upper end.
func (s sketch) standing(x, from, to, low, high float64, text string) {
	if text == "" {
		return
	}
	beyond := math.Copysign(1, x-low)
	s.line(help, ats(low, from, x+beyond, from)...)
	s.line(help, ats(high, to, x+math.Copysign(1, x-high), to)...)
	s.between(x, from, x, to)
	at := (from + to) / 2
	if to-from < shortest {
		at = to + tagSize + 1
	}
	s.tag(x, at, text)
}

// leader joins a letter to what it is.
func (s sketch) leader(x, y, toX, toY float64, text string) {
	if text == "" {
		return
	}
	s.line(measured, ats(x, y, toX, toY)...)
	s.dot(ink.Grey, at(toX, toY), 0.5*vg.Millimeter)
	s.tag(x, y, text)
}

// say writes a text right of a point, or left of it.
func (s sketch) say(p pen, x, y float64, text string) { s.write(p.aligned(0, 0), at(x, y), text) }

func (s sketch) sayLeft(p pen, x, y float64, text string) {
	s.write(p.aligned(-1, 0), at(x, y), text)
}

// below returns the part of an outline below a height, mm.
func below(outline []vg.Point, high float64) []vg.Point {
	y := vg.Length(high) * vg.Millimeter
	var out []vg.Point
	for i, p := range outline {
		q := outline[(i+1)%len(outline)]
		if p.Y <= y {
			out = append(out, p)
		}
		if (p.Y <= y) != (q.Y <= y) {
			out = append(out, vg.Point{X: p.X + (q.X-p.X)*(y-p.Y)/(q.Y-p.Y), Y: y})
		}
	}
	return out
}
