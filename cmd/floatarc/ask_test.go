package main

import (
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"floatarc/plots"
	"floatarc/tanks"
	"floatarc/tanks/quantity"
)

var allShapes = []plots.TankShape{plots.BoxTank, plots.DrumTank, plots.VeeTank}

// everyForm are all kinds with all shapes.
func everyForm() (out []form) {
	for _, kind := range newKinds {
		for _, shape := range allShapes {
			out = append(out, form{kind, shape})
		}
	}
	return out
}

// TestEveryMeasureIsAsked: each letter of a form once, in the order of the file, and nothing
// else but the words; each has its own help, and a key in the file.
func TestEveryMeasureIsAsked(t *testing.T) {
	for _, f := range everyForm() {
		for _, sys := range []quantity.System{quantity.Metric, quantity.US, quantity.Imperial} {
			var asked, listed []string
			for _, m := range f.measures() {
				listed = append(listed, m.letter+" "+m.path())
			}
			d, err := f.newDraft(sys)
			if err != nil {
				t.Fatal(err)
			}
			for _, q := range f.questions(sys) {
				if q.letter != "" {
					asked = append(asked, q.letter+" "+q.key)
				}
				if askHelp[q.key] == "" {
					t.Errorf("%v: no help for %s", f, q.where())
				}
				if len(q.keys) == 0 && q.id != askShape {
					t.Errorf("%v: %s fills no key", f, q.where())
				}
				for _, key := range append([]string{q.place}, q.keys...) {
					if _, live, ok := d.Value(key); !ok || live != (q.needed || q.kept) {
						t.Errorf("%v, %s: %s stands in the file: %v, live: %v", f, q.where(), key, ok, live)
					}
				}
				if q.known(d) != q.kept {
					t.Errorf("%v: %s is known before it is asked: %v", f, q.where(), q.known(d))
				}
			}
			if !slices.Equal(asked, listed) {
				t.Errorf("%v: asked %v, expected %v", f, asked, listed)
			}
		}
	}
}

// TestDefaultsAreAnswers: what stands in for a measure, and what is shown as an example, is
// taken as its answer and then no longer marked; a file of nothing but defaults loads.
func TestDefaultsAreAnswers(t *testing.T) {
	for _, f := range everyForm() {
		for _, sys := range []quantity.System{quantity.Metric, quantity.US, quantity.Imperial} {
			s := newInterview("rig.toml", sys)
			if err := s.reform(f); err != nil {
				t.Fatal(err)
			}
			for !s.done() {
				q := s.questions[s.at]
				answer := q.like
				if answer == "" {
					answer = q.shown(s.draft)
				}
				if q.id == askShape {
					answer = f.shapeWord()
				}
				before := s.at
				s.take(answer)
				if s.at != before+1 || !q.known(s.draft) {
					t.Fatalf("%v, %s: %s: %q is not taken: %s", f, sys.Name, q.where(), answer, s.trouble)
				}
			}
			rig, err := tanks.Read("rig.toml", s.draft.Text())
			if err != nil || len(rig.NotMeasured) > 0 {
				t.Fatalf("%v: %v, %v", f, err, rig)
			}
			for _, w := range jobOf(rig, sys).warnings(s.thinner) {
				if w.Code != "mark_blind" && w.Code != "sense_reversed" && w.Code != "mark_dropped" {
					t.Errorf("%v, %s: %s: %s", f, sys.Name, w.Code, w.Text)
				}
			}
		}
	}
}

// TestDefaultsFollow: a tank of any size, with nothing else known, loads.
func TestDefaultsFollow(t *testing.T) {
	if testing.Short() {
		t.Skip("long")
	}
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		f := rapid.SampledFrom(everyForm()).Draw(t, "form")
		s := newInterview("rig.toml", quantity.Metric)
		if err := s.reform(f); err != nil {
			t.Fatal(err)
		}
		for s.questions[s.at].letter <= "J" {
			answer := ""
			switch s.questions[s.at].id {
			case "B": // longer than any dished heads are deep
				answer = rapid.StringMatching(`[5-9][0-9]{2}|[1-9][0-9]{3}`).Draw(t, "length")
			case "C", "D", "H":
				answer = rapid.StringMatching(`[1-9][0-9]{2}`).Draw(t, "size")
			case askShape:
				answer = f.shapeWord()
			}
			before := s.at
			if s.take(answer); s.at <= before {
				t.Fatalf("%v: %s: %q is refused: %s\n%s", f, s.questions[before].where(), answer, s.trouble, s.draft.Text())
			}
		}
		if err := tanks.Check("rig.toml", s.draft.Text()); err != nil {
			t.Fatalf("%v in\n%s", err, s.draft.Text())
		}
	})
}

// someLines are plausible answers, and others.
var someLines = []string{
	"", "", "", "skip", "back", "?", "stop", "620", "320", "240", "30", "2 mm", "none", "24 3/8", "24 3/8 in", "24,5", "310 160 195", "310, 160, 195", "12 1/4, 6, 7 5/8",
	"5000, 1, 1", "-50", "5", "80", "33", "240", "205 ± 3 mm", "forward", "left", "45", "box", "drum", "v", "flat", "hemispherical", "petrol", "1.0 mm2", "18 AWG", "14 L/100km", "9 L/h",
	"60 km", "45 min", "5 L", "18 %", "10 95 180", "180 10", "-30 180, -10 90", "E 1/2 F", "0", "1e300", "-1", "3 V", "\"]\n[x", "# NOT MEASURED", "boat", "machine", "x = [", "Żółw \"9\" \\",
}

// TestAnyAnswers: whatever is answered, nothing panics; what is written can be read when all
// is asked, and before that it can be gone on with, to the very file that an uninterrupted run
// would have written.
func TestAnyAnswers(t *testing.T) {
	if testing.Short() {
		t.Skip("long")
	}
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		sys := rapid.SampledFrom([]quantity.System{quantity.Metric, quantity.US}).Draw(t, "units")
		kind := rapid.SampledFrom(newKinds).Draw(t, "kind")
		line := rapid.OneOf(rapid.SampledFrom(someLines), rapid.SampledFrom(someLines), rapid.String())
		lines := rapid.SliceOfN(line, 0, 70).Draw(t, "lines")
		cut := rapid.IntRange(0, len(lines)).Draw(t, "cut")
		dir, err := os.MkdirTemp("", "ask")
		if err != nil {
			t.Fatal(err)
		}
		defer os.RemoveAll(dir)
		whole := asked(t, filepath.Join(dir, "whole.toml"), kind, sys, lines)
		parts := asked(t, filepath.Join(dir, "parts.toml"), kind, sys, lines[:cut])
		if unfinished.MatchString(parts) {
			parts = asked(t, filepath.Join(dir, "parts.toml"), "", sys, lines[cut:])
			if parts != whole {
				t.Fatalf("interrupted:\n%s\nuninterrupted:\n%s", parts, whole)
			}
		}
	})
}

// asked answers with lines, all but stop, and returns the file.
func asked(t interface {
	Fatal(...any)
	Fatalf(string, ...any)
}, path, kind string, sys quantity.System, lines []string) string {
	s := newInterview(path, sys)
	before, err := earlierAt(path, false)
	if err != nil {
		t.Fatal(err)
	}
	if before != nil {
		err = s.resume(before)
	} else {
		err = s.begin(kind)
	}
	if err != nil {
		t.Fatal(err)
	}
	for _, line := range lines {
		if s.done() {
			break
		}
		s.take(line)
	}
	if s.draft == nil {
		return ""
	}
	if err := s.save(); err != nil {
		t.Fatal(err)
	}
	text, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if s.done() {
		if err := tanks.Check(path, string(text)); err != nil {
			t.Fatalf("%v in\n%s", err, text)
		}
	}
	return string(text)
}

// FuzzAsk: any lines of answers end in a file that can be read, or gone on with.
func FuzzAsk(f *testing.F) {
	for _, kind := range newKinds {
		f.Add(kind+"\n"+strings.Repeat("\n", 40), false)
	}
	f.Add("boat\nLaunch\npetrol\n25\nv\n24 3/8\n23 5/8\n13 3/8\n4 3/4\n11 3/4\n1 5/8\n1/8\nback\nback\n2\n", true)
	f.Add("vehicle\nTruck\n\n44\nbox\n620\n320\n240\n30\n2\n226\n300, 160, 10\n310 160 195\n205\nforward\n-50\n5\n40\n50\n15\n240\n33\n-20 150\n4\n1\n0.2\n10 95 180\n\nE F\n14\n60\n18\n10\n", false)
	f.Fuzz(func(t *testing.T, text string, us bool) {
		sys := quantity.Metric
		if us {
			sys = quantity.US
		}
		path := filepath.Join(t.TempDir(), "rig.toml")
		if file := asked(t, path, "", sys, strings.Split(text, "\n")); unfinished.MatchString(file) {
			asked(t, path, "", sys, nil)
		}
	})
}
