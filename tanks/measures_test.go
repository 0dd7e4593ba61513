package tanks

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"floatarc/tanks/quantity"
)

// figuresOf tells what a variation comes to, for comparing.
func figuresOf(r *Rig) map[string]float64 {
	low, high := r.Sender.Free()
	out := map[string]float64{
		"capacity": r.Tank.Capacity, "full": r.Tank.Full, "unusable": r.Level.Contents.Unusable, "low": low, "high": high,
		"empty mark": r.Gauge.Dial.Empty, "full mark": r.Gauge.Dial.Full,
	}
	for i := range 9 {
		litres := r.Tank.Full * float64(i+1) / 10
		out[fmt.Sprintf("terminals at %d tenths", i+1)] = r.Wiring.Input(r.Level.Ohms(litres))
	}
	return out
}

// TestVaryIsOverriding holds a variation against reading the file anew with the same
// measures overridden. The swing is found to a hundred-thousandth of a degree.
func TestVaryIsOverriding(t *testing.T) {
	rigs, _ := Names()
	rapid.Check(t, func(t *rapid.T) {
		name := rapid.SampledFrom(rigs).Draw(t, "rig")
		rig, err := Load(name, nil)
		if err != nil {
			t.Fatal(err)
		}
		keys := []string{"sender.arm", "sender.pivot[2]", "sender.stop_high", "sender.resistance.low", "wiring.ground", "tank.scale", "tank.body[0].length", "fuel.density", "mount.nose_up"}
		var varied []Measure
		var overrides []string
		for _, key := range keys {
			m, ok := rig.Measure(key)
			m.Key = key
			switch {
			case key == "tank.scale" || key == "fuel.density":
				m.Dimension = map[string]*quantity.Dimension{"tank.scale": quantity.Share, "fuel.density": quantity.Density}[key]
				m.Value = map[string]float64{"tank.scale": 1, "fuel.density": 800}[key]
			case !ok, key == "tank.body[0].length" && len(rig.Tank.Bodies) > 1: // a gap beside it would be a wall
				continue
			}
			if !rapid.Bool().Draw(t, key) {
				continue
			}
			m.Value += rapid.Float64Range(-1, 1).Draw(t, key+" by") * math.Max(0.2, 0.01*math.Abs(m.Value)) / map[bool]float64{true: 10, false: 1}[key == "tank.scale"]
			if key == "wiring.ground" || key == "sender.resistance.low" { // below 0 only a variation may be
				m.Value = math.Max(m.Value, 0)
			}
			varied = append(varied, m)
			overrides = append(overrides, fmt.Sprintf("%s=%.17g", key, m.Value))
		}
		got, err := rig.Vary(varied)
		want, wantErr := Load(name, overrides)
		if wantErr != nil { // a stop beyond a table of ohms, which a variation lets pass
			return
		}
		if err != nil {
			t.Fatalf("varied: %v, but read anew it is fine", err)
		}
		for what, w := range figuresOf(want) {
			if g := figuresOf(got)[what]; math.Abs(g-w) > 2e-6*math.Abs(w)+1e-4 {
				t.Fatalf("%s with %v: %s is %.9g, read anew %.9g", name, overrides, what, g, w)
			}
		}
	})
}

// TestVaryKeepsContacts: how many contacts a stem has is no measure, though its length may
// be a whole number of pitches.
func TestVaryKeepsContacts(t *testing.T) {
	rig, err := Load(write(t, strings.Replace(sound, sound[strings.Index(sound, "[sender]"):strings.Index(sound, "[wiring]")],
		"[sender]\nkind = \"stem\"\nfoot = [300, 150, 30]\nhead = [300, 150, 220]\npitch = 10\n[sender.resistance]\nlow = 240\nhigh = 33\n", 1)), nil)
	if err != nil {
		t.Fatal(err)
	}
	foot, _ := rig.Measure("sender.foot[2]")
	for _, by := range []float64{-0.5, 0.5} {
		m := foot
		m.Value += by
		varied, err := rig.Vary([]Measure{m})
		if err != nil {
			t.Fatal(err)
		}
		if a, b := rig.Sender.Winding().Steps, varied.Sender.Winding().Steps; a != b {
			t.Errorf("foot moved by %g mm: %d steps, expected %d", by, b, a)
		}
	}
}

// BenchmarkVary varies what a fill log is fitted with.
func BenchmarkVary(b *testing.B) {
	for _, name := range []string{"demo", "workboat", "quad"} {
		rig, err := Load(name, nil)
		if err != nil {
			b.Fatal(err)
		}
		b.Run(name, func(b *testing.B) {
			m, _ := rig.Measure("sender.arm")
			m.Value += 0.3
			for b.Loop() {
				if _, err := rig.Vary([]Measure{m}); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
