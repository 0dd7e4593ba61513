package fullsize

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"floatarc/plots/ink"
	"floatarc/tanks/quantity"
)

// TestEndMarksAreNamed: whatever the marks are called, the first and the last have their name,
// or the beginning of it.
func TestEndMarksAreNamed(t *testing.T) {
	if testing.Short() {
		t.Skip("long")
	}
	fractions := func(i int) string { return fmt.Sprintf("%d/15", i) }
	long := func(i int) string { return fmt.Sprintf("%c mark with a long name", rune('A'+i)) }
	digits := func(i int) string { return fmt.Sprint(i) }
	for _, name := range []func(int) string{fractions, long, digits} {
		for _, face := range []struct{ diameter, sweep float64 }{{30, 20}, {30, 90}, {52, 20}, {52, 90}, {52, 240}, {52, 340}, {160, 270}} {
			for _, n := range []int{1, 2, 5, 16} {
				f := sampleFace(face.diameter, face.sweep, quantity.Metric, ink.A4)
				f.Marks = nil
				for i := range n {
					f.Marks = append(f.Marks, FaceMark{name(i), float64(i) / float64(max(1, n-1))})
				}
				page, err := DialOverlay(f)
				if err != nil {
					t.Fatal(err)
				}
				r := sound(t, page, quantity.Metric)
				for _, end := range []string{f.Marks[0].Label, f.Marks[n-1].Label} {
					if !slices.ContainsFunc(r.Texts, func(text ink.Text) bool {
						begins, cut := strings.CutSuffix(text.String, "…")
						return text.Bold && begins != "" && strings.HasPrefix(end, begins) && (cut || begins == end)
					}) {
						t.Errorf("%g mm, %g°, %d marks: %q is not named", face.diameter, face.sweep, n, end)
					}
				}
			}
		}
	}
}

// TestFaceTellsNoLitresWhereThereAreNone: no tick where the litres are not a number, the others
// where they belong.
func TestFaceTellsNoLitresWhereThereAreNone(t *testing.T) {
	blind := func(p float64) bool { return p < 0.1 || p > 0.42 && p < 0.55 || p > 0.97 }
	f := sampleFace(100, 90, quantity.Metric, ink.A4)
	all := f.Litres
	f.Litres = func(p float64) float64 {
		if blind(p) {
			return math.NaN()
		}
		return all(p)
	}
	page, err := DialOverlay(f)
	if err != nil {
		t.Fatal(err)
	}
	o := &overlay{Face: f}
	o.stretches = o.told()
	if len(o.stretches) != 2 || math.Abs(o.stretches[0].to-0.42) > 1e-9 || math.Abs(o.stretches[1].from-0.55) > 1e-9 || math.Abs(o.stretches[0].from-0.1) > 1e-9 {
		t.Fatalf("stretches %+v", o.stretches)
	}
	r := sound(t, page, quantity.Metric)
	centre := cross(t, r)
	ticks := 0
	for _, l := range r.lines {
		dx, dy := l[0]-centre[0], l[1]-centre[1]
		if away := math.Hypot(dx, dy); math.Abs(away-(50-7*100./52)) > 1e-6 || math.Hypot(l[2]-centre[0], l[3]-centre[1]) > away {
			continue // not inwards from the arc
		}
		ticks++
		p := (135 - math.Atan2(dy, dx)*180/math.Pi) / 90
		if blind(p+1e-6) && blind(p-1e-6) {
			t.Errorf("a tick at %.4f, where nothing is told", p)
		}
		if litres := all(p) * 2; math.Abs(litres-math.Round(litres)) > 1e-6 {
			t.Errorf("a tick at %.4f stands for %.4f L", p, litres/2)
		}
	}
	if ticks < 15 { // one for every 2 L
		t.Errorf("%d ticks", ticks)
	}
	f.Litres = func(float64) float64 { return math.NaN() }
	if page, err = DialOverlay(f); err != nil {
		t.Fatal(err)
	}
	sound(t, page, quantity.Metric)
}

// cross returns the middle of the face.
func cross(t *testing.T, r *ruler) [2]float64 {
	for i, l := range r.lines[1:] {
		if k := r.lines[i]; math.Abs(l[3]-l[1]-6) < 1e-9 && math.Abs(k[2]-k[0]-6) < 1e-9 {
			return [2]float64{l[0], k[1]}
		}
	}
	t.Fatal("no cross at the pivot")
	return [2]float64{}
}

// TestFaceNotes: they stand at the top, and too many of them are refused.
func TestFaceNotes(t *testing.T) {
	f := sampleFace(160, 90, quantity.US, ink.Letter)
	f.Notes = []string{"With the points at the marks.", "Blind below 4 L: the arm rests on the floor."}
	page, err := DialOverlay(f)
	if err != nil {
		t.Fatal(err)
	}
	r := sound(t, page, quantity.US)
	for _, note := range f.Notes {
		if !slices.ContainsFunc(r.Texts, func(text ink.Text) bool { return text.String == note && text.Box.Min.Y > 230*mm }) {
			t.Errorf("no %q at the top", note)
		}
	}
	f.Notes = slices.Repeat(f.Notes, 20)
	if _, err := DialOverlay(f); err == nil || !strings.Contains(err.Error(), "expected") {
		t.Errorf("forty notes: %v", err)
	}
}
