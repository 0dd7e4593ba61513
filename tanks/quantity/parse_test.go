package quantity

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// TestParse reads measures as people write them. The factors are exact: inch
// 25.4 mm and pound 453.59237 g (international agreement, 1959), US gallon
// 231 in³ = 3.785411784 L (NIST Handbook 44, appendix C), imperial gallon
// 4.54609 L; grade to angle is atan(p/100).
func TestParse(t *testing.T) {
	for _, c := range []struct {
		dim  *Dimension
		text string
		want float64
	}{
		{Length, "620", 620}, {Length, "24.5 in", 622.3}, {Length, "24 3/8 in", 619.125}, {Length, "24-3/8in", 619.125},
		{Length, "3/8 in", 9.525}, {Length, "2 ft 3 1/4 in", 692.15}, {Length, `2' 3 1/4"`, 692.15}, {Length, `2'3"`, 685.8},
		{Length, "2ft3in", 685.8}, {Length, "24⅜ in", 619.125}, {Length, "½ in", 12.7}, {Length, "61 cm", 610},
		{Length, "4.2 m", 4200}, {Length, "-12 mm", -12}, {Length, "−12 mm", -12}, {Length, "6 FT", 1828.8}, {Length, "11in.", 279.4}, {Length, "1e3", 1000},
		{Length, "-2 ft 3 in", -685.8}, {Length, "24 3/8″", 619.125},
		{Volume, "18 US gal", 68.137412112}, {Volume, "15 imp gal", 68.19135}, {Volume, "58 l", 58}, {Volume, "231 in3", 3.785411784},
		{Angle, "15 %", 8.530765609948133}, {Angle, "18%", 10.203973721731}, {Angle, "3.5°", 3.5}, {Angle, "100 %", 45},
		{Resistance, "0.3 Ω", 0.3}, {Resistance, "0.3 Ω", 0.3}, {Resistance, "141ohm", 141}, {Resistance, "1.2 kΩ", 1200}, {Resistance, "20 mohm", 0.02},
		{Mass, "1.2 oz", 34.01942775}, {Mass, "1 lb", 453.59237}, {Temperature, "75 degF", 23.88888888888889}, {Temperature, "20 °C", 20},
		{Density, "745 kg/m3", 745}, {Density, "0.745 kg/L", 745}, {Density, "6 lb/US gal", 718.9585638}, {Torque, "0.6 N.mm", 0.6},
		{Area, "12 cm2", 1200}, {Area, "1.0 mm2", 1}, {WireGauge, "18 AWG", 18},
		{PerDistance, "14 L/100km", 14}, {PerDistance, "22 mpg(US)", 235.21458333333334 / 22}, {PerDistance, "10 km/L", 10},
		{PerTime, "9 L/h", 9}, {Distance, "60 km", 60}, {Distance, "40 mi", 64.37376}, {Duration, "45 min", 0.75}, {Duration, "2 h", 2},
		{Acceleration, "0.2 g", 0.2}, {Acceleration, "1.96133 m/s2", 0.2}, {Acceleration, "0.3", 0.3},
		{Share, "1/4", 0.25}, {Share, "25 %", 0.25}, {Share, "0.25", 0.25},
	} {
		got, err := c.dim.Parse(c.text)
		if err != nil {
			t.Errorf("%q: %v", c.text, err)
		} else if math.Abs(got.Value-c.want) > 1e-9*math.Max(1, math.Abs(c.want)) {
			t.Errorf("%q: %.12g, expected %.12g", c.text, got.Value, c.want)
		}
	}
}

func TestUncertainty(t *testing.T) {
	for _, c := range []struct {
		dim          *Dimension
		text         string
		value, sigma float64
	}{
		{Length, "210 ± 3 mm", 210, 3}, {Length, "210 +- 3 mm", 210, 3}, {Length, "21 +/- 0.3 cm", 210, 3}, {Length, "210 mm ± 3 mm", 210, 3},
		{Length, "210 ± 3", 210, 3}, {Length, "8 1/4 in ± 1/8 in", 209.55, 3.175}, {Length, "2 ft 3 in ± 1/4 in", 685.8, 6.35},
		{Temperature, "68 ± 9 degF", 20, 5}, {Volume, "20 L ± 0.2 L", 20, 0.2},
	} {
		got, err := c.dim.Parse(c.text)
		if err != nil {
			t.Errorf("%q: %v", c.text, err)
		} else if math.Abs(got.Value-c.value) > 1e-9 || math.Abs(got.Sigma-c.sigma) > 1e-9 {
			t.Errorf("%q: %g ± %g, expected %g ± %g", c.text, got.Value, got.Sigma, c.value, c.sigma)
		}
	}
}

func TestRefusals(t *testing.T) {
	for _, c := range []struct {
		dim        *Dimension
		text, says string
	}{
		{Length, "24,5 in", `write a decimal point: "24.5 in"`},
		{Length, "24 30 mm", "has two numbers"},
		{Length, "11 1/2", "is a fraction without a unit"}, {Length, "3/8", "is a fraction without a unit"},
		{Length, "24 mm 30 mm", "has two numbers"},
		{Length, "24.5 3/8 in", "has two numbers"},
		{Length, "2 in 3 ft", "has two numbers"},
		{Length, "24 kg", `the unit "kg" is that of a mass`},
		{Length, "24 furlong", `the unit "furlong" is not known here`},
		{Length, "", "empty"}, {Length, "mm", "does not start with a number"}, {Length, "± 3 mm", "has no number"},
		{Length, "3/0 in", "has the fraction 3/0"}, {Length, "NaN", "does not start with a number"}, {Length, "1e999", "out of range"},
		{Volume, "18 gal", `has two meanings; write "US gal" or "imp gal"`},
		{PerDistance, "22 mpg", `write "mpg(US)" or "mpg(imp)"`},
		{PerDistance, "0 mpg(US)", "is not a finite number"},
		{Resistance, "30 mm", `the unit "mm" is that of a length, expected a resistance such as 240`},
	} {
		if _, err := c.dim.Parse(c.text); err == nil || !strings.Contains(err.Error(), c.says) {
			t.Errorf("%q: %v, expected a word of %q", c.text, err, c.says)
		}
	}
}

func TestAny(t *testing.T) {
	for _, c := range []struct {
		text string
		want *Dimension
	}{{"60 km", Distance}, {"45 min", Duration}, {"5 L", Volume}, {"60", Distance}} {
		_, dim, err := ParseAny(c.text, Distance, Duration, Volume)
		if err != nil || dim != c.want {
			t.Errorf("%q: %v, %v", c.text, dim, err)
		}
	}
	if _, _, err := ParseAny("5 kg", Distance, Volume); err == nil || !strings.Contains(err.Error(), "a distance or a volume") {
		t.Errorf("5 kg: %v", err)
	}
}

// TestUnitsChangeNothing writes a length in every unit and reads it back.
func TestUnitsChangeNothing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		mm := rapid.Float64Range(0.1, 1e5).Draw(t, "mm")
		for _, sys := range []System{Metric, US, Imperial} {
			got, err := Length.Parse(sys.Length.Finer(12).Text(mm))
			if err != nil || math.Abs(got.Value-mm) > 1e-9*mm {
				t.Fatalf("%s: %v, %v, expected %v", sys.Name, got, err, mm)
			}
		}
	})
}

func FuzzParse(f *testing.F) {
	for _, s := range []string{"24 3/8 in", `2' 3 1/4"`, "210 ± 3 mm", "15 %", "0.3 Ω", "24,5 in", "18 US gal", "1e309", "--3", "½", "3 1/0 ft ±"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		for _, d := range append(all, Share) {
			q, err := d.Parse(s)
			if err != nil {
				if strings.ContainsAny(err.Error(), "\n") {
					t.Errorf("%q: an error of more than one line: %v", s, err)
				}
				continue
			}
			if math.IsNaN(q.Value) || math.IsInf(q.Value, 0) || !(q.Sigma >= 0) {
				t.Errorf("%q as %s: %v", s, d.Name, q)
			}
		}
	})
}
