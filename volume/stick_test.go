package volume

import (
	"errors"
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"
	"pgregory.net/rapid"

	"floatarc/geometry"
)

func near(t testing.TB, what string, got, want, within float64) {
	t.Helper()
	if !(math.Abs(got-want) <= within) {
		t.Errorf("%s: %.9g, want %.9g", what, got, want)
	}
}

// TestUprightStickInBox: litres = L·W·s.
func TestUprightStickInBox(t *testing.T) {
	c := seen(t, boxTank(t, 600, 300, 250), geometry.Attitude{})
	s := Stick{Foot: r3.Vec{X: 130, Y: 40}, Direction: Leaning(0, 0)}
	for _, along := range []float64{0, 1, 37, 125, 249, 250} {
		near(t, "litres", s.Litres(c, along), 600*300*along/1e6, 1e-9)
		near(t, "along", s.Along(c, 600*300*along/1e6), along, 1e-9)
	}
}

// TestLeaningStickInBox: level = s cos(lean).
func TestLeaningStickInBox(t *testing.T) {
	c := seen(t, boxTank(t, 600, 300, 250), geometry.Attitude{})
	for _, lean := range []float64{-40, -3, 12, 60} {
		cos := math.Cos(lean * math.Pi / 180)
		for _, s := range []Stick{{Direction: Leaning(lean, 0)}, {Direction: Leaning(0, lean)}} {
			s.Foot = r3.Vec{X: 300, Y: 150}
			near(t, "litres", s.Litres(c, 100), 600*300*100*cos/1e6, 1e-9)
		}
	}
	// Both leans at once: 1/√(1 + tan² + tan²).
	s := Stick{Direction: Leaning(30, 20)}
	tan := func(d float64) float64 { return math.Tan(d * math.Pi / 180) }
	near(t, "rise", s.Rise(c), 1/math.Sqrt(1+tan(30)*tan(30)+tan(20)*tan(20)), 1e-12)
}

// TestStickOnSlope: while the surface meets all four walls, the volume is the plan's
// area times the height of the surface over its middle.
func TestStickOnSlope(t *testing.T) {
	const nose = 6.0
	c := seen(t, boxTank(t, 600, 300, 250), geometry.Attitude{NoseUp: nose})
	s := Stick{Foot: r3.Vec{X: 130, Y: 40}, Direction: Leaning(0, 0)}
	tan := math.Tan(nose * math.Pi / 180)
	for _, along := range []float64{60, 100, 150} {
		// Surface: z falls by tan(nose) for a millimetre forward.
		middle := along - (300-130)*tan
		if lowest, highest := middle-300*tan, middle+300*tan; lowest < 0 || highest > 250 {
			t.Fatalf("the surface at %g mm does not meet all four walls", along)
		}
		near(t, "litres", s.Litres(c, along), 600*300*middle/1e6, 1e-7)
	}
}

// TestStickAnywhere: wherever a stick stands and however it leans, it shows the same
// litres for the same surface, and never less further up.
func TestStickAnywhere(t *testing.T) {
	drum := lyingDrum(t)
	rapid.Check(t, func(t *rapid.T) {
		deg := rapid.Float64Range(-25, 25)
		c := seen(t, drum, geometry.Attitude{NoseUp: deg.Draw(t, "nose up"), LeftUp: deg.Draw(t, "left up")})
		s := Stick{
			Foot:      r3.Vec{X: rapid.Float64Range(0, 800).Draw(t, "x"), Y: rapid.Float64Range(-200, 200).Draw(t, "y"), Z: rapid.Float64Range(0, 100).Draw(t, "z")},
			Direction: Leaning(deg.Draw(t, "forward"), deg.Draw(t, "left")),
		}
		litres := rapid.Float64Range(0.01, 0.99).Draw(t, "share") * drum.Capacity()
		along := s.Along(c, litres)
		wet := r3.Dot(c.Up, r3.Add(s.Foot, r3.Scale(along, s.Direction)))
		if math.Abs(wet-c.Level(litres)) > 1e-6 {
			t.Fatalf("the wet end lies at %.9g, the surface at %.9g", wet, c.Level(litres))
		}
		if back := s.Litres(c, along); math.Abs(back-litres) > 1e-6 {
			t.Fatalf("%.9g L come back as %.9g", litres, back)
		}
		if more := s.Litres(c, along+rapid.Float64Range(0, 50).Draw(t, "further")); more < litres-1e-6 {
			t.Fatalf("%.9g L, and %.9g further up", litres, more)
		}
	})
}

func TestFooting(t *testing.T) {
	drum := lyingDrum(t)
	shape := geometry.Composite{Bodies: []geometry.Body{{Name: "drum", Solid: drum.Solid}}}
	foot, err := Footing(shape, r3.Vec{X: 400, Y: 150}, r3.Vec{Z: 1})
	if err != nil {
		t.Fatal(err)
	}
	near(t, "floor", foot.Z, 250-200, 1e-5) // 150 beside the middle of a radius of 250
	top, err := Stick{Foot: foot, Direction: r3.Vec{Z: 1}}.Top(shape)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "roof", top, 400, 1e-5) // the wall belongs to the tank, to a billionth of its size
	if _, err := Footing(shape, r3.Vec{X: 400, Y: 251}, r3.Vec{Z: 1}); !errors.Is(err, ErrBeside) {
		t.Errorf("beside the tank: %v", err)
	}
}

// TestStickBlocked: a pump module over or under the stick, and a roof between two bodies.
func TestStickBlocked(t *testing.T) {
	box := func(at r3.Vec, length, width, height float64) geometry.Solid {
		s, err := geometry.Box{Length: length, Width: width, Height: height}.Solid()
		if err != nil {
			t.Fatal(err)
		}
		return geometry.Place(s, geometry.Turned(at, 0, 0, 0))
	}
	shape := geometry.Composite{Bodies: []geometry.Body{
		{Name: "tank", Solid: box(r3.Vec{}, 400, 300, 200)},
		{Name: "module", Solid: box(r3.Vec{X: 100, Y: 100}, 50, 50, 120), Displaces: true},
		{Name: "pipe", Solid: box(r3.Vec{X: 200, Y: 100, Z: 80}, 50, 50, 20), Displaces: true},
		{Name: "dome", Solid: box(r3.Vec{X: 300, Y: 100, Z: 250}, 50, 50, 50)},
	}}
	for _, tc := range []struct {
		x, y float64
		by   string
		free bool
	}{
		{x: 20, y: 20, free: true}, {x: 120, y: 120, by: "module"}, {x: 220, y: 120, by: "pipe"}, {x: 320, y: 120},
	} {
		foot, err := Footing(shape, r3.Vec{X: tc.x, Y: tc.y}, r3.Vec{Z: 1})
		if err != nil {
			t.Fatal(err)
		}
		near(t, "floor", foot.Z, 0, 1e-6)
		top, err := Stick{Foot: foot, Direction: r3.Vec{Z: 1}}.Top(shape)
		var blocked *BlockedError
		switch {
		case tc.free:
			near(t, "roof", top, 200, 1e-6)
		case !errors.As(err, &blocked) || blocked.By != tc.by:
			t.Errorf("at %g, %g: %v, want %q in the way", tc.x, tc.y, err, tc.by)
		}
	}
}
