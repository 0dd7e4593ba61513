package tanks

import "testing"

// TestLibraryLoads reads every built-in rig and tank.
func TestLibraryLoads(t *testing.T) {
	rigs, tanks := Names()
	if len(rigs) < 10 || len(tanks) < 9 {
		t.Fatalf("rigs %v, tanks %v", rigs, tanks)
	}
	for _, name := range rigs {
		rig, err := Load(name, nil)
		if err != nil {
			t.Error(err)
			continue
		}
		lo, hi := rig.Level.Live()
		t.Logf("%s: capacity %.2f L, full %.2f, unusable %.2f, live %.2f to %.2f, swing %+v, dial %.2f to %.2f", name, rig.Tank.Capacity, rig.Tank.Full,
			rig.Level.Contents.Unusable, lo, hi, rig.Sender.Swing, rig.Gauge.Dial.Empty, rig.Gauge.Dial.Full)
	}
	for _, name := range append(rigs, tanks...) {
		if _, err := LoadTank(name, nil); err != nil {
			t.Error(err)
		}
	}
}
