package geometry

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"
	"pgregory.net/rapid"
)

// TestSteadyAcceleration: the surface tilts by atan(A/g), forward acceleration as
// nose up, a left turn as left side up (values computed by another program); it is
// that of a road grade of 100 A/g percent.
func TestSteadyAcceleration(t *testing.T) {
	for a, want := range map[float64]float64{0.1: 5.710593, 0.2: 11.30993, 0.3: 16.69924, 0.5: 26.56505, 3 / Gravity: 17.00965} {
		if got := (Attitude{}).Accelerated(a, 0); math.Abs(got.NoseUp-want) > 5e-6 || got.LeftUp != 0 {
			t.Errorf("%g g forward: %+v, expected %g° nose up", a, got, want)
		}
		if got := (Attitude{}).Accelerated(0, a); math.Abs(got.LeftUp-want) > 5e-6 || got.NoseUp != 0 {
			t.Errorf("%g g to the left: %+v, expected %g° left up", a, got, want)
		}
	}
	// On a climb of 45° along the slope: n + A/g = (sin 45° + 1, 0, cos 45°).
	want := math.Atan((math.Sqrt2/2+1)/(math.Sqrt2/2)) * 180 / math.Pi
	if got := (Attitude{NoseUp: 45}).Accelerated(1, 0).NoseUp; math.Abs(got-want) > 1e-12 {
		t.Errorf("1 g up a climb of 45°: %g°, expected %g° and not the sum of the angles", got, want)
	}
}

// TestAttitudesComeBack: an attitude is told by its up vector, and acceleration
// and its opposite cancel as far as their vectors do.
func TestAttitudesComeBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		tilt := rapid.Float64Range(-80, 80)
		a := Attitude{NoseUp: tilt.Draw(t, "nose"), LeftUp: tilt.Draw(t, "left")}
		back := AttitudeOf(r3.Scale(rapid.Float64Range(0.1, 10).Draw(t, "length"), a.Up()))
		if math.Abs(back.NoseUp-a.NoseUp) > 1e-9 || math.Abs(back.LeftUp-a.LeftUp) > 1e-9 {
			t.Fatalf("%+v comes back as %+v", a, back)
		}
	})
}
