package calibration_test

import (
	"fmt"
	"math"
	"testing"

	"pgregory.net/rapid"

	"floatarc/calibration"
	"floatarc/gauge"
	"floatarc/tanks"
)

func best(t fataler, r *calibration.Rig, neverOver float64, places int) (*calibration.Search, calibration.Best, *gauge.Lines) {
	t.Helper()
	s, err := r.Search(neverOver)
	if err != nil {
		t.Fatal(err)
	}
	b, err := s.Best(places)
	if err != nil {
		t.Fatal(err)
	}
	l, err := r.Conditioner.Lines(calibration.Pairs(b.Points))
	if err != nil {
		t.Fatal(err)
	}
	return s, b, l
}

type fataler interface {
	Helper()
	Fatal(...any)
}

// TestBestOnEveryRig holds what the search promises: the worst error between the
// samples is the least one at them, more points never make it larger, it is at
// least the floor and, where nothing is promised near empty, at most that of the
// points at the marks.
func TestBestOnEveryRig(t *testing.T) {
	rigs, _ := tanks.Names()
	for _, name := range rigs {
		r := load(t, name)
		all, _ := r.AtMarks()
		for _, neverOver := range []float64{0, 0.25} {
			before := math.Inf(1)
			for places := 2; places <= 8; places++ {
				s, b, l := best(t, r, neverOver, places)
				w := r.Curve(r.Level, l).Worst(l)
				if len(b.Points) > places {
					t.Fatalf("%s: %d points, asked for %d", name, len(b.Points), places)
				}
				if off := w.Percent - b.Least; off < -1e-6 || off > s.Between {
					t.Errorf("%s, %d points, never over %g: worst error %.9g %%, on the samples %.9g %%, between them %.2g %%", name, places, neverOver, w.Percent, b.Least, s.Between)
				}
				if b.Least > before+1e-8 || b.Least < s.Floor-1e-8 || b.Live > b.Least+1e-8 {
					t.Errorf("%s, %d points, never over %g: %.9g %% (live %.9g), with one less %.9g %%, floor %.9g %%", name, places, neverOver, b.Least, b.Live, before, s.Floor)
				}
				if off := w.AwayPercent - b.Live; off < -1e-6-s.Between || off > s.Between+1e-6 {
					t.Errorf("%s, %d points, never over %g: away from the stops %.9g %%, on the samples %.9g %%", name, places, neverOver, w.AwayPercent, b.Live)
				}
				before = b.Least
				if neverOver > 0 {
					// What is left is the truth between two samples.
					if over := s.Falling(r.Level).Over(l, neverOver); over > 1e-4 {
						t.Errorf("%s, %d points: shows %.2g %% too much near empty", name, places, over)
					}
					continue
				}
				marks := lines(t, r, r.Choose(all, places))
				if m := r.Curve(r.Level, marks).Worst(marks).Percent; b.Least > m+1e-6 {
					t.Errorf("%s, %d points: %.9g %%, at the marks %.9g %%", name, places, b.Least, m)
				}
			}
		}
	}
}

// TestBestOfAnyRig draws laws, limits, gauges and friction.
func TestBestOfAnyRig(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		set := []string{
			rapid.SampledFrom([]string{`conditioner={points=5}`, `conditioner={points=5, law="divider", pull_up=90}`, `conditioner={points=5, input_range=[40, 200]}`,
				`conditioner={points=5, law="divider", pull_up=150, supply=5, adc_bits=10, reference=2.5}`}).Draw(t, "conditioner"),
			rapid.SampledFrom([]string{`gauge.empty=2`, `gauge.needle=[[0,0],[0.6,0.4],[1,1]]`, `gauge.needle=[[240,0],[90,0.5],[33,1]]`}).Draw(t, "needle"),
			rapid.SampledFrom([]string{`sender.float.friction=0`, `sender.float.friction=3`}).Draw(t, "friction"),
			fmt.Sprintf("gauge.empty=%g", rapid.Float64Range(0, 8).Draw(t, "empty")),
			fmt.Sprintf("gauge.full=%g", rapid.Float64Range(0, 8).Draw(t, "full")),
		}
		f, err := tanks.Load(tanks.Demo, set)
		if err != nil {
			t.Skip(err)
		}
		r := join(f)
		neverOver := rapid.SampledFrom([]float64{0, 0.25, 0.6}).Draw(t, "never over")
		places := rapid.IntRange(2, 6).Draw(t, "places")
		s, b, l := best(t, r, neverOver, places)
		w := r.Curve(r.Level, l).Worst(l)
		if off := w.Percent - b.Least; off < -1e-6 || off > s.Between+1e-6 {
			t.Fatalf("worst error %.9g %%, on the samples %.9g %%, between them %.2g %%", w.Percent, b.Least, s.Between)
		}
		if neverOver > 0 {
			if over := s.Falling(r.Level).Over(l, neverOver); over > 1e-4 {
				t.Fatalf("shows %.2g %% too much near empty", over)
			}
		}
		for i, p := range b.Points {
			if p.Position < 0 || p.Position > 1 || p.InputOhms < 0 || i > 0 && (p.Travel < b.Points[i-1].Travel || p.Position <= b.Points[i-1].Position) {
				t.Fatalf("points %+v", b.Points)
			}
		}
	})
}

// TestFlat refuses a conditioner that sees nothing of the sender.
func TestFlat(t *testing.T) {
	r := load(t, tanks.Demo, "conditioner.input_range=[300, 400]")
	if _, err := r.Search(0); err != calibration.ErrFlat {
		t.Errorf("%v, expected %v", err, calibration.ErrFlat)
	}
}

// BenchmarkSearch samples the demo and places five points.
func BenchmarkSearch(b *testing.B) {
	r := load(b, tanks.Demo)
	for b.Loop() {
		best(b, r, 0.25, 5)
	}
}

// TestArmThatSticks has friction hold the arm near its low stop on falling fuel: the
// promise is judged where it moves, and the truth is still straight between samples.
func TestArmThatSticks(t *testing.T) {
	r := load(t, "buggy", "sender.float.shape=\"sphere\"", "sender.float.diameter=40", "sender.float.mass=12", "sender.float.friction=8", "gauge.empty=0")
	s, b, l := best(t, r, 0.25, 5)
	if s.Between > 0.01 {
		t.Errorf("the truth strays by %g %% between samples", s.Between)
	}
	if w := r.Curve(r.Level, l).Worst(l); math.Abs(w.Percent-b.Least) > s.Between {
		t.Errorf("worst error %g %%, on the samples %g %%", w.Percent, b.Least)
	}
	if over := s.Falling(r.Level).Over(l, 0.25); over > 1e-3 {
		t.Errorf("shows %g %% too much near empty", over)
	}
}

// TestFloorOfAShortNeedle: what the needle cannot show is no excess of the points.
func TestFloorOfAShortNeedle(t *testing.T) {
	r := load(t, tanks.Demo, append(append([]string{}, box...), "gauge.needle=[[0, 0.05], [1, 1]]")...)
	s, b, l := best(t, r, 0.25, 4)
	if w := r.Curve(r.Level, l).WorstPercent(l); w < b.Least-1e-6 || w < s.Floor-1e-6 {
		t.Errorf("worst error %g %%, but at least %g %%, floor %g %%", w, b.Least, s.Floor)
	}
}

// TestBestPointAtAStop is blind in spite of the rounding of its input, for every number
// of points that puts one there.
func TestBestPointAtAStop(t *testing.T) {
	rigs, _ := tanks.Names()
	found := 0
	for _, name := range rigs {
		r := load(t, name)
		told := r.Told(r.Level)
		for places := 2; places <= 8; places++ {
			_, b, _ := best(t, r, 0.25, places)
			for _, p := range b.Points {
				for _, end := range []calibration.End{calibration.LowEnd, calibration.HighEnd} {
					border := told.At(end)
					if !border.Blind || math.Abs(p.InputOhms-r.InputAt(border.Travel)) > 1e-6 {
						continue
					}
					if found++; !p.Blind || p.End != end {
						t.Errorf("%s, %d points: %+v lies at the end %+v", name, places, p, border)
					}
				}
			}
		}
	}
	if found == 0 {
		t.Error("no point lies at a stop")
	}
}
