package calibration_test

import (
	"math"
	"testing"

	"floatarc/calibration"
	"floatarc/tanks"
)

// TestGlance holds the few samples of a glance against the exact ones: the litres at an
// input, the needle error at shares, and the worst of it.
func TestGlance(t *testing.T) {
	rigs, _ := tanks.Names()
	for _, name := range rigs {
		f, err := tanks.Load(name, nil)
		if err != nil {
			t.Fatal(err)
		}
		low, high := f.Sender.Free()
		r := &calibration.Rig{Tank: f.Tank.Tank, Sender: f.Sender.Sender(), Low: low, High: high, Level: f.Level, Wiring: f.Wiring, Dial: f.Gauge.Dial, Conditioner: f.Conditioner}
		points, _ := r.AtMarks()
		lines, err := r.Conditioner.Lines(calibration.Pairs(points))
		if err != nil {
			t.Fatal(err)
		}
		var inputs, shares []float64
		for _, p := range points {
			inputs = append(inputs, p.InputOhms)
		}
		for i := range 11 {
			shares = append(shares, float64(i)/10)
		}
		g, err := r.Glance(inputs, shares, lines)
		if err != nil {
			t.Fatal(err)
		}
		for i, p := range points {
			if !p.Blind && r.Contacts() == nil && math.Abs(g.Litres[i]-p.Litres) > 1e-6*r.Tank.Full {
				t.Errorf("%s: the input of %s stands for %.6f L, expected %.6f", name, p.Label, g.Litres[i], p.Litres)
			}
		}
		curve := r.Curve(r.Level, lines)
		slack := 0.1 // percent of the dial: straight lines between thirty samples
		if r.Contacts() != nil {
			slack = 4 // or a step of the contacts
		}
		for i, s := range shares {
			off, _ := curve.Off(lines, curve.At(r.Dial.Litres(s)))
			if math.Abs(g.Errors[0][i]-100*off) > slack {
				t.Errorf("%s: the needle is off by %.3f %% at a share of %g, expected %.3f", name, g.Errors[0][i], s, 100*off)
			}
		}
		if want := curve.WorstPercent(lines); g.Worst[0] < want-slack-0.1*want || g.Worst[0] > want+slack {
			t.Errorf("%s: worst %.3f %%, expected %.3f", name, g.Worst[0], want)
		}
	}
}
