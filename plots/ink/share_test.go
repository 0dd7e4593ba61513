package ink

import (
	"cmp"
	"math"
	"slices"
	"strings"
	"testing"

	"gonum.org/v1/plot/vg"
	"pgregory.net/rapid"
)

// tiny is what sums of places may be off by.
const tiny = 1e-9

// TestSpread: order kept, gaps kept where there is room, within the ends always, and nothing
// moves that need not.
func TestSpread(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		places := rapid.SliceOfN(rapid.Float64Range(-20, 120), 0, 40).Draw(t, "places")
		gap := rapid.Float64Range(0, 8).Draw(t, "gap")
		const low, high = 0.0, 100.0
		out := Spread(places, gap, low, high)
		if room := (high - low) / math.Max(1, float64(len(places)-1)); gap > room {
			gap = room
		}
		apart, moved := true, false
		for i := range places {
			if out[i] < low || out[i] > high {
				t.Fatalf("%v lies outside %v … %v", out[i], low, high)
			}
			apart = apart && places[i] >= low && places[i] <= high
			moved = moved || math.Abs(out[i]-places[i]) > tiny
			for k := range i {
				apart = apart && math.Abs(places[i]-places[k]) >= gap
				switch d := out[i] - out[k]; {
				case math.Abs(d) < gap-tiny:
					t.Fatalf("%v and %v are nearer than %v", out[k], out[i], gap)
				case cmp.Compare(places[k], places[i]) > 0 && d > tiny, places[k] <= places[i] && d < -tiny:
					t.Fatalf("%v and %v changed places", places[k], places[i])
				}
			}
		}
		if apart && moved {
			t.Fatalf("%v became %v, though all were apart", places, out)
		}
	})
}

// TestSpreadIsLeast: no small shift of a run of neighbours that keeps the gap comes nearer.
func TestSpreadIsLeast(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		places := rapid.SliceOfN(rapid.Float64Range(0, 100), 1, 12).Draw(t, "places")
		slices.Sort(places)
		const gap = 6
		out := Spread(places, gap, 0, 100)
		cost := func(at []float64) (sum float64) {
			for i := range at {
				sum += (at[i] - places[i]) * (at[i] - places[i])
			}
			return sum
		}
		valid := func(at []float64) bool {
			for i := range at {
				if at[i] < 0 || at[i] > 100 || i > 0 && at[i]-at[i-1] < gap {
					return false
				}
			}
			return true
		}
		for from := range out {
			for to := from + 1; to <= len(out); to++ {
				for _, by := range []float64{-0.1, 0.1} {
					other := slices.Clone(out)
					for i := from; i < to; i++ {
						other[i] += by
					}
					if valid(other) && cost(other) < cost(out)-1e-6 {
						t.Fatalf("%v of %v: %v is nearer", out, places, other)
					}
				}
			}
		}
	})
	if got := Spread([]vg.Length{50, 50, 80}, 10, 0, 100); !slices.Equal(got, []vg.Length{45, 55, 80}) {
		t.Errorf("%v, expected 45 55 80", got)
	}
	if got := Spread([]float64{3, 1}, 5, 10, 0); !slices.Equal(got, []float64{10, 10}) {
		t.Errorf("ends the wrong way round: %v, expected all at the first", got)
	}
}

func TestLines(t *testing.T) {
	f := Regular(9)
	const room = 60 * vg.Millimeter
	for _, text := range []string{"", "one", "several words that do not fit in a single line of this width at all", strings.Repeat("longword", 20) + " and more"} {
		lines := Lines(f, text, room)
		for _, l := range lines {
			if Width(f, l) > room {
				t.Errorf("%q is wider than its room", l)
			}
		}
		if got := strings.Join(lines, " "); !strings.Contains(text, "longword") && got != text {
			t.Errorf("%q became %q", text, got)
		}
	}
	if got := Lines(f, "holds 10\u00a0L of fuel", Width(f, "holds 10")); len(got) < 2 || !strings.HasPrefix(got[1], "10\u00a0L") {
		t.Errorf("a no-break space was broken: %q", got)
	}
}

func TestShortened(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f := Bold(8)
		text := rapid.StringN(0, 40, -1).Draw(t, "text")
		room := vg.Length(rapid.Float64Range(0, 200).Draw(t, "room"))
		got := Shortened(f, text, room)
		if Width(f, got) > room && text != "" {
			t.Fatalf("%q is wider than %v", got, room)
		}
		if Width(f, text) <= room && got != text {
			t.Fatalf("%q became %q, though it fits", text, got)
		}
	})
	if got := Shortened(Regular(10), "two words", Width(Regular(10), "two …")); got != "two…" {
		t.Errorf("%q, expected no space before the sign", got)
	}
	if got := Shortened(Regular(10), "wide", 1); got != "" {
		t.Errorf("%q in no room", got)
	}
}

func TestMinus(t *testing.T) {
	for text, want := range map[string]string{
		"-48.0°": "−48.0°", "from -3 to +4": "from −3 to +4", "(-1)": "(−1)", "± -2": "± −2", "": "", "-": "-",
		"mid-stop": "mid-stop", "33-240": "33-240", "1/4-1/2": "1/4-1/2", "M-4": "M-4", "a -b": "a -b", "--5": "--5",
	} {
		if got := Minus(text); got != want {
			t.Errorf("%q: %q, expected %q", text, got, want)
		}
	}
}

func TestPapers(t *testing.T) {
	for _, p := range Papers {
		for _, name := range []string{p.Name, strings.ToLower(p.Name), strings.ToUpper(p.Name)} {
			if got, err := PaperNamed(name); got != p || err != nil {
				t.Errorf("%s: %v, %v", name, got, err)
			}
		}
		if w, h := p.Turned().Size(); w != p.Height || h != p.Width {
			t.Errorf("%s turned is %v by %v", p.Name, w, h)
		}
	}
	if _, err := PaperNamed("a3"); err == nil {
		t.Error("a3: no error")
	}
}
