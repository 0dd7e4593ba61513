package gauge

import (
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"
)

// TestSeries checks the preferred numbers of IEC 60063 (secondary copies): E6 and
// E12 are every fourth and second of E24 but for rounding, E24's eight odd values
// are not the rounded powers, and E96 is the rounded powers without exception.
func TestSeries(t *testing.T) {
	for name, want := range map[string]struct {
		count int
		some  []float64
	}{
		"E6":  {6, []float64{10, 15, 22, 33, 47, 68}},
		"E12": {12, []float64{27, 39, 56, 82}},
		"E24": {24, []float64{27, 30, 33, 36, 39, 43, 47, 82, 51, 91}},
		"E96": {96, []float64{10, 10.2, 10.5, 11, 47.5, 95.3, 97.6, 18.7, 26.1, 38.3, 4990}},
	} {
		s, err := PreferredSeries(name)
		if err != nil {
			t.Fatal(err)
		}
		values := s.Values()
		if len(values) != 7*want.count || !slices.IsSorted(values) || values[0] != 1 {
			t.Errorf("%s: %d values from %g, sorted %t", name, len(values), values[0], slices.IsSorted(values))
		}
		for _, v := range want.some {
			if !slices.Contains(values, v) {
				t.Errorf("%s lacks %g", name, v)
			}
		}
	}
	e24, _ := PreferredSeries("E24")
	for i, v := range e24.decade {
		rounded := math.Round(10*math.Pow(10, float64(i)/24)) / 10
		odd := slices.Contains([]float64{2.7, 3, 3.3, 3.6, 3.9, 4.3, 4.7, 8.2}, v)
		if odd == (v == rounded) {
			t.Errorf("E24 value %g, rounded power %g", v, rounded)
		}
	}
	if _, err := PreferredSeries("E13"); err == nil {
		t.Error("E13 was taken")
	}
}

// TestPairsAgainstAllPairs compares with every pair of a stock, joined by the
// textbook formulas.
func TestPairsAgainstAllPairs(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		name := rapid.SampledFrom([]string{"E6", "E12", "E24", "E96", "drawer"}).Draw(t, "stock")
		var stock []float64
		if name == "drawer" {
			stock = rapid.SliceOfN(rapid.SampledFrom([]float64{10, 22, 22, 47, 68, 100, 220, 1000}), 1, 6).Draw(t, "parts")
			slices.Sort(stock)
		} else {
			s, _ := PreferredSeries(name)
			stock = s.Values()
		}
		target := math.Exp(rapid.Float64Range(-1, 12).Draw(t, "ln target"))
		got, ok := NearestPair(stock, target, name != "drawer")
		least := math.Inf(1)
		for i, a := range stock {
			for k, b := range stock {
				if i == k && name == "drawer" {
					continue
				}
				least = min(least, math.Abs(a+b-target), math.Abs(1/(1/a+1/b)-target))
			}
		}
		if !ok {
			if len(stock) > 1 {
				t.Fatalf("no pair of %v", stock)
			}
			return
		}
		if math.Abs(math.Abs(got.Ohms-target)-least) > 1e-9*(1+target) {
			t.Fatalf("%g ohm: %v makes %g, off by %g; the best of all pairs is off by %g", target, got.Parts, got.Ohms, math.Abs(got.Ohms-target), least)
		}
		one := Nearest(stock, target)
		for _, v := range stock {
			if math.Abs(v-target) < math.Abs(one.Ohms-target) {
				t.Fatalf("%g ohm: %g is nearer than %g", target, v, one.Ohms)
			}
		}
	})
}

// TestHottest splits a voltage over two parts by hand: 12 V over 10 + 20 ohm are
// 4 V and 8 V, over both side by side 12 V each.
func TestHottest(t *testing.T) {
	for join, want := range map[Join]float64{InSeries: 3.2, Parallel: 14.4} {
		s := Stand{Parts: []float64{10, 20}, Join: join, Ohms: map[Join]float64{InSeries: 30, Parallel: 20. / 3}[join]}
		if got := s.Hottest(12); math.Abs(got-want) > 1e-12 {
			t.Errorf("%s: %g W, expected %g", join, got, want)
		}
	}
}
