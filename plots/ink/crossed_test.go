package ink

import (
	"math"
	"slices"
	"testing"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// TestCrossed draws lines and curves through, beside and below letters, level and turned.
func TestCrossed(t *testing.T) {
	for name, tc := range map[string]struct {
		draw func(*vg.Path)
		want []string
	}{
		"through both": {func(p *vg.Path) { p.Move(vg.Point{X: 0, Y: 24}); p.Line(vg.Point{X: 300, Y: 24}) }, []string{"level"}},
		"below":        {func(p *vg.Path) { p.Move(vg.Point{X: 0, Y: 16}); p.Line(vg.Point{X: 300, Y: 16}) }, nil},
		"upright":      {func(p *vg.Path) { p.Move(vg.Point{X: 30, Y: 0}); p.Line(vg.Point{X: 30, Y: 90}) }, []string{"level"}},
		"closed": {func(p *vg.Path) {
			p.Move(vg.Point{X: 30, Y: 0})
			p.Line(vg.Point{X: 5, Y: 40})
			p.Line(vg.Point{X: 30, Y: 80})
			p.Close()
		}, []string{"level"}},
		"arc":        {func(p *vg.Path) { p.Move(vg.Point{X: 60, Y: 20}); p.Arc(vg.Point{X: 40, Y: 20}, 20, 0, math.Pi) }, []string{"level"}},
		"arc around": {func(p *vg.Path) { p.Move(vg.Point{X: 70, Y: 24}); p.Arc(vg.Point{X: 35, Y: 24}, 35, 0, 2*math.Pi) }, nil},
		"curve": {func(p *vg.Path) {
			p.Move(vg.Point{X: 0, Y: 40})
			p.QuadTo(vg.Point{X: 32, Y: 10}, vg.Point{X: 64, Y: 40})
		}, []string{"level"}},
		"along the turned":  {func(p *vg.Path) { p.Move(vg.Point{X: 100, Y: 50}); p.Line(vg.Point{X: 140, Y: 90}) }, []string{"turned"}},
		"beside the turned": {func(p *vg.Path) { p.Move(vg.Point{X: 110, Y: 48}); p.Line(vg.Point{X: 150, Y: 88}) }, nil},
	} {
		s := NewSurvey(300, 100)
		d := draw.NewCanvas(s, 300, 100)
		style := draw.TextStyle{Color: Black, Font: Regular(12), Handler: Handler()}
		d.FillText(style, vg.Point{X: 20, Y: 20}, "level")
		style.Rotation = math.Pi / 4
		d.FillText(style, vg.Point{X: 100, Y: 50}, "turned")
		var p vg.Path
		tc.draw(&p)
		d.SetLineWidth(1)
		d.Stroke(p)
		if got := s.Crossed(0.9); !slices.Equal(got, tc.want) {
			t.Errorf("%s: %q, expected %q", name, got, tc.want)
		}
		if got := s.Crossed(1.1); got != nil {
			t.Errorf("%s: a thick line crosses %q, where none was drawn", name, got)
		}
	}
}

// TestSegmentsAreOnTheCanvas: moved, turned and scaled as what was drawn, with its width.
func TestSegmentsAreOnTheCanvas(t *testing.T) {
	s := NewSurvey(100, 100)
	s.Push()
	s.Translate(vg.Point{X: 10, Y: 20})
	s.Rotate(math.Pi / 2)
	s.Scale(2, 2)
	s.SetLineWidth(1.5)
	var p vg.Path
	p.Move(vg.Point{})
	p.Line(vg.Point{X: 5})
	s.Stroke(p)
	s.Pop()
	near := func(a, b vg.Point) bool { return math.Hypot(float64(a.X-b.X), float64(a.Y-b.Y)) < 1e-9 }
	if l := s.Segments; len(l) != 1 || !near(l[0].From, vg.Point{X: 10, Y: 20}) || !near(l[0].To, vg.Point{X: 10, Y: 30}) || math.Abs(float64(l[0].Width-3)) > 1e-9 {
		t.Errorf("segments %+v", s.Segments)
	}
}
