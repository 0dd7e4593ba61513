package main

import (
	"math"
	"slices"
	"testing"

	"floatarc/geometry"
	"floatarc/plots/ink"
	"floatarc/tanks"
)

// TestSticksOfBuiltIns rules a stick for every built-in rig and tank, in every system of
// units, on both papers, upright on level ground and leaning on a slope: nothing reaches
// beyond the page, no text lies over another.
func TestSticksOfBuiltIns(t *testing.T) {
	if testing.Short() {
		t.Skip("long")
	}
	t.Parallel()
	rigs, bare := tanks.Names()
	for _, name := range slices.Concat(rigs, bare) {
		tank, err := tanks.LoadTank(name, nil)
		if err != nil {
			t.Fatal(err)
		}
		for _, units := range []string{"metric", "us", "imperial"} {
			testStick(t, name, units, tank, geometry.Attitude{}, stickFlags{})
			if tank.LevelOnly == "" && units == "us" {
				testStick(t, name, units, tank, geometry.Attitude{NoseUp: 6, LeftUp: -3}, stickFlags{forward: -7.5, left: 4})
			}
		}
	}
}

func testStick(t *testing.T, name, units string, tank *tanks.Tank, att geometry.Attitude, flags stickFlags) {
	t.Helper()
	contents, err := tank.At(att)
	if err != nil {
		t.Fatal(err)
	}
	s, err := (&options{units: units}).stand(name, tank, contents, &flags)
	if err != nil {
		t.Errorf("%s: %v", name, err)
		return
	}
	d := s.dipstick()
	last := 0.0
	for _, g := range d.Graduations() {
		if back := s.Litres(contents, g.Along); math.Abs(back-g.Litres) > 1e-6*tank.Capacity || g.Along < last || g.Along > s.top+1e-3 {
			t.Errorf("%s: %g L at %g mm, where the tank holds %g L; the stick leaves it at %g mm", name, g.Litres, g.Along, back, s.top)
		}
		last = g.Along
	}
	for _, d.Paper = range ink.Papers {
		pages, err := d.Pages()
		if err != nil {
			t.Errorf("%s: %v", name, err)
		}
		for _, page := range pages {
			survey := ink.NewSurvey(page.Size())
			page.Paint(survey)
			if texts, by := survey.Outside(); len(texts) > 0 || by > 0 {
				t.Errorf("%s, %s, %s: %q reach beyond the page by %.1f points", name, units, d.Paper.Name, texts, by)
			}
			if o := survey.Overlaps(); len(o) > 0 {
				t.Errorf("%s, %s, %s: texts over each other: %q", name, units, d.Paper.Name, o)
			}
		}
	}
}
