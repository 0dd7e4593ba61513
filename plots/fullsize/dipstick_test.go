package fullsize

import (
	"math"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"floatarc/plots/ink"
	"floatarc/tanks/quantity"
)

// TestGraduationsOfABox: litres = L·W·s.
func TestGraduationsOfABox(t *testing.T) {
	for _, units := range systems {
		d := boxStick(600, 300, 250, units, ink.A4)
		last := 0.0
		for _, g := range d.Graduations() {
			if want := g.Litres / (600 * 300 / 1e6); math.Abs(g.Along-want) > 1e-9 || g.Along <= last {
				t.Errorf("%s: %g L at %g mm, want %g", units.Name, g.Litres, g.Along, want)
			}
			last = g.Along
		}
		if n := len(d.Graduations()); n < 40 {
			t.Errorf("%s: %d ticks", units.Name, n)
		}
	}
}

// TestTickOnPaper: a tick is drawn as far above the foot as it says, on each piece.
func TestTickOnPaper(t *testing.T) {
	d := boxStick(600, 300, 700, quantity.Metric, ink.A4)
	pages, err := d.Pages()
	if err != nil {
		t.Fatal(err)
	}
	s := newStrip(d)
	bottom := margin + checkHeight(d.Units) + underStrip
	s.pieces = cutUp(s.length(), s.highest, inMM(ink.A4.Height)-margin-s.header().height()-overStrip-bottom, s.labels())
	if len(pages) != 1 || len(s.pieces) != 4 {
		t.Fatalf("%d pages, %d pieces", len(pages), len(s.pieces))
	}
	r := surveyed(pages[0])
	for i, c := range s.pieces {
		x := margin + 2 + float64(i)*(s.width+lane)
		for _, g := range s.ticks {
			if g.Along < c.from || g.Along > c.to {
				continue
			}
			want := bottom + g.Along - c.from
			if !slices.ContainsFunc(r.lines, func(l [4]float64) bool {
				return math.Abs(l[0]-x) < 1e-9 && l[1] == l[3] && math.Abs(l[1]-want) < 1e-9
			}) {
				t.Errorf("piece %s: no tick for %g L at %.3f mm", c.letter, g.Litres, want)
			}
		}
	}
}

// TestPiecesCoverTheStrip: no gap, tabs of 10 mm, no label cut, none longer than the room.
func TestPiecesCoverTheStrip(t *testing.T) {
	if testing.Short() {
		t.Skip("long")
	}
	rapid.Check(t, func(t *rapid.T) {
		highest := rapid.Float64Range(20, 3000).Draw(t, "highest")
		length := highest + rapid.Float64Range(10, 40).Draw(t, "head")
		room := rapid.Float64Range(shortest+20, 220).Draw(t, "room")
		pitch := rapid.Float64Range(2*jointClear, 30).Draw(t, "pitch")
		var labels []float64
		for at := pitch; at < highest; at += pitch {
			labels = append(labels, at)
		}
		pieces := cutUp(length, highest, room, labels)
		if pieces[0].from != 0 || pieces[len(pieces)-1].to != length || pieces[len(pieces)-1].tab {
			t.Fatalf("%+v of %g mm", pieces, length)
		}
		for i, p := range pieces {
			if p.to-p.from > room+1e-9 || !(p.to > p.from) {
				t.Fatalf("piece %+v in a room of %g mm", p, room)
			}
			if i > 0 && (math.Abs(pieces[i-1].to-p.from-tabLength) > 1e-9 || !pieces[i-1].tab || p.from > highest) {
				t.Fatalf("%+v joins %+v", p, pieces[i-1])
			}
			for _, at := range labels {
				if i > 0 && math.Abs(at-p.from) < jointClear-0.2 {
					t.Fatalf("the joint at %g mm cuts the label at %g mm", p.from, at)
				}
			}
		}
	})
}

// TestStickPages: sticks short and long, of small and of great tanks.
func TestStickPages(t *testing.T) {
	if testing.Short() {
		t.Skip("long")
	}
	for _, units := range systems {
		for _, paper := range papers {
			for _, tank := range [][3]float64{{60, 40, 30}, {600, 300, 250}, {200, 100, 900}, {3000, 2000, 2400}, {20000, 9000, 5900}, {9000, 9000, 12}} {
				d := boxStick(tank[0], tank[1], tank[2], units, paper)
				d.Title = strings.Repeat("A long name of a tank ", 8)
				pages, err := d.Pages()
				if err != nil {
					t.Fatal(err)
				}
				for _, page := range pages {
					sound(t, page, units)
				}
			}
		}
	}
}

func TestScales(t *testing.T) {
	for _, tc := range []struct {
		units        quantity.System
		high, room   float64 // in the units that people read, mm
		major, minor float64
	}{
		{quantity.Metric, 50, 250, 1, 0.5}, {quantity.Metric, 50, 650, 0.5, 0.1}, {quantity.Metric, 500, 250, 10, 5},
		{quantity.US, 10, 250, 0.25, 0.05}, {quantity.US, 12, 120, 0.5, 0.25}, {quantity.US, 40, 250, 1, 0.25},
	} {
		s := scaleFor(tc.units, 0, tc.high, labelPitch, tickPitch, func(v float64) float64 { return v / tc.high * tc.room })
		if math.Abs(s.major-tc.major) > 1e-9 || math.Abs(s.minor-tc.minor) > 1e-9 {
			t.Errorf("%g %s on %g mm: steps %g and %g, want %g and %g", tc.high, tc.units.Volume.Symbol, tc.room, s.major, s.minor, tc.major, tc.minor)
		}
	}
	s := scale{major: 0.5, minor: 0.25, fractions: true}
	for v, want := range map[float64]string{0.25: "¼", 0.5: "½", 1: "1", 12.75: "12¾"} {
		if got := s.label(v); got != want {
			t.Errorf("%g: %q, want %q", v, got, want)
		}
	}
}

func TestStickRefuses(t *testing.T) {
	for name, spoil := range map[string]func(*Dipstick){
		"dry": func(d *Dipstick) { d.High = d.Low }, "long": func(d *Dipstick) { d.Along = func(l float64) float64 { return 1e4 * l } },
		"falling": func(d *Dipstick) { d.Along = func(l float64) float64 { return -l } }, "unknown": func(d *Dipstick) { d.High = math.NaN() },
	} {
		d := boxStick(600, 300, 250, quantity.Metric, ink.A4)
		spoil(d)
		if _, err := d.Pages(); err == nil || strings.Contains(err.Error(), "\n") {
			t.Errorf("%s: %v", name, err)
		}
	}
}
