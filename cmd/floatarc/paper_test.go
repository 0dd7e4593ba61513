package main

import (
	"fmt"
	"testing"

	"floatarc/plots/ink"
	"floatarc/tanks"
	"floatarc/tanks/quantity"
)

func TestPaperIsThatOfTheUnits(t *testing.T) {
	for _, tc := range []struct {
		name string
		sys  quantity.System
		want ink.Paper
	}{
		{"", quantity.Metric, ink.A4}, {"", quantity.Imperial, ink.A4}, {"", quantity.US, ink.Letter},
		{"A4", quantity.US, ink.A4}, {"a4", quantity.US, ink.A4}, {"Letter", quantity.Metric, ink.Letter}, {"LETTER", quantity.Metric, ink.Letter},
	} {
		if got, err := (paperFlag{tc.name}).of(tc.sys); got != tc.want || err != nil {
			t.Errorf("%q in %s: %v, %v", tc.name, tc.sys.Name, got, err)
		}
	}
}

// TestCardsAndFacesAreReadable draws the card and the face of every built-in rig in all units
// on every paper: nothing lies outside, no text covers another.
func TestCardsAndFacesAreReadable(t *testing.T) {
	if testing.Short() {
		t.Skip("long")
	}
	t.Parallel()
	rigs, _ := tanks.Names()
	rigs = append(rigs, "testdata/rigs/marks.toml")
	for _, rig := range rigs {
		p := picturesOf(t, rig, "metric")
		for _, units := range []string{"metric", "us", "imperial"} {
			p.job.sys, _ = quantity.Named(units)
			for _, paper := range ink.Papers {
				if (paper == ink.Letter) != (units == "us") && rig != tanks.Demo {
					continue // as people print it
				}
				p.flags.size.paper.name = paper.Name
				for name, draw := range map[string]func(*pictures) (picture, error){"card": (*pictures).card, "face": (*pictures).face} {
					picture := p.drawn(t, pictureKind{name: name, draw: draw})
					if picture == nil {
						continue
					}
					where := fmt.Sprintf("%s %s in %s on %s", rig, name, units, paper.Name)
					s := ink.NewSurvey(picture.Size())
					picture.Paint(s)
					if texts, by := s.Outside(); by > 0 {
						t.Errorf("%s: %q reach %.2f points beyond the page", where, texts, by)
					}
					if o := s.Overlaps(); len(o) > 0 {
						t.Errorf("%s: texts over each other: %q", where, o)
					}
				}
			}
		}
	}
}
