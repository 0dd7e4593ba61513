package geometry

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
	"pgregory.net/rapid"
)

// The two ways to look at a tank.
func fromRight(y float64) Plane  { return Plane{r3.Vec{Y: y}, r3.Vec{X: 1}, r3.Vec{Z: 1}} }
func fromBehind(x float64) Plane { return Plane{r3.Vec{X: x}, r3.Vec{Y: -1}, r3.Vec{Z: 1}} }

func solidOf(t testing.TB, s Solid, err error) Solid {
	t.Helper()
	if err != nil {
		t.Fatal(err)
	}
	return s
}

func areaOf(rings []Ring) float64 {
	sum := 0.0
	for _, r := range rings {
		sum += r.Area()
	}
	return sum
}

// TestSectionAreas compares with closed forms: rectangles, discs, rounded corners.
func TestSectionAreas(t *testing.T) {
	box, err := Box{Length: 640, Width: 340, Height: 260, Radius: 40}.Solid()
	shell := solidOf(t, box, err)
	drum, err := Cylinder{Diameter: 500, Length: 800}.Solid()
	lying := Place(solidOf(t, drum, err), Across(X, r3.Vec{Z: 250, Y: 250}))
	pump, err := Cylinder{Diameter: 110, Length: 235}.Solid()
	module := Place(solidOf(t, pump, err), Across(Z, r3.Vec{X: 320, Y: 170, Z: 10}))
	withPump := Composite{Bodies: []Body{{Solid: shell}, {Solid: module, Displaces: true}}}
	at := func(s Solid, toward r3.Vec) float64 { lo, hi := s.Extent(toward); return (lo + hi) / 2 }
	corners := (4 - math.Pi) * 40 * 40
	for _, c := range []struct {
		name  string
		solid Solid
		plane Plane
		area  float64
		rings int
	}{
		{"box from the side", shell, fromRight(at(shell, r3.Vec{Y: 1})), 640 * 260, 1},
		{"box from behind", shell, fromBehind(at(shell, r3.Vec{X: 1})), 340*260 - corners, 1},
		{"drum from behind", lying, fromBehind(at(lying, r3.Vec{X: 1})), math.Pi * 250 * 250, 1},
		{"drum from the side, through the axis", lying, fromRight(at(lying, r3.Vec{Y: 1})), 500 * 800, 1},
		{"box with a pump", withPump, fromRight(at(module, r3.Vec{Y: 1})), 640*260 - 110*235, 2},
		{"beside it", lying, fromBehind(-5000), 0, 0},
	} {
		rings := SectionOf(c.solid, c.plane)
		if got := areaOf(rings); math.Abs(got-c.area) > 2e-4*c.area || len(rings) != c.rings {
			t.Errorf("%s: %.6g mm² in %d rings, expected %.6g in %d", c.name, got, len(rings), c.area, c.rings)
		}
	}
}

// TestSectionsAddUp integrates sections to the volume of a tank.
func TestSectionsAddUp(t *testing.T) {
	drum, err := Cylinder{Diameter: 500, Length: 800, Low: Head{Kind: Ellipsoidal, Depth: 125}, High: Head{Kind: Cone, Depth: 200}}.Solid()
	s := Place(solidOf(t, drum, err), Turned(r3.Vec{}, 10, 20, 30))
	lo, hi := s.Extent(r3.Vec{X: 1})
	const n = 64
	sum := 0.0
	for i := range n {
		sum += areaOf(SectionOf(s, fromBehind(lo+(hi-lo)*(float64(i)+0.5)/n))) * (hi - lo) / n
	}
	if want := Volume(s); math.Abs(sum-want) > 2e-3*want {
		t.Errorf("sections add up to %.6g mm³, the solid holds %.6g", sum, want)
	}
}

// TestRingBelow: a ring cut by a line is the sum of what lies on both sides.
func TestRingBelow(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(3, 12).Draw(t, "corners")
		var r Ring
		for k := range n {
			radius := rapid.Float64Range(10, 100).Draw(t, "radius")
			sin, cos := math.Sincos(2 * math.Pi * float64(k) / float64(n))
			r = append(r, r2.Vec{X: radius * cos, Y: radius * sin})
		}
		sin, cos := math.Sincos(rapid.Float64Range(0, 7).Draw(t, "turn"))
		a, c := r2.Vec{X: cos, Y: sin}, rapid.Float64Range(-120, 120).Draw(t, "at")
		below, above := r.Below(a, c), r.Below(r2.Scale(-1, a), -c)
		if got := below.Area() + above.Area(); math.Abs(got-r.Area()) > 1e-6*r.Area() {
			t.Fatalf("%g below and above, %g in all", got, r.Area())
		}
		for _, p := range below {
			if r2.Dot(a, p) > c+1e-9 {
				t.Fatalf("%v lies above the line", p)
			}
		}
	})
}

func BenchmarkSection(b *testing.B) {
	box, err := Box{Length: 640, Width: 340, Height: 260, Radius: 40}.Solid()
	s := solidOf(b, box, err)
	for b.Loop() {
		SectionOf(s, fromBehind(100))
	}
}
