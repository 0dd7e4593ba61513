package plots

import (
	"math"
	"testing"

	"gonum.org/v1/plot/vg"

	"floatarc/tanks/quantity"
)

func TestNiceSteps(t *testing.T) {
	for least, want := range map[float64]float64{0.9: 1, 1: 1, 1.2: 2, 2.1: 5, 7: 10, 0.034: 0.05, 130: 200} {
		if got, _ := niceStep(least); math.Abs(got-want) > 1e-12 {
			t.Errorf("at least %g: %g, expected %g", least, got, want)
		}
	}
	ticks := plain{}.Ticks(-0.3, 0.3)
	numbers := 0
	for _, k := range ticks {
		if k.Label != "" {
			numbers++
		}
		if k.Label == "−0.0" || k.Value < -0.3001 || k.Value > 0.3001 {
			t.Errorf("tick %+v", k)
		}
	}
	if numbers < 4 || numbers > mostTicks+1 {
		t.Errorf("%d numbers", numbers)
	}
}

func TestHull(t *testing.T) {
	points := []vg.Point{{X: 1, Y: 1}, {X: 0, Y: 0}, {X: 2, Y: 0}, {X: 2, Y: 2}, {X: 0, Y: 2}, {X: 1, Y: 0}}
	if got := hull(points); len(got) != 4 {
		t.Errorf("the hull of a square with points within has corners %v", got)
	}
}

// TestRanges: a needle on a mark once, along a stretch, twice, never.
func TestRanges(t *testing.T) {
	s := Subject{Units: quantity.Metric}
	litres := even(0, 100, 1000)
	shown := func(f func(float64) float64) []float64 {
		out := make([]float64, len(litres))
		for i, l := range litres {
			out[i] = f(l)
		}
		return out
	}
	for _, c := range []struct {
		f    func(l float64) float64
		at   float64
		want string
	}{
		{func(l float64) float64 { return l / 100 }, 0.503, "50.3"},
		{func(l float64) float64 { return math.Max(0.2, l/100) }, 0.2, "0.0–20.0"},
		{func(l float64) float64 { return math.Abs(l/50 - 1) }, 0.5, "25.0, 75.0"},
		{func(l float64) float64 { return l / 200 }, 0.75, "never"},
	} {
		if got := s.ranges(litres, shown(c.f), c.at); got != c.want {
			t.Errorf("%q, expected %q", got, c.want)
		}
	}
}
