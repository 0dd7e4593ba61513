package quantity

import (
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"
)

func TestLike(t *testing.T) {
	for _, c := range []struct {
		dim          *Dimension
		text         string
		value, sigma float64
		want         string
	}{
		{Length, "210 ± 3 mm", 214.23, 1.13, "214.23 ± 1.1 mm"},
		{Length, "210", 214.23, 1.13, "214.23 ± 1.1 mm"},
		{Length, "", 214.23, 0, "214.23 mm"},
		{Length, "8 1/4 in", 214.2, 1.1, "8.4331 ± 0.043 in"},
		{Length, "2 ft 3 in", 690, 2, "27.1654 ± 0.079 in"},
		{Length, `8 1/4"`, 214.2, 1.1, "8.4331 ± 0.043 in"},
		{Length, "21 ± 0.3 cm", 214.2, 1.1, "21.420 ± 0.11 cm"},
		{Resistance, "0.3 Ω", 1.1, 0.2, "1.100 ± 0.20 Ω"},
		{Resistance, "240", 238.7, 12, "238.7 ± 12 ohm"},
		{Angle, "-48", -47.91, 0.31, "-47.910 ± 0.31 deg"},
		{Angle, "15 %", 8.5, 0.3, "8.500 ± 0.30 deg"},
		{Share, "1", 1.0123, 0.0041, "1.01230 ± 0.0041"},
		{Volume, "12 US gal", 46, 2, "12.152 ± 0.53 US gal"},
		{Volume, "1000 L", 12345, 230, "12345 ± 230 L"},
		{Length, "210", 1, 9.97, "1.0 ± 10 mm"},
		{Length, "210", 1, 0.0997, "1.000 ± 0.10 mm"},
		{Length, "2 m", 214213, 1000, "214.21 ± 1.0 m"},
		{Temperature, "75 degF", 20, 2, "20.00 ± 2.0 degC"},
	} {
		if got := c.dim.Like(c.text, c.value, c.sigma); got != c.want {
			t.Errorf("%q: %q, expected %q", c.text, got, c.want)
		}
	}
}

// TestLikeComesBack: what is written parses to the value, to a fiftieth of its uncertainty,
// and to the uncertainty, to a twentieth.
func TestLikeComesBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		dim := rapid.SampledFrom(append(slices.Clone(all), Wait, Share)).Draw(t, "dimension")
		u := rapid.SampledFrom(dim.units).Draw(t, "unit")
		symbol := rapid.SampledFrom(u.symbols).Draw(t, "symbol")
		sigma := math.Pow(10, rapid.Float64Range(-4, 3).Draw(t, "magnitude"))
		value := rapid.Float64Range(-1000, 1000).Draw(t, "value") * sigma
		text := dim.Like("12 "+symbol, value, sigma)
		q, err := dim.Parse(text)
		if err != nil {
			t.Fatal(err)
		}
		if math.Abs(q.Value-value) > sigma/20 || math.Abs(q.Sigma/sigma-1) > 0.051 {
			t.Fatalf("%g ± %g like 12 %s: %q, which is %g ± %g", value, sigma, symbol, text, q.Value, q.Sigma)
		}
	})
}
