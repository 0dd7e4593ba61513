package main

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"floatarc/tanks"
	"floatarc/tanks/quantity"
)

var sweptLength = &tanks.Figure{Key: "sender.arm", Dimension: quantity.Length}

// TestRanges: ends, units and counts of ranges as people write them.
func TestRanges(t *testing.T) {
	for _, c := range []struct {
		dim        *quantity.Dimension
		text       string
		count      int
		first, end float64 // bare
		symbol     string
	}{
		{quantity.Length, "200:260:10", 7, 200, 260, "mm"}, {quantity.Length, "260:200:10", 7, 260, 200, "mm"}, {quantity.Length, "260:200:-10", 7, 260, 200, "mm"},
		{quantity.Length, "8 in:12 in:1/2 in", 9, 203.2, 304.8, "in"}, {quantity.Length, "2 ft 3 in:3 ft:1 in", 10, 685.8, 914.4, "in"},
		{quantity.Length, "200:260:25", 3, 200, 250, "mm"}, {quantity.Length, "0:1:0.1", 11, 0, 1, "mm"},
		{quantity.Angle, "10 %:30 %:5 %", 5, math.Atan(0.1) * 180 / math.Pi, math.Atan(0.3) * 180 / math.Pi, "%"},
		{quantity.Length, "200,230,210", 3, 200, 210, "mm"}, {nil, "2:8:1", 7, 2, 8, ""}, {quantity.Share, "0:30 %:10 %", 4, 0, 0.3, "%"},
	} {
		settings, read, err := rangeOf(c.text, &tanks.Figure{Key: "key", Dimension: c.dim}, quantity.Metric)
		if err != nil {
			t.Errorf("%q: %v", c.text, err)
			continue
		}
		first, end := settings[0].bare, settings[len(settings)-1].bare
		if len(settings) != c.count || math.Abs(first-c.first) > 1e-9 || math.Abs(end-c.end) > 1e-9 || read.symbol != c.symbol {
			t.Errorf("%q: %d values from %g to %g in %q", c.text, len(settings), first, end, read.symbol)
		}
	}
}

func TestRangeRefusals(t *testing.T) {
	for text, says := range map[string]string{
		"200": "expected FROM:TO:STEP", "200:260": "expected FROM:TO:STEP", "1:2:3:4": "expected FROM:TO:STEP", "": "expected FROM:TO:STEP",
		"200:260:0": "a step of 0", "200:200:1": "expected two that differ", "8:12:1/2 in": "the step is more than the way", "1:1000:1": "1000 values",
		"a:2:1": "does not start with a number", "200 ± 3:210:1": "has an uncertainty", "24,5 in": "a decimal comma?", "8,5:9:1": "write a decimal point",
		"2,2": "no progress", "1:2:1e-300": "expected at most 500", "1 kg:2 kg:1 kg": "is that of a mass",
	} {
		if _, _, err := rangeOf(text, sweptLength, quantity.Metric); err == nil || !strings.Contains(err.Error(), says) {
			t.Errorf("%q: %v, expected a word of %q", text, err, says)
		}
	}
	if _, _, err := rangeOf("10:30:5 %", &tanks.Figure{Key: "use.grade", Dimension: quantity.Angle}, quantity.Metric); err == nil {
		t.Error("a grade is stepped in degrees")
	}
}

// TestRangeProperties: a range of whole steps has both ends and as many values as steps and
// one, in order, evenly, in any unit.
func TestRangeProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		from := float64(rapid.IntRange(-2000, 2000).Draw(t, "from")) / 8
		step := float64(rapid.IntRange(1, 400).Draw(t, "step")) / 10
		n := rapid.IntRange(1, mostSettings-1).Draw(t, "steps")
		down := rapid.Bool().Draw(t, "down")
		unit := rapid.SampledFrom([]string{"", " mm", " in", " cm"}).Draw(t, "unit")
		to := tidied(from + float64(n)*step)
		if down {
			from, to = to, from
		}
		text := fmt.Sprintf("%v%s:%v%s:%v%s", from, unit, to, unit, step, unit)
		settings, _, err := rangeOf(text, sweptLength, quantity.Metric)
		if err != nil {
			t.Fatalf("%q: %v", text, err)
		}
		if len(settings) != n+1 {
			t.Fatalf("%q: %d values, expected %d", text, len(settings), n+1)
		}
		for i, want := range map[int]float64{0: from, n: to} {
			if q, _ := quantity.Length.Parse(fmt.Sprint(want) + unit); settings[i].bare != q.Value {
				t.Fatalf("%q: value %d is %v, expected %v", text, i, settings[i].bare, q.Value)
			}
		}
		for i := 1; i <= n; i++ {
			if (settings[i].bare < settings[i-1].bare) != down {
				t.Fatalf("%q: %v follows %v", text, settings[i], settings[i-1])
			}
		}
	})
}

// FuzzRange: any text becomes finite values that differ, no more than allowed, or an error of
// one line about the usage.
func FuzzRange(f *testing.F) {
	for _, s := range []string{"200:260:10", "8 in:12 in:1/2 in", "10 %:30 %:5 %", "1,2,3", "2:8:1", "::", "1e308:-1e308:1e307", "0:1:1e-320", "1:2:\n1", "-0:0:1", "K:0:1", "9 mpg(US):0 mpg(US):1 mpg(US)"} {
		f.Add(s)
	}
	dims := []*quantity.Dimension{nil, quantity.Length, quantity.Angle, quantity.Share, quantity.Temperature, quantity.PerDistance}
	f.Fuzz(func(t *testing.T, text string) {
		for _, dim := range dims {
			settings, _, err := rangeOf(text, &tanks.Figure{Key: "key", Dimension: dim}, quantity.US)
			if err != nil {
				if strings.ContainsAny(err.Error(), "\r\n") {
					t.Fatalf("%q: %q", text, err)
				}
				continue
			}
			seen := map[float64]bool{}
			for _, s := range settings {
				if seen[s.bare] || math.IsNaN(s.bare) || math.IsInf(s.bare, 0) {
					t.Fatalf("%q: %v", text, settings)
				}
				seen[s.bare] = true
			}
			if len(settings) < 2 || len(settings) > mostSettings {
				t.Fatalf("%q: %d values", text, len(settings))
			}
		}
	})
}
