package main

import (
	"math"
	"strconv"
	"testing"

	"gonum.org/v1/plot/vg"

	"floatarc/plots"
	"floatarc/plots/ink"
)

func same(a, b number) bool {
	return a == b || math.IsNaN(float64(a)) && math.IsNaN(float64(b))
}

// TestSweepRowsAreThoseOfSet: each row is what points and reserve tell with --set KEY=VALUE, to
// the last digit.
func TestSweepRowsAreThoseOfSet(t *testing.T) {
	for _, c := range []struct{ rig, key, values string }{
		{"demo", "sender.arm", "8 in:9 in:1/2 in"}, {"demo", "use.grade", "10 %:20 %:5 %"}, {"camper", "conditioner.pull_up", "100,330"},
		{"launch", "conditioner.points", "3:5:1"}, {"demo", "sender.pivot[2]", "170:200:15"}, {"genset", "gauge.empty", "1:3:1"},
	} {
		o := &options{units: "metric"}
		s, err := o.sweep(c.key, c.values, c.rig, quarter)
		if err != nil {
			t.Fatal(err)
		}
		for _, r := range s.answer().Rows {
			if !isKnown(float64(r.Value)) {
				continue // the rig as it is
			}
			with := &options{units: "metric", set: []string{c.key + "=" + strconv.FormatFloat(float64(r.Value), 'g', -1, 64)}}
			f := planFlags{method: atMarks, neverOver: quarter}
			j, rel, p, err := with.loadPlan(c.rig, attitude{}, f)
			if err != nil {
				t.Fatal(err)
			}
			sheet, err := j.pointsSheet(rel, p, f)
			if err != nil {
				t.Fatal(err)
			}
			e := sheet.answer().Error
			low, high := j.rig.Level.Live()
			want := sweepRow{
				LiveLow: number(low), LiveHigh: number(high), Marks: e.Marks.Percent, MarksLitres: e.Marks.Litres, MarksLive: e.Marks.Live, MarksAway: e.Marks.Away,
				Best: e.Best.Percent, BestLitres: e.Best.Litres, BestLive: e.Best.Live, BestAway: e.Best.Away, Straight: unknown, Warn: unknown,
			}
			if e.Before != nil {
				want.Straight = e.Before.Percent
			}
			if lamp, err := j.lampSheet(lampFlags{plan: f, ordinary: halfOfIt}); err == nil {
				want.Warn = lamp.Warn
			}
			for i, pair := range [][2]number{
				{r.LiveLow, want.LiveLow}, {r.LiveHigh, want.LiveHigh}, {r.Marks, want.Marks}, {r.MarksLitres, want.MarksLitres}, {r.MarksLive, want.MarksLive},
				{r.MarksAway, want.MarksAway}, {r.Best, want.Best}, {r.BestLitres, want.BestLitres}, {r.BestLive, want.BestLive}, {r.BestAway, want.BestAway},
				{r.Straight, want.Straight}, {r.Warn, want.Warn},
			} {
				if !same(pair[0], pair[1]) {
					t.Errorf("%s %s at %s: figure %d is %v, by --set %v", c.rig, c.key, r.Shown, i, pair[0], pair[1])
				}
			}
		}
	}
}

// TestSweepMarksWhatIs: the file's value once, in its place in the order.
func TestSweepMarksWhatIs(t *testing.T) {
	o := &options{units: "metric"}
	for text, want := range map[string]int{"220:240:10": 1, "225:235:4": 2, "235:225:4": 2, "200:220:10": 3, "240:260:10": 0, "225,260": 1} {
		s, err := o.sweep("sender.arm", text, "demo", quarter)
		if err != nil {
			t.Fatal(err)
		}
		for i, r := range s.answer().Rows {
			if r.Current != (i == want) {
				t.Errorf("%s: row %d, %s: current %t", text, i, r.Shown, r.Current)
			}
		}
	}
}

// TestSweepPicturesAreReadable draws sweeps of several kinds in several units on a survey.
func TestSweepPicturesAreReadable(t *testing.T) {
	if testing.Short() {
		t.Skip("long")
	}
	t.Parallel()
	for _, c := range []struct{ rig, key, values string }{
		{"demo", "sender.arm", "150:330:45"}, {"demo", "sender.arm", "100,300,400"}, {"camper", "conditioner.pull_up", "50:500:150"}, {"launch", "conditioner.points", "2:8:1"},
		{"demo", "sender.pivot[2]", "6 in:9 in:1 in"}, {"demo", "tank.body[0].length", "300:800:100"}, {"camper", "mount.nose_up", "8:-8:4"}, {"genset", "gauge.empty", "1:3:1"}, {"workboat", "wiring.length", "1 m:5 m:1 m"},
	} {
		for _, units := range []string{"metric", "us"} {
			s, err := (&options{units: units}).sweep(c.key, c.values, c.rig, quarter)
			if err != nil {
				t.Fatal(err)
			}
			picture := plots.Sweep(s.swept())
			w, h := picture.Size()
			survey := ink.NewSurvey(w, h)
			picture.Paint(survey)
			name := c.rig + " " + c.key + " in " + units
			if texts, by := survey.Outside(); by > 0.01 {
				t.Errorf("%s: %q reach %.2f points beyond the canvas", name, texts, by)
			}
			for _, pair := range survey.Overlaps() {
				t.Errorf("%s: %q and %q overlap", name, pair[0], pair[1])
			}
			said := map[string]bool{}
			for _, text := range survey.Texts {
				said[text.String] = true
				if text.Size < 9 || w != 120*vg.Millimeter {
					t.Errorf("%s: %q is %.1f points tall", name, text.String, float64(text.Size))
				}
			}
			for _, want := range []string{"points at the marks", "best points", "live band", "now"} {
				if !said[want] && (want != "now" || s.now() != nil && isKnown(s.now().bare)) {
					t.Errorf("%s: it does not say %q", name, want)
				}
			}
		}
	}
}

// BenchmarkSweep weighs twenty values of the demo rig, the lamp included.
func BenchmarkSweep(b *testing.B) {
	o := &options{units: "metric"}
	for b.Loop() {
		if _, err := o.sweep("sender.arm", "201:220:1", "demo", quarter); err != nil {
			b.Fatal(err)
		}
	}
}
