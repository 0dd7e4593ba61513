package plots

import (
	"fmt"
	"strings"
	"testing"

	"floatarc/plots/ink"
)

// everySketch are all of them, lettered by a function.
func everySketch(letter func(SketchPart) string) map[string]*Picture {
	return map[string]*Picture{
		"box": TankSketch(BoxTank, letter), "vee": TankSketch(VeeTank, letter), "drum": TankSketch(DrumTank, letter), "sender": SenderSketch(letter),
	}
}

// TestSketchesAreReadable: nothing outside, no text over another, none too small, and each
// says that it is not to scale; with the widest letters as without any.
func TestSketchesAreReadable(t *testing.T) {
	for _, letter := range []func(SketchPart) string{
		func(SketchPart) string { return "W" },
		func(SketchPart) string { return "" },
		func(p SketchPart) string { return fmt.Sprintf("%c", 'A'+rune(p-1)%26) },
	} {
		for name, p := range everySketch(letter) {
			w, h := p.Size()
			s := ink.NewSurvey(w, h)
			p.Paint(s)
			if texts, by := s.Outside(); by > 0.01 {
				t.Errorf("%s: %q reach %.2f points beyond the canvas", name, texts, by)
			}
			for _, pair := range s.Overlaps() {
				t.Errorf("%s: %q and %q overlap", name, pair[0], pair[1])
			}
			all := ""
			for _, text := range s.Texts {
				all += text.String + " "
				if text.Size < ink.Small {
					t.Errorf("%s: %q is %.1f points tall", name, text.String, float64(text.Size))
				}
			}
			if !strings.Contains(all, "Not to scale") {
				t.Errorf("%s does not say that it is not to scale", name)
			}
		}
	}
}

// TestSketchTagsAreApart: no letter's circle covers another one or a text.
func TestSketchTagsAreApart(t *testing.T) {
	const reach = tagSize * 72 / 25.4
	for name, p := range everySketch(func(p SketchPart) string { return fmt.Sprintf("%c", 'A'+rune(p-1)%26) }) {
		w, h := p.Size()
		s := ink.NewSurvey(w, h)
		p.Paint(s)
		for i, a := range s.Texts {
			if !a.Bold || len(a.String) > 2 {
				continue
			}
			middle := (a.Box.Min.Y + a.Box.Max.Y) / 2
			for k, b := range s.Texts {
				grown := 0.0
				if b.Bold && len(b.String) <= 2 {
					grown = reach - 3.5
				}
				if i != k && float64(b.Box.Min.X-a.Box.Max.X) < grown && float64(a.Box.Min.X-b.Box.Max.X) < grown &&
					float64(b.Box.Min.Y-middle) < reach-0.7 && float64(middle-b.Box.Max.Y) < reach-0.7 {
					t.Errorf("%s: the circle of %q covers %q", name, a.String, b.String)
				}
			}
		}
	}
}
