package geometry

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// TestCrossing: where halving finds it, of functions straight and bent, steep and
// flat, and with a kink, in a fifth of the steps.
func TestCrossing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		at := rapid.Float64Range(-80, 80).Draw(t, "at")
		from, to := at-rapid.Float64Range(0, 90).Draw(t, "below"), at+rapid.Float64Range(0.001, 90).Draw(t, "above")
		shapes := []func(x float64) float64{
			func(x float64) float64 { return x - at },
			func(x float64) float64 { return math.Sin(x*math.Pi/360) - math.Sin(at*math.Pi/360) },
			func(x float64) float64 { return math.Exp(x/10) - math.Exp(at/10) },
			func(x float64) float64 { return (x - at) * (1 + (x-at)*(x-at)) },
			func(x float64) float64 { return math.Max(x-at, 30*(x-at)) },
		}
		steps := 0
		kind := rapid.IntRange(0, len(shapes)-1).Draw(t, "shape")
		shape := shapes[kind]
		got := Crossing(func(x float64) float64 { steps++; return shape(x) }, from, to)
		if math.Abs(got-at) > 1e-12*math.Max(1, math.Abs(at)) {
			t.Fatalf("%.17g, expected %.17g", got, at)
		}
		if steps > 25 && kind < 4 { // a kink at the very place takes more
			t.Fatalf("%d steps", steps)
		}
	})
	for at, want := range map[float64]float64{-5: 0, 15: 10, 0: 0} {
		if got := Crossing(func(x float64) float64 { return x - at }, 0, 10); got != want {
			t.Errorf("a crossing at %g, beyond 0 to 10: %g, expected %g", at, got, want)
		}
	}
	nowhere := func(x float64) float64 { // but for the far end
		if x > 3 {
			return math.NaN()
		}
		return -1
	}
	if got := Crossing(nowhere, 0, 10); math.Abs(got-3) > 1e-12 {
		t.Errorf("%g, expected the last place below, 3", got)
	}
}
