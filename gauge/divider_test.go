package gauge

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/optimize"
	"pgregory.net/rapid"
)

// TestBestPullUp checks the geometric mean and its span in closed form, (√max -
// √min)/(√max + √min), computed with 30 digits, and against gonum's optimiser.
func TestBestPullUp(t *testing.T) {
	for _, c := range []struct{ least, most, pullUp, span float64 }{
		{33, 240, 88.9943818451, 0.4589914798}, {10, 180, 42.4264068712, 0.6185128603},
	} {
		p := BestPullUp(c.least, c.most)
		if span := (Divider{p}).Span(c.least, c.most); math.Abs(p-c.pullUp) > 5e-8 || math.Abs(span-c.span) > 5e-11 {
			t.Errorf("%g to %g ohm: %.9g ohm spans %.10g", c.least, c.most, p, span)
		}
		found, err := optimize.Minimize(optimize.Problem{Func: func(x []float64) float64 {
			return -Divider{math.Exp(x[0])}.Span(c.least, c.most)
		}}, []float64{3}, nil, &optimize.NelderMead{})
		if err != nil || math.Abs(math.Exp(found.X[0])-p) > 0.05 {
			t.Errorf("%g to %g ohm: the optimiser finds %g, %v", c.least, c.most, math.Exp(found.X[0]), err)
		}
	}
}

// TestPower checks 5 V behind 100 ohm by Ohm's law: over 100 ohm 25 mA and 62.5 mW,
// the most that any resistance takes (maximum power transfer).
func TestPower(t *testing.T) {
	d := Divider{100}
	if d.Amperes(5, 100) != 0.025 || math.Abs(d.Watts(5, 100)-0.0625) > 1e-15 {
		t.Errorf("%g A, %g W", d.Amperes(5, 100), d.Watts(5, 100))
	}
	for ends, want := range map[[2]float64]float64{{10, 180}: 0.0625, {120, 240}: d.Watts(5, 120), {5, 40}: d.Watts(5, 40)} {
		if got := d.MostWatts(5, ends[0], ends[1]); math.Abs(got-want) > 1e-15 {
			t.Errorf("%v ohm: at most %g W, expected %g", ends, got, want)
		}
	}
}

// TestConverter counts by hand: 10 bits of 5 V, 2.5 V are half of 1024 steps.
func TestConverter(t *testing.T) {
	c := Converter{Bits: 10, Full: 1}
	for share, want := range map[float64]int{0: 0, 0.5: 512, 0.49999: 511, 1: 1023, 2: 1023} {
		if got := c.Count(share); got != want {
			t.Errorf("%g of the supply: count %d, expected %d", share, got, want)
		}
	}
	// 3.3 V behind 5 V and 220 ohm: full at R/(R+220) = 0.66, R = 427.06 ohm.
	full := Converter{Bits: 12, Full: 0.66}
	if got := full.Limit(Divider{220}); math.Abs(got-220*0.66/0.34) > 1e-9 {
		t.Errorf("full at %g ohm", got)
	}
	rapid.Check(t, func(t *rapid.T) {
		c := Converter{Bits: rapid.IntRange(4, 16).Draw(t, "bits"), Full: rapid.Float64Range(0.1, 1).Draw(t, "full")}
		n := rapid.IntRange(0, int(c.Steps())-1).Draw(t, "count")
		if got := c.Count(c.Share(n)); got != n {
			t.Fatalf("count %d comes back as %d", n, got)
		}
	})
}

func TestNeedle(t *testing.T) {
	for _, pairs := range [][][2]float64{{{0, 0}, {4, 0.5}, {10, 1}}, {{240, 0}, {103, 0.5}, {33, 1}}} {
		n, err := NewNeedle(pairs)
		if err != nil {
			t.Fatal(err)
		}
		for _, p := range pairs {
			if n.Position(p[0]) != p[1] || n.Drive(p[1]) != p[0] {
				t.Errorf("%v: %g, %g", p, n.Position(p[0]), n.Drive(p[1]))
			}
		}
		if n.Rises() != (pairs[1][0] > pairs[0][0]) {
			t.Errorf("%v rises: %t", pairs, n.Rises())
		}
	}
	// The lines run straight in the drive: half way from drive 0 to 10 is 5, where
	// the needle stands at 0.5 + 1/6 · 0.5.
	n, _ := NewNeedle([][2]float64{{0, 0}, {4, 0.5}, {10, 1}})
	c := Conditioner{Law: Resistance{}, Needle: n}
	l, err := c.Lines([]Pair{{200, 0}, {100, 1}})
	if err != nil {
		t.Fatal(err)
	}
	if got := l.Show(150); math.Abs(got-(0.5+0.5/6)) > 1e-15 {
		t.Errorf("half way the needle stands at %g", got)
	}
	var none *Needle
	if none.Position(0.3) != 0.3 || none.Drive(0.3) != 0.3 || !none.Rises() || none.Bends() != nil {
		t.Error("no needle is not linear")
	}
}

// TestLimited holds what lies beyond a conditioner's inputs at the limit.
func TestLimited(t *testing.T) {
	law := Limited{Law: Resistance{}, Least: 20, Most: 150}
	l, err := NewLines(law, []Pair{{140, 0}, {30, 1}})
	if err != nil {
		t.Fatal(err)
	}
	if l.Show(145) != 0 || l.Show(500) != 0 || l.Show(85) != 0.5 || law.X(5) != 20 || law.X(500) != 150 {
		t.Errorf("%g, %g, %g", l.Show(145), l.Show(500), l.Show(85))
	}
	if _, err := NewLines(law, []Pair{{160, 0}, {170, 1}}); err == nil {
		t.Error("two pairs beyond the limit were taken")
	}
}

func TestInstall(t *testing.T) {
	for _, c := range []struct {
		name          string
		found         []Found
		offset, scale float64
		doubt         Doubt
	}{
		{"one reading", []Found{{33, 34.1}}, 1.1, 1, NoDoubt},
		{"a wire and a joint", []Found{{33, 34.1}, {240, 241.1}}, 1.1, 1, NoDoubt},
		{"three of them", []Found{{33, 34.1}, {120, 121.1}, {240, 241.1}}, 1.1, 1, NoDoubt},
		{"a bad earth", []Found{{33, 38}, {240, 260}}, 33 - 33*222./207 + 5, 222. / 207, Grows},
		{"a second gauge", []Found{{33, 30}, {240, 180}}, 30 - 33*150./207, 150. / 207, Shrinks},
		{"leads subtracted twice", []Found{{33, 31}, {240, 238}}, -2, 1, Less},
	} {
		in, err := Install(c.found)
		if err != nil {
			t.Fatal(err)
		}
		if math.Abs(in.Offset-c.offset) > 1e-9 || math.Abs(in.Scale-c.scale) > 1e-12 || in.Doubt() != c.doubt {
			t.Errorf("%s: %g + %g · sender, doubt %q; expected %g + %g, %q", c.name, in.Offset, in.Scale, in.Doubt(), c.offset, c.scale, c.doubt)
		}
		if w := (Wiring{Installed: in}); math.Abs(w.Sender(w.Input(77))-77) > 1e-12 {
			t.Errorf("%s: 77 ohm comes back as %g", c.name, w.Sender(w.Input(77)))
		}
	}
	if in, err := Install([]Found{{33, 34}, {120, 140}, {240, 241}}); err != nil || in.Doubt() != Scatters {
		t.Errorf("a scatter of 19 ohm: %v, %v", in, err)
	}
	for _, bad := range [][]Found{nil, {{33, 34}, {33, 35}}, {{33, 240}, {240, 34}}} {
		if _, err := Install(bad); err == nil {
			t.Errorf("%v was taken", bad)
		}
	}
}
