package fit_test

import (
	"testing"

	"floatarc/calibration"
	"floatarc/tanks"
)

// family returns the rigs that a file describes, with what is doubted of it.
func family(t testing.TB, name string, overrides ...string) (*tanks.Rig, *calibration.Family) {
	t.Helper()
	file, err := tanks.Load(name, overrides)
	if err != nil {
		t.Fatal(err)
	}
	doubts := file.Doubts()
	f := &calibration.Family{Rig: func(values []float64) (*calibration.Rig, error) {
		varied := append([]tanks.Measure{}, doubts...)
		for i := range varied {
			varied[i].Value = values[i]
		}
		r, err := file.Vary(varied)
		if err != nil {
			return nil, err
		}
		low, high := r.Sender.Free()
		return &calibration.Rig{Tank: r.Tank.Tank, Sender: r.Sender.Sender(), Low: low, High: high, Level: r.Level, Wiring: r.Wiring, Dial: r.Gauge.Dial, Conditioner: r.Conditioner}, nil
	}}
	for _, m := range doubts {
		f.Measures = append(f.Measures, calibration.Measure{Name: m.Key, Unit: m.Dimension.Bare, Value: m.Value, Sigma: m.Sigma, Usual: m.Usual})
	}
	return file, f
}
