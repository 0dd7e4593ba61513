package reserve

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"floatarc/geometry"
)

// TestAcceleratedEnvelope: every slope with every acceleration lies in the
// accelerated envelope, which the worst of them reach.
func TestAcceleratedEnvelope(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		angle, acceleration := rapid.Float64Range(0, 35), rapid.Float64Range(0, 0.6)
		e := Envelope{angle.Draw(t, "nose"), angle.Draw(t, "left")}
		along, across := acceleration.Draw(t, "along"), acceleration.Draw(t, "across")
		wide := e.Accelerated(along, across)
		unit := rapid.Float64Range(-1, 1)
		a := e.at(unit.Draw(t, "u"), unit.Draw(t, "v")).Accelerated(along*unit.Draw(t, "x"), across*unit.Draw(t, "y"))
		if math.Abs(a.NoseUp) > wide.NoseUp+1e-9 || math.Abs(a.LeftUp) > wide.LeftUp+1e-9 {
			t.Fatalf("%+v lies outside %+v", a, wide)
		}
		corner := e.at(1, 1).Accelerated(along, across)
		if math.Abs(corner.LeftUp-wide.LeftUp) > 1e-9 {
			t.Fatalf("the corner reaches %g° of %g°", corner.LeftUp, wide.LeftUp)
		}
		easing := math.Min(across, e.at(1, 1).Up().Y)
		if steep := e.at(1, 1).Accelerated(along, -easing); math.Abs(steep.NoseUp-wide.NoseUp) > 1e-9 {
			t.Fatalf("the steepest nose is %g°, envelope %g°", steep.NoseUp, wide.NoseUp)
		}
	})
	if got := (Envelope{NoseUp: 5, LeftUp: 3}).Accelerated(0, 0); got != (Envelope{NoseUp: 5, LeftUp: 3}) {
		t.Errorf("without acceleration: %+v", got)
	}
	// From level ground the angles are those of the accelerations (atan(A/g), by
	// another program); on a slope they do not add.
	if got := (Envelope{}).Accelerated(0.2, 0.3); math.Abs(got.NoseUp-11.30993) > 5e-6 || math.Abs(got.LeftUp-16.69924) > 5e-6 {
		t.Errorf("0.2 g and 0.3 g: %+v", got)
	}
}

// TestAttitudesOfAnEnvelope: the level, the corners and the middles of the edges are
// among the landmarks, once each.
func TestAttitudesOfAnEnvelope(t *testing.T) {
	got := Envelope{10, 4}.Landmarks()
	if len(got) != 9 || got[0] != (geometry.Attitude{}) {
		t.Errorf("%v", got)
	}
	for e, n := range map[Envelope]int{{}: 1, {NoseUp: 3}: 3, {LeftUp: 3}: 3} {
		if got := e.Landmarks(); len(got) != n || got[0] != (geometry.Attitude{}) {
			t.Errorf("%v: %v", e, got)
		}
	}
}
