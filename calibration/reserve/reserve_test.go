package reserve

import (
	"testing"

	"floatarc/calibration"
	"floatarc/tanks"
)

func join(f *tanks.Rig) *calibration.Rig {
	low, high := f.Sender.Free()
	return &calibration.Rig{
		Tank: f.Tank.Tank, Sender: f.Sender.Sender(), Low: low, High: high, Level: f.Level,
		Wiring: f.Wiring, Dial: f.Gauge.Dial, Conditioner: f.Conditioner,
	}
}

// promise is that of a built-in rig, of 5 L.
func promise(t testing.TB, name string, set ...string) *Promise {
	t.Helper()
	f, err := tanks.Load(name, set)
	if err != nil {
		t.Fatal(err)
	}
	return &Promise{
		Rig: join(f), Tolerance: f.Sender.Tolerance, Winding: f.Sender.Winding(),
		Envelope: Envelope{f.Use.Grade, f.Use.SideSlope}, Reserve: 5,
	}
}
