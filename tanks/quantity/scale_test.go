package quantity

import (
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"
)

func TestOnScale(t *testing.T) {
	for _, c := range []struct {
		dim    *Dimension
		text   string
		number float64
		symbol string
	}{
		{Length, "8 1/2 in", 8.5, "in"}, {Length, `8 1/2"`, 8.5, "in"}, {Length, "2 ft 3 in", 27, "in"}, {Length, "210", 210, ""},
		{Angle, "15 %", 15, "%"}, {Share, "10 %", 10, "%"}, {Share, "0.1", 0.1, ""}, {PerDistance, "22 mpg(US)", 22, "mpg(US)"},
	} {
		number, scale, err := c.dim.OnScale(c.text)
		if err != nil || number != c.number || scale.Symbol != c.symbol {
			t.Errorf("%q: %g %q, %v, expected %g %q", c.text, number, scale.Symbol, err, c.number, c.symbol)
		}
	}
	for _, text := range []string{"210 ± 3 mm", "", "mm", "8 kg"} {
		if _, _, err := Length.OnScale(text); err == nil {
			t.Errorf("%q is taken", text)
		}
	}
}

// TestScalesTurnRound: every unit of every dimension comes back from the bare one.
func TestScalesTurnRound(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		dim := rapid.SampledFrom(append(slices.Clone(all), Wait, Share)).Draw(t, "dimension")
		u := rapid.SampledFrom(dim.units).Draw(t, "unit")
		v := rapid.Float64Range(0.1, 1000).Draw(t, "number")
		if back := u.from(u.to(v)); math.Abs(back-v) > 1e-9*v {
			t.Fatalf("%g %s comes back as %g", v, u.symbols[0], back)
		}
	})
}
