package ink

import (
	"image"
	"image/color"
	"math"

	"gonum.org/v1/plot/font"
	"gonum.org/v1/plot/vg"
)

// A Survey is a canvas that draws nothing and notes where everything would be.
type Survey struct {
	pose
	width, height vg.Length

	Texts    []Text
	Segments []Segment    // of the lines that were stroked
	Bounds   vg.Rectangle // of all that was drawn
	drawn    bool
	pen      vg.Length
	widths   []vg.Length
}

// A Text is one that was drawn.
type Text struct {
	String string
	Size   vg.Length // of the letters
	Bold   bool
	Box    vg.Rectangle // around its letters; of a turned text, around the turned box
	Turn   float64      // radians

	corners [4]vg.Point // of the turned box
}

// NewSurvey returns a survey of a canvas of a size.
func NewSurvey(width, height vg.Length) *Survey {
	s := &Survey{width: width, height: height}
	s.now = identity
	return s
}

// Size implements vg.CanvasSizer.
func (s *Survey) Size() (x, y vg.Length) { return s.width, s.height }

func (s *Survey) SetLineWidth(w vg.Length)           { s.pen = w }
func (s *Survey) SetLineDash([]vg.Length, vg.Length) {}
func (s *Survey) SetColor(color.Color)               {}

func (s *Survey) Push() {
	s.push()
	s.widths = append(s.widths, s.pen)
}

func (s *Survey) Pop() {
	s.pop()
	s.pen = s.widths[len(s.widths)-1]
	s.widths = s.widths[:len(s.widths)-1]
}

func (s *Survey) note(p vg.Point, margin vg.Length) {
	r := vg.Rectangle{Min: vg.Point{X: p.X - margin, Y: p.Y - margin}, Max: vg.Point{X: p.X + margin, Y: p.Y + margin}}
	if !s.drawn {
		s.Bounds, s.drawn = r, true
	}
	s.Bounds = around(s.Bounds, r)
}

func around(a, b vg.Rectangle) vg.Rectangle {
	return vg.Rectangle{
		Min: vg.Point{X: min(a.Min.X, b.Min.X), Y: min(a.Min.Y, b.Min.Y)},
		Max: vg.Point{X: max(a.Max.X, b.Max.X), Y: max(a.Max.Y, b.Max.Y)},
	}
}

func (s *Survey) Stroke(p vg.Path) {
	if s.pen <= 0 {
		return
	}
	width := vg.Length(float64(s.pen) * s.now.scale())
	for _, chain := range s.flat(p) {
		for i, q := range chain {
			s.note(q, width/2)
			if i > 0 {
				s.Segments = append(s.Segments, Segment{chain[i-1], q, width})
			}
		}
	}
}

func (s *Survey) Fill(p vg.Path) {
	for _, chain := range s.flat(p) {
		for _, q := range chain {
			s.note(q, 0)
		}
	}
}

// FillString implements vg.Canvas. The box is that of the letters: from a fifth of their
// size below the line to three quarters above it.
func (s *Survey) FillString(f font.Face, at vg.Point, text string) {
	w, h := f.Width(text), f.Font.Size
	var box vg.Rectangle
	var corners [4]vg.Point
	for i, corner := range []vg.Point{{X: 0, Y: -h / 5}, {X: w, Y: -h / 5}, {X: w, Y: 3 * h / 4}, {X: 0, Y: 3 * h / 4}} {
		q := s.now.of(vg.Point{X: at.X + corner.X, Y: at.Y + corner.Y})
		if i == 0 {
			box = vg.Rectangle{Min: q, Max: q}
		}
		box = around(box, vg.Rectangle{Min: q, Max: q})
		s.note(q, 0)
		corners[i] = q
	}
	s.Texts = append(s.Texts, Text{String: text, Size: vg.Length(float64(h) * s.now.scale()), Bold: f.Font.Weight > 0, Box: box, Turn: s.now.turn(), corners: corners})
}

// DrawImage implements vg.Canvas.
func (s *Survey) DrawImage(r vg.Rectangle, _ image.Image) {
	s.note(s.now.of(r.Min), 0)
	s.note(s.now.of(r.Max), 0)
}

// Outside returns the texts that reach beyond the canvas, and by how much anything does.
func (s *Survey) Outside() (texts []string, by vg.Length) {
	beyond := func(r vg.Rectangle) vg.Length {
		return max(-r.Min.X, -r.Min.Y, r.Max.X-s.width, r.Max.Y-s.height, 0)
	}
	for _, t := range s.Texts {
		if beyond(t.Box) > 0 {
			texts = append(texts, t.String)
		}
	}
	if s.drawn {
		by = beyond(s.Bounds)
	}
	return texts, by
}

// Overlaps returns the pairs of texts whose letters come into each other's way.
func (s *Survey) Overlaps() [][2]string {
	var out [][2]string
	for i, a := range s.Texts {
		for _, b := range s.Texts[:i] {
			x := math.Min(float64(a.Box.Max.X), float64(b.Box.Max.X)) - math.Max(float64(a.Box.Min.X), float64(b.Box.Min.X))
			y := math.Min(float64(a.Box.Max.Y), float64(b.Box.Max.Y)) - math.Max(float64(a.Box.Min.Y), float64(b.Box.Min.Y))
			if x > 0.3 && y > 0.3 { // a third of a point is no sight
				out = append(out, [2]string{b.String, a.String})
			}
		}
	}
	return out
}
