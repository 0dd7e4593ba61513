package reserve

import (
	"math"
	"testing"

	"floatarc/calibration"
	"floatarc/tanks"
)

// TestMargin: the lamp that the solver chose leaves what is promised and next to nothing
// more, in the rig of the promise, and in a rig that is the same but cut anew; a draw point
// that lies higher takes from it what lies between.
func TestMargin(t *testing.T) {
	p := promise(t, tanks.Demo)
	w, err := p.Solve()
	if err != nil {
		t.Fatal(err)
	}
	m, err := p.Margin(w.Chosen.On, w.Latest.Attitude, w.Unusable.Attitude)
	if err != nil {
		t.Fatal(err)
	}
	again := promise(t, tanks.Demo).Rig
	for what, rig := range map[string]*calibration.Rig{"the same rig": p.Rig, "a rig cut anew": again} {
		s, err := m.Of(rig)
		if err != nil {
			t.Fatal(err)
		}
		if math.Abs(s.More) > 1e-3*p.Rig.Tank.Full || math.Abs(s.Lights-p.LightsAt(w.Chosen.On)) > 1e-9 || math.Abs(s.On-w.Chosen.On) > 0.02 {
			t.Errorf("%s: %+v, expected nothing more than promised, %.4f L and %.2f ohm", what, s, p.LightsAt(w.Chosen.On), w.Chosen.On)
		}
	}
	higher := promise(t, tanks.Demo, "tank.pickup.at=[320,170,12]").Rig
	s, err := m.Of(higher)
	if err != nil {
		t.Fatal(err)
	}
	at, err := higher.Tank.At(w.Unusable.Attitude)
	if err != nil {
		t.Fatal(err)
	}
	if want := w.Unusable.Litres - at.Unusable; math.Abs(s.More-want) > 1e-3*p.Rig.Tank.Full {
		t.Errorf("a pickup 3 mm higher leaves %.4f L more, expected %.4f", s.More, want)
	}
	// A lamp at the input that it needs keeps the promise in it, and just so.
	if m, err = p.Margin(s.On, w.Latest.Attitude, w.Unusable.Attitude); err != nil {
		t.Fatal(err)
	}
	if s, err = m.Of(higher); err != nil || math.Abs(s.More) > 1e-6*p.Rig.Tank.Full {
		t.Errorf("%+v, %v, expected just what is promised", s, err)
	}
}
