package gauge

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// TestAWG checks wire resistances against the copper wire tables: ohm per
// 1000 ft at 20 degC to four digits (NBS Handbook 100 via secondary copies;
// AWG 10, 11, 15, 17 and 21 from memory).
func TestAWG(t *testing.T) {
	for gauge, want := range map[float64]float64{
		10: 0.9989, 11: 1.260, 12: 1.588, 13: 2.003, 14: 2.525, 15: 3.184, 16: 4.016, 17: 5.064,
		18: 6.385, 19: 8.051, 20: 10.15, 21: 12.80, 22: 16.14,
	} {
		area, err := AWG(gauge)
		if err != nil {
			t.Fatal(err)
		}
		got := Wire{Length: 304.8, Area: area, Temperature: 20}.Ohms()
		// Four printed digits, and 1/58 rounded to 0.017241.
		if math.Abs(got-want) > 5.2e-4*want {
			t.Errorf("AWG %g: %.5g ohm per 1000 ft, published %.4g", gauge, got, want)
		}
	}
}

// TestAWGDiameter checks the diameter that the GNU Units manual, sec. 6.3,
// prints for gauge 11, 0.090742002 in, and gauge 18.201919 for 1 mm.
func TestAWGDiameter(t *testing.T) {
	for gauge, inches := range map[float64]float64{11: 0.090742002, 18.201919: 1 / 25.4} {
		area, err := AWG(gauge)
		if err != nil {
			t.Fatal(err)
		}
		if got := 2 * math.Sqrt(area/math.Pi) / 25.4; math.Abs(got-inches) > 5e-9 {
			t.Errorf("AWG %g: %.10g in, published %.10g", gauge, got, inches)
		}
	}
}

// TestStrandedLimits holds plain copper below the greatest resistances that IEC
// 60228 allows for class 5 conductors (secondary copies): a stranded wire of a
// nominal size may have up to a sixth more than rho/A.
func TestStrandedLimits(t *testing.T) {
	for area, limit := range map[float64]float64{0.5: 39, 0.75: 26, 1: 19.5, 1.5: 13.3, 2.5: 7.98, 4: 4.95} {
		got := Wire{Length: 1000, Area: area, Temperature: 20}.Ohms()
		if got > limit || got < limit/1.17 {
			t.Errorf("%g mm²: %.4g ohm/km, limit %g", area, got, limit)
		}
	}
}

// TestCopperTemperature checks R/R20 (NBS Handbook 100, sec. 1.1b; from memory).
func TestCopperTemperature(t *testing.T) {
	for temperature, want := range map[float64]float64{-40: .7642, 0: .9214, 20: 1, 40: 1.0786, 60: 1.1572, 80: 1.2358, 105: 1.33405} {
		got := Wire{Length: 58, Area: 1, Temperature: temperature}.Ohms() / (58 * copper)
		if math.Abs(got-want) > 5e-5 {
			t.Errorf("%g degC: %.6g, published %g", temperature, got, want)
		}
	}
}

// TestDivider checks 5 V through 100 ohm, computed by hand.
func TestDivider(t *testing.T) {
	for ohms, volts := range map[float64]float64{10: 0.454545, 33: 1.240602, 90: 2.368421, 180: 3.214286, 240: 3.529412} {
		d := Divider{PullUp: 100}
		if got := 5 * d.X(ohms); math.Abs(got-volts) > 5e-7 {
			t.Errorf("%g ohm: %.7g V, expected %g", ohms, got, volts)
		}
		if got := d.Ohms(d.X(ohms)); math.Abs(got-ohms) > 1e-12*ohms {
			t.Errorf("%g ohm comes back as %g", ohms, got)
		}
	}
}

func TestLines(t *testing.T) {
	l, err := NewLines(Resistance{}, []Pair{{200, 0}, {100, 0.5}, {20, 1}})
	if err != nil {
		t.Fatal(err)
	}
	for input, want := range map[float64]float64{300: 0, 200: 0, 150: 0.25, 100: 0.5, 60: 0.75, 20: 1, 5: 1} {
		if got := l.Show(input); math.Abs(got-want) > 1e-15 {
			t.Errorf("%g ohm shows %g, expected %g", input, got, want)
		}
	}
	// In a divider the line is straight in volts: half way in ohms is not half
	// way on the dial.
	v, err := NewLines(Divider{PullUp: 100}, []Pair{{200, 0}, {50, 1}})
	if err != nil {
		t.Fatal(err)
	}
	if got, want := v.Show(100), (2./3-1./2)/(2./3-1./3); math.Abs(got-want) > 1e-14 {
		t.Errorf("100 ohm shows %g, expected %g", got, want)
	}
	if _, err := NewLines(Resistance{}, []Pair{{100, 0}, {100, 1}}); err == nil {
		t.Error("two pairs with one input were taken")
	}
}

func TestDial(t *testing.T) {
	d, err := NewDial([]Mark{{"E", 0, 0.1}, {"1/2", 0.5, 0.4}, {"F", 1, 0.9}}, 4, 44)
	if err != nil {
		t.Fatal(err)
	}
	for share, want := range map[float64]float64{-1: 0.1, 0: 0.1, 0.25: 0.25, 0.5: 0.4, 0.75: 0.65, 1: 0.9, 2: 0.9} {
		if got := d.Position(share); math.Abs(got-want) > 1e-15 {
			t.Errorf("share %g stands at %g, expected %g", share, got, want)
		}
	}
	rapid.Check(t, func(t *rapid.T) {
		s := rapid.Float64Range(0, 1).Draw(t, "share")
		if got := d.ShareAt(d.Position(s)); math.Abs(got-s) > 1e-12 {
			t.Fatalf("share %g comes back as %g", s, got)
		}
		if got := d.Share(d.Litres(s)); math.Abs(got-s) > 1e-12 {
			t.Fatalf("share %g comes back from litres as %g", s, got)
		}
	})
	if _, err := NewDial(FiveMarks(), 10, 9); err == nil {
		t.Error("a full mark below the empty mark was taken")
	}
}
