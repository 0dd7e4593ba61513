package gauge

import (
	"math"
	"strings"
	"testing"
)

// dials returns a dial of five even marks; one whose positions are not the shares, as
// of a needle that lies at the low end; and one of a few odd labels.
func dials(tb testing.TB) (even, bent, odd *Dial) {
	tb.Helper()
	var out []*Dial
	for _, marks := range [][]Mark{
		FiveMarks(),
		{{"E", 0, 0.05}, {"¼", 0.25, 0.2}, {"1/2", 0.5, 0.4}, {"F", 1, 0.95}},
		{{"R", 0.1, 0}, {"just over 1/2", 0.5, 0.45}, {"0.8", 0.8, 0.9}, {"hot and high", 0.9, 1}},
	} {
		d, err := NewDial(marks, 5, 60)
		if err != nil {
			tb.Fatal(err)
		}
		out = append(out, d)
	}
	return out[0], out[1], out[2]
}

// TestSeen reads what people write; the positions are those of the marks, by hand.
func TestSeen(t *testing.T) {
	even, bent, odd := dials(t)
	for _, c := range []struct {
		dial             *Dial
		text             string
		position, within float64
	}{
		{even, "1/4", 0.25, 0.02}, {even, " E ", 0, 0.02}, {even, "e", 0, 0.02}, {even, "f", 1, 0.02}, {even, "½", 0.5, 0.02}, {even, "3 / 4", 0.75, 0.02},
		{even, "Empty", 0, 0.02}, {even, "FULL", 1, 0.02}, {even, "half", 0.5, 0.02}, {even, "a quarter", 0.25, 0.02}, {even, "three quarters", 0.75, 0.02},
		{even, "40 %", 0.4, 0.02}, {even, "40%", 0.4, 0.02}, {even, "40 percent", 0.4, 0.02}, {even, "0.4", 0.4, 0.02}, {even, ".4", 0.4, 0.02}, {even, "0", 0, 0.02}, {even, "1", 1, 0.02}, {even, "100 %", 1, 0.02},
		{even, "3/8", 0.375, 0.02}, {even, "⅜", 0.375, 0.02}, {even, "4/8", 0.5, 0.02},
		{even, "on full", 1, 0.02}, {even, "at 1/2", 0.5, 0.02}, {even, "about 3/8", 0.375, 0.04}, {even, "at about half", 0.5, 0.04},
		{even, "just over 1/2", 0.53, 0.03}, {even, "Just  above ½", 0.53, 0.03}, {even, "a bit under 3/4", 0.72, 0.03}, {even, "slightly below F", 0.97, 0.03}, {even, "a little over 30 %", 0.33, 0.03},
		{even, "at just under 0.5", 0.47, 0.03}, {even, "about just under 0.5", 0.47, 0.04},
		{even, "over 1/2", 0.56, 0.06}, {even, "above a quarter", 0.31, 0.06}, {even, "under 1/2", 0.44, 0.06}, {even, "below E", 0, 0.06}, {even, "just over full", 1, 0.03}, {even, "a hair under 1/2", 0.47, 0.03}, {even, "nearly F", 0.97, 0.03}, {even, "past E", 0.06, 0.06}, {even, "1/2 tank", 0.5, 0.02},
		{even, "between 1/4 and 1/2", 0.375, 0.125}, {even, "between half and a quarter", 0.375, 0.125}, {even, "between E and 10 %", 0.05, 0.05}, {even, "about between 0.50 and 0.52", 0.51, 0.04},

		{bent, "E", 0.05, 0.02}, {bent, "1/4", 0.2, 0.02}, {bent, "¼", 0.2, 0.02}, {bent, "quarter", 0.2, 0.02}, {bent, "half", 0.4, 0.02},
		{bent, "0.25", 0.25, 0.02}, {bent, "25 %", 0.25, 0.02}, {bent, "2/4", 0.4, 0.02}, {bent, "3/8", 0.3, 0.02}, {bent, "3/4", 0.675, 0.02}, {bent, "0/8", 0.05, 0.02}, {bent, "8/8", 0.95, 0.02},
		{bent, "just over 3/4", 0.705, 0.03}, {bent, "under empty", 0, 0.06}, {bent, "between E and 1/2", 0.225, 0.175}, {bent, "between 3/8 and F", 0.625, 0.325},

		{odd, "r", 0, 0.02}, {odd, "just over 1/2", 0.45, 0.02}, {odd, "just over just over 1/2", 0.48, 0.03}, {odd, "0.8", 0.9, 0.02}, {odd, "80 %", 0.8, 0.02}, {odd, "half", 0.45, 0.02},
		{odd, "between R and hot and high", 0.5, 0.5}, {odd, "between hot and high and 0.8", 0.95, 0.05},
	} {
		position, within, err := c.dial.Seen(c.text)
		if err != nil {
			t.Errorf("%q: %v", c.text, err)
		} else if math.Abs(position-c.position) > 1e-12 || math.Abs(within-c.within) > 1e-12 {
			t.Errorf("%q: %.6g ± %.6g, expected %g ± %g", c.text, position, within, c.position, c.within)
		}
	}
}

func TestUnseen(t *testing.T) {
	even, bent, odd := dials(t)
	const expected = `a percentage of the dial such as "40 %", "just over" or "just under" one, or "between" one "and" another`
	for _, c := range []struct {
		dial *Dial
		text string
		says string
	}{
		{even, "somewhere\nlow", `needle "somewhere low", expected a mark (E, 1/4, 1/2, 3/4, F), ` + expected},
		{bent, "three quarters", `needle "three quarters", expected a mark (E, ¼, 1/2, F), ` + expected},
		{odd, "empty", `needle "empty", expected a mark (R, just over 1/2, 0.8, hot and high), ` + expected},
		{even, strings.Repeat("very ", 20) + "low", `needle "` + strings.Repeat("very ", 8) + `…", expected a mark (E, 1/4, 1/2, 3/4, F), ` + expected},
	} {
		if _, _, err := c.dial.Seen(c.text); err == nil || err.Error() != c.says {
			t.Errorf("%q: %v, expected %s", c.text, err, c.says)
		}
	}
	for _, text := range []string{
		"", " ", "%", "40", "1.2", "101 %", "-5 %", "-0.1", "5/4", "1/0", "0/0", "1 1/2", "1½", "0,4", "NaN", "inf", "1e-1", strings.Repeat("9", 400), "1/" + strings.Repeat("9", 400),
		"on", "about", "just", "just 1/2", "over", "just over", "over under 1/2", "between", "between 1/4", "between 1/4 and", "between 1/2 and half", "between 1/4 and 1/2 and 3/4", "between E and just under 1/4", "G",
	} {
		if position, within, err := even.Seen(text); err == nil {
			t.Errorf("%q: %g ± %g, expected an error", text, position, within)
		}
	}
}

// FuzzSeen: any text becomes a place on the dial, or an error of one line.
func FuzzSeen(f *testing.F) {
	for _, s := range []string{"1/4", "E", "40 %", "0.4", "just over 1/2", "a bit under 3/4", "between 1/4 and 1/2", "on full", "at about ½", "between hot and high and R", "1/0", "\n"} {
		f.Add(s)
	}
	even, bent, odd := dials(f)
	f.Fuzz(func(t *testing.T, text string) {
		for _, d := range []*Dial{even, bent, odd} {
			position, within, err := d.Seen(text)
			if err != nil {
				if strings.ContainsAny(err.Error(), "\r\n") {
					t.Fatalf("%q", err)
				}
				continue
			}
			if !(position >= 0 && position <= 1 && within > 0 && within <= 0.5) {
				t.Fatalf("%q: %g ± %g", text, position, within)
			}
		}
	})
}
