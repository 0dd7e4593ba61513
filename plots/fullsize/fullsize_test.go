package fullsize

import (
	"bytes"
	"math"
	"slices"
	"strings"
	"testing"

	"gonum.org/v1/plot/vg"

	"floatarc/plots/ink"
	"floatarc/tanks/quantity"
)

// A ruler is a canvas that notes the straight lines drawn on it, mm.
type ruler struct {
	*ink.Survey
	lines [][4]float64
}

func (r *ruler) Stroke(p vg.Path) {
	r.Survey.Stroke(p)
	for i := 1; i < len(p); i++ {
		if a, b := p[i-1], p[i]; a.Type != vg.ArcComp && b.Type == vg.LineComp {
			r.lines = append(r.lines, [4]float64{float64(a.Pos.X / mm), float64(a.Pos.Y / mm), float64(b.Pos.X / mm), float64(b.Pos.Y / mm)})
		}
	}
}

func surveyed(page *Page) *ruler {
	r := &ruler{Survey: ink.NewSurvey(page.Size())}
	page.Paint(r)
	return r
}

// sound checks a page: nothing beyond its printable part, no text over another, a check
// line of 100 mm.
func sound(t testing.TB, page *Page, units quantity.System) *ruler {
	t.Helper()
	r := surveyed(page)
	if texts, by := r.Outside(); len(texts) > 0 || by > 0 {
		t.Errorf("%s: %q reach beyond the page by %.1f points", page.Title(), texts, by)
	}
	const printable = 4.5 // mm
	w, h := page.Size()
	if b := r.Bounds; min(b.Min.X, b.Min.Y, w-b.Max.X, h-b.Max.Y) < printable*mm {
		t.Errorf("%s: drawn to the edge of the paper: %v", page.Title(), b)
	}
	if o := r.Overlaps(); len(o) > 0 {
		t.Errorf("%s: texts over each other: %q", page.Title(), o)
	}
	lengths := map[string]bool{}
	for _, l := range r.lines {
		if l[1] == l[3] {
			lengths[quantity.Fixed(l[2]-l[0], 3)] = true
		}
	}
	if !lengths["100.000"] || gallons(units) && !lengths["101.600"] {
		t.Errorf("%s: no check line in %v", page.Title(), lengths)
	}
	for _, text := range r.Texts {
		if text.Size < leastLetters {
			t.Errorf("%s: %q in letters of %.1f points", page.Title(), text.String, text.Size)
		}
	}
	return r
}

var (
	systems = []quantity.System{quantity.Metric, quantity.US, quantity.Imperial}
	papers  = ink.Papers
)

func TestArmCards(t *testing.T) {
	if testing.Short() {
		t.Skip("long")
	}
	for _, units := range systems {
		for _, paper := range papers {
			for _, arm := range []struct{ length, low, high float64 }{{60, -60, 30}, {110, -48, 8}, {230, -48, 12}, {900, -20, 5}, {230, -130, -20}, {150, -230, -140}, {120, -170, 80}, {140, -3, 2}, {230, -46, 10}, {320, -46, 10}, {230, 170, 226}, {240, -20, 20}, {254, -68, 38}, {400, -200, 150}} {
				page, err := ArmCard(sampleArm(arm.length, arm.low, arm.high, units, paper))
				if err != nil {
					t.Fatal(err)
				}
				sound(t, page, units)
			}
		}
	}
}

// TestArmCardIsTrue: where the arm fits, its lines end at its length, at its angles.
func TestArmCardIsTrue(t *testing.T) {
	for _, tc := range []struct {
		length, low, high float64
		paper             ink.Paper
		across, turned    bool
	}{
		{110, -48, 8, ink.A4, false, false}, {110, -48, 8, ink.Letter, false, false}, {240, -20, 20, ink.A4, true, false},
		{230, -46, 10, ink.A4, true, true}, {230, 170, 226, ink.A4, true, true}, {320, -46, 10, ink.A4, true, false},
	} {
		arm := sampleArm(tc.length, tc.low, tc.high, quantity.Metric, tc.paper)
		page, err := ArmCard(arm)
		if err != nil {
			t.Fatal(err)
		}
		c := newCard(arm)
		if c.true() != (tc.length < 300) || c.tilt != 0 != tc.turned {
			t.Errorf("%g mm: lines of %g mm on a base line turned by %g°", tc.length, c.radius, c.tilt)
		}
		if w, h := page.Size(); w > h != tc.across {
			t.Errorf("%g mm on %v by %v", tc.length, w, h)
		}
		r := surveyed(page)
		for _, place := range arm.Places {
			if !lineAt(r, c, place.Angle, math.Min(tc.length, c.radius)) {
				t.Errorf("no line of %g mm at %g°", c.radius, place.Angle)
			}
		}
		centres := 0
		for _, l := range r.Segments {
			dx, dy := inMM(l.To.X)-c.x, inMM(l.To.Y)-c.y
			if turn := math.Abs(math.Remainder(math.Atan2(dy, dx)*180/math.Pi-c.tilt-(tc.low+tc.high)/2, 360)); math.Abs(math.Hypot(dx, dy)-tc.length) < 0.02 && turn < (tc.high-tc.low)/2-1 {
				centres++
			}
		}
		if c.true() && centres < 5 {
			t.Errorf("%g mm: no arc of the float centre", tc.length)
		}
	}
	arm := sampleArm(110, -48, 8, quantity.Metric, ink.A4)
	if got, want := arm.Drop(ArmPlace{Angle: -30}), 55.0; math.Abs(got-want) > 1e-9 {
		t.Errorf("drop %g, want %g", got, want)
	}
}

// lineAt tells whether a line from the axle of a card ends at an angle and a distance.
func lineAt(r *ruler, c *card, angle, length float64) bool {
	return slices.ContainsFunc(r.lines, func(l [4]float64) bool {
		dx, dy := l[2]-c.x, l[3]-c.y
		off := math.Remainder(math.Atan2(dy, dx)*180/math.Pi-angle-c.tilt, 360)
		return math.Abs(math.Hypot(dx, dy)-length) < 1e-6 && math.Abs(off) < 1e-6
	})
}

func TestArmCardRefuses(t *testing.T) {
	for name, spoil := range map[string]func(*Arm){
		"length": func(a *Arm) { a.Length = 0 }, "stops": func(a *Arm) { a.Low = a.High }, "lines": func(a *Arm) { a.Places = nil },
		"turn": func(a *Arm) { a.Places[0].Angle = math.NaN() }, "ohms": func(a *Arm) { a.Places[0].Ohms = -1 },
	} {
		a := sampleArm(110, -48, 8, quantity.Metric, ink.A4)
		spoil(a)
		if _, err := ArmCard(a); err == nil || strings.Contains(err.Error(), "\n") {
			t.Errorf("%s: %v", name, err)
		}
	}
}

func TestDialOverlays(t *testing.T) {
	if testing.Short() {
		t.Skip("long")
	}
	for _, units := range systems {
		for _, paper := range papers {
			for _, face := range []struct{ diameter, sweep float64 }{{30, 90}, {40, 60}, {52, 90}, {52, 240}, {60, 270}, {100, 90}, {160, 340}} {
				page, err := DialOverlay(sampleFace(face.diameter, face.sweep, units, paper))
				if err != nil {
					t.Fatal(err)
				}
				sound(t, page, units)
			}
		}
	}
	many := sampleFace(52, 90, quantity.Metric, ink.A4)
	for i := range 33 {
		many.Marks = append(many.Marks, FaceMark{"1/3 and more", float64(i) / 32})
	}
	many.Litres = func(p float64) float64 { return 100000 * p * p * p }
	page, err := DialOverlay(many)
	if err != nil {
		t.Fatal(err)
	}
	sound(t, page, quantity.Metric)
}

// TestDialOverlayIsTrue: round litres lie where the function puts them.
func TestDialOverlayIsTrue(t *testing.T) {
	o := &overlay{Face: sampleFace(52, 90, quantity.Metric, ink.A4)}
	o.stretches = o.told()
	for _, litres := range []float64{3, 10, 20, 50} {
		if got := o.Litres(o.position(litres)); math.Abs(got-litres) > 1e-9 {
			t.Errorf("%g L lie at those of %g", litres, got)
		}
	}
	if o.angle(0) != 135 || o.angle(0.5) != 90 || o.angle(1) != 45 {
		t.Errorf("angles %g %g %g, want 135 90 45", o.angle(0), o.angle(0.5), o.angle(1))
	}
}

func TestDialOverlayRefuses(t *testing.T) {
	for name, spoil := range map[string]func(*Face){
		"diameter": func(f *Face) { f.Diameter = 5 }, "sweep": func(f *Face) { f.Sweep = 400 },
		"nothing": func(f *Face) { f.Marks, f.Litres = nil, nil }, "mark": func(f *Face) { f.Marks[0].Position = -1 },
	} {
		f := sampleFace(52, 90, quantity.Metric, ink.A4)
		spoil(f)
		if _, err := DialOverlay(f); err == nil || strings.Contains(err.Error(), "\n") {
			t.Errorf("%s: %v", name, err)
		}
	}
}

// TestPagesAreTheSameEachTime writes a document twice.
func TestPagesAreTheSameEachTime(t *testing.T) {
	var a, b bytes.Buffer
	for _, w := range []*bytes.Buffer{&a, &b} {
		pages, err := boxStick(600, 300, 900, quantity.US, ink.Letter).Pages()
		if err != nil {
			t.Fatal(err)
		}
		if err := pages.Write(w); err != nil {
			t.Fatal(err)
		}
	}
	if !bytes.Equal(a.Bytes(), b.Bytes()) || !bytes.HasPrefix(a.Bytes(), []byte("%PDF")) {
		t.Error("two runs differ, or are no PDF")
	}
	if err := (Pages{}).Write(&a); err == nil {
		t.Error("no page: no error")
	}
}
