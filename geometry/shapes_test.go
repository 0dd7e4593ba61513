package geometry

import (
	"errors"
	"math"
	"strings"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// rectangleAt is a station of a rectangle about (u, v).
func rectangleAt(at, width, height, u, v float64) Station {
	x, y := width/2, height/2
	return Station{At: at, Points: []r2.Vec{{X: u - x, Y: v - y}, {X: u + x, Y: v - y}, {X: u + x, Y: v + y}, {X: u - x, Y: v + y}}}
}

func must(t testing.TB, s Solid, err error) Solid {
	t.Helper()
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// TestClosedFormsOfShapes holds levels of simple shapes against the closed forms
// of the handbooks: sphere cap πh²(3R-h)/3, frustum πh(r0²+r0r+r²)/3, obelisk by
// the prismatoid formula H(B1+4M+B2)/6 (94 in full, 466/27 at h = 2), trapezoid
// prism.
func TestClosedFormsOfShapes(t *testing.T) {
	loft := func(stations ...Station) Solid {
		l, err := NewLoft(stations)
		return must(t, l, err)
	}
	frustum := func(low, high, length float64) Solid {
		s, err := Frustum(low, high, length, 0)
		return must(t, s, err)
	}
	ball := func(d float64) Solid {
		s, err := Sphere(d, 0)
		return must(t, s, err)
	}
	trapezoid := loft(
		Station{At: 0, Points: []r2.Vec{{X: 200}, {X: 600}, {X: 800, Y: 500}, {Y: 500}}},
		Station{At: 1200, Points: []r2.Vec{{X: 200}, {X: 600}, {X: 800, Y: 500}, {Y: 500}}})
	for _, c := range []struct {
		name     string
		solid    Solid
		n        r3.Vec
		h, litre float64
	}{
		{"sphere R=1 h=.5", ball(2000), up, 500, 654.498469},
		{"sphere R=1 h=1.5", ball(2000), up, 1500, 3534.291735},
		{"sphere R=.3 h=.1", ball(600), up, 100, 8.377580},
		{"frustum h=.3", frustum(400, 1000, 900), up, 300, 59.690260},
		{"frustum h=.6", frustum(400, 1000, 900), up, 600, 175.929189},
		{"frustum full", frustum(400, 1000, 900), up, 900, 367.566340},
		{"obelisk full", loft(rectangleAt(0, 200, 300, 0, 0), rectangleAt(600, 400, 700, 0, 0)), up, 600, 94},
		{"obelisk h=2", loft(rectangleAt(0, 200, 300, 0, 0), rectangleAt(600, 400, 700, 0, 0)), up, 200, 466. / 27},
		{"trapezoid h=.3", trapezoid, r3.Vec{Y: 1}, 300, 187.2},
		{"pyramid to a point", loft(rectangleAt(0, 300, 300, 0, 0), rectangleAt(600, 0, 0, 150, 20)), up, 600, 18},
		{"wedge to an edge", loft(rectangleAt(0, 300, 300, 0, 0), rectangleAt(600, 300, 0, 0, 0)), up, 600, 27},
	} {
		if got := c.solid.Cut(c.n).Volume(c.h) / 1e6; math.Abs(got-c.litre) > 6e-7 /* the printed digits */ {
			t.Errorf("%s: %.9f L, expected %.9f", c.name, got, c.litre)
		}
	}
}

// TestLoftOfEqualStationsIsThePrism compares a loft with the prism of the same
// section, and a loft between ellipses of many corners, at a tilt, with the
// frustum that it approaches.
func TestLoftOfEqualStationsIsThePrism(t *testing.T) {
	section := []Corner{{U: 0, V: 0}, {U: 300, V: -20}, {U: 340, V: 210}, {U: 150, V: 100}, {U: -30, V: 260}}
	var points []r2.Vec
	for _, c := range section {
		points = append(points, c.vec())
	}
	prism, err := Sweep(section, 500, 0)
	if err != nil {
		t.Fatal(err)
	}
	l, err := NewLoft([]Station{{0, points}, {170, points}, {500, points}})
	if err != nil {
		t.Fatal(err)
	}
	for _, n := range []r3.Vec{up, {Z: -1}, {X: 1}, {Y: -1}, {X: 0.2, Y: 0.9, Z: 0.3}, {X: 0.9, Z: 1e-9}, {X: 1e-7, Z: 1}} {
		lo, hi := prism.Extent(n)
		a, b := prism.Cut(n), l.Cut(n)
		for i := range 41 {
			h := lo + (hi-lo)*float64(i)/40
			if va, vb := a.Volume(h), b.Volume(h); math.Abs(va-vb) > 1e-10*Volume(prism) {
				t.Errorf("n %v, h %g: prism %.12g, loft %.12g", n, h, va, vb)
			}
			ma, mb := a.Moment(h), b.Moment(h)
			if r3.Norm(r3.Sub(ma, mb)) > 1e-9*Volume(prism)*500 {
				t.Errorf("n %v, h %g: moments %v and %v", n, h, ma, mb)
			}
			fa, fb := a.FreeSurface(h), b.FreeSurface(h)
			axis := Beside(n)
			if sa, sb := fa.About(axis, n), fb.About(axis, n); i > 0 && i < 40 && math.Abs(sa-sb) > 1e-6*math.Pow(Volume(prism), 4./3)/r3.Norm(n) {
				t.Errorf("n %v, h %g: second moments %g and %g", n, h, sa, sb)
			}
		}
	}
}

// TestLoftConvergesToTheCone cuts a cone and the pyramids of ever more corners in
// it at a tilt: the difference falls as the square of their number.
func TestLoftConvergesToTheCone(t *testing.T) {
	cone, err := Frustum(400, 250, 700, 0)
	if err != nil {
		t.Fatal(err)
	}
	n := Mount{}.Up(Attitude{NoseUp: 25, LeftUp: 10})
	lo, hi := cone.Extent(n)
	h := lo + 0.4*(hi-lo)
	want := cone.Cut(n).Volume(h)
	before := 0.0
	for _, corners := range []int{24, 48, 96} {
		ring := func(at, radius float64) Station {
			s := Station{At: at}
			for k := range corners {
				sin, cos := math.Sincos(2 * math.Pi * float64(k) / float64(corners))
				s.Points = append(s.Points, r2.Vec{X: radius * cos, Y: radius * sin})
			}
			return s
		}
		l, err := NewLoft([]Station{ring(0, 200), ring(700, 125)})
		if err != nil {
			t.Fatal(err)
		}
		off := want - l.Cut(n).Volume(h)
		if ratio := before / off; before > 0 && (ratio < 3.8 || ratio > 4.2) {
			t.Errorf("%d corners: off by %g, before %g, a ratio of %.3f, expected 4", corners, off, before, ratio)
		}
		before = off
	}
}

// TestLoftAtTheHeightOfCorners: a level that runs along edges of the sides, where
// the section is narrower below than above, has the area just above.
func TestLoftAtTheHeightOfCorners(t *testing.T) {
	points := []r2.Vec{{X: 100}, {X: 500}, {X: 600, Y: 150}, {X: 600, Y: 300}, {Y: 300}, {Y: 150}}
	l, err := NewLoft([]Station{{0, points}, {900, points}})
	if err != nil {
		t.Fatal(err)
	}
	cut := Place(l, Across(X, r3.Vec{})).Cut(up)
	for h, want := range map[float64]float64{0: 900 * 400, 75: 900 * 500, 150: 900 * 600, 299: 900 * 600, 300: 0} {
		if got := cut.Surface(h); math.Abs(got-want) > 1e-6*(want+1) {
			t.Errorf("surface at %g: %g, expected %g", h, got, want)
		}
	}
}

// TestFreeSurfaceOfKnownShapes: a rectangle has b³l/12 about its long midline, a
// disc πr⁴/4 (any handbook of mechanics).
func TestFreeSurfaceOfKnownShapes(t *testing.T) {
	box := must2(Box{Length: 1000, Width: 600, Height: 400}.Solid())
	f := box.Cut(up).FreeSurface(100)
	if got, want := f.About(r3.Vec{X: 1}, up), 1000*math.Pow(600, 3)/12; math.Abs(got-want) > 1e-9*want {
		t.Errorf("box that heels: %g, expected %g", got, want)
	}
	if got, want := f.About(r3.Vec{Y: 1}, up), 600*math.Pow(1000, 3)/12; math.Abs(got-want) > 1e-9*want {
		t.Errorf("box that pitches: %g, expected %g", got, want)
	}
	lying := lying(cylinder(t, Cylinder{Diameter: 500, Length: 1200}))
	if got, want := lying.Cut(up).FreeSurface(0).About(r3.Vec{X: 1}, up), 1200*math.Pow(500, 3)/12; math.Abs(got/want-1) > 1e-9 {
		t.Errorf("cylinder, half full: %g, expected %g", got, want)
	}
	ball := must2(Sphere(500, 0))
	if got, want := ball.Cut(up).FreeSurface(250).About(r3.Vec{X: 1}, up), math.Pi*math.Pow(250, 4)/4; math.Abs(got/want-1) > 1e-12 {
		t.Errorf("sphere, half full: %g, expected %g", got, want)
	}
	// A box pitched by 30 degrees: the surface is a rectangle 1/cos 30° as long.
	n := Mount{}.Up(Attitude{NoseUp: 30})
	h := r3.Dot(n, r3.Vec{X: 500, Y: 300, Z: 350})
	got := box.Cut(n).FreeSurface(h).About(Mount{}.Forward(Attitude{NoseUp: 30}), n)
	// At 50 mm below the roof in the middle, the surface meets it 50/tan 30° ahead.
	length := (500 + 50/math.Tan(math.Pi/6)) / math.Cos(math.Pi/6)
	if want := length * math.Pow(600, 3) / 12; math.Abs(got/want-1) > 1e-9 {
		t.Errorf("pitched box: %g, expected %g", got, want)
	}
}

func must2(s Solid, err error) Solid {
	if err != nil {
		panic(err)
	}
	return s
}

// TestClearanceOfKnownShapes checks distances that can be told without it.
func TestClearanceOfKnownShapes(t *testing.T) {
	box := must2(Box{Length: 400, Width: 300, Height: 200}.Solid())
	capsule := cylinder(t, Cylinder{Diameter: 200, Length: 300, Low: Head{Kind: Hemispherical}, High: Head{Kind: Hemispherical}})
	joined := Composite{Bodies: []Body{
		{Solid: Place(box, Turned(r3.Vec{}, 0, 0, 0))}, {Solid: Place(box, Turned(r3.Vec{X: 400}, 0, 0, 0))},
	}}
	module := Composite{Bodies: []Body{
		{Solid: box}, {Solid: Place(must2(Sphere(50, 0)), Turned(r3.Vec{X: 175, Y: 125, Z: 0}, 0, 0, 0)), Displaces: true},
	}}
	dented := cylinder(t, Cylinder{Diameter: 200, Length: 300, Low: Head{Kind: Spherical, Depth: -40}})
	for _, c := range []struct {
		name string
		s    Solid
		p    r3.Vec
		want float64
	}{
		{"box, middle", box, r3.Vec{X: 200, Y: 150, Z: 100}, 100},
		{"box, outside a corner", box, r3.Vec{X: -3, Y: -4, Z: -12}, 13},
		{"capsule, on the axis", capsule, r3.Vec{Z: 250}, 100},
		{"capsule, in a head", capsule, r3.Vec{X: 30, Z: 60}, 50},
		{"capsule, near the joint of head and shell", capsule, r3.Vec{X: 90, Z: 100}, 10},
		{"inward head", dented, r3.Vec{Z: 60}, 20},
		{"sphere", must2(Sphere(200, 5)), r3.Vec{X: 100, Y: 100, Z: 20}, 15},
		{"ellipsoid, centre", must2(Ellipsoid(400, 300, 200, 0)), r3.Vec{X: 200, Y: 150, Z: 100}, 100},
		{"ellipsoid, long axis", must2(Ellipsoid(400, 300, 200, 0)), r3.Vec{X: 395, Y: 150, Z: 100}, 5},
		{"oval", must2(Oval{Width: 400, Height: 200, Length: 900}.Solid()), r3.Vec{X: 200, Y: 130, Z: 450}, 70},
		{"cone", must2(Frustum(300, 300, 200, 0)), r3.Vec{X: 100, Z: 100}, 50},
		{"two boxes, where they meet", joined, r3.Vec{X: 400, Y: 150, Z: 90}, 90},
		{"two boxes, near where they meet", joined, r3.Vec{X: 390, Y: 150, Z: 110}, 90},
		{"module in a box", module, r3.Vec{X: 200, Y: 150, Z: 90}, 40},
	} {
		if got := c.s.Clearance(c.p); math.Abs(got-c.want) > 1e-4*c.want {
			t.Errorf("%s: %.9g mm, expected %g", c.name, got, c.want)
		}
	}
}

// TestWallsOfShapes: a wall makes the sphere and the cone smaller in parallel.
func TestWallsOfShapes(t *testing.T) {
	for _, c := range []struct {
		name     string
		got      Solid
		want, to float64
	}{
		{"sphere", must2(Sphere(300, 3)), math.Pi / 6 * math.Pow(294, 3), 1e-12},
		{"ellipsoid", must2(Ellipsoid(300, 200, 100, 3)), math.Pi / 6 * 294 * 194 * 94, 1e-12},
		{"tube", must2(Frustum(300, 300, 500, 3)), math.Pi / 4 * 294 * 294 * 494, 1e-12},
		// A cone of a half angle of 45 degrees, outside tip to base 100: inside, the
		// tip comes in by 3√2 and the base by 3.
		{"cone", must2(Frustum(0, 200, 100, 3)), math.Pi / 3 * math.Pow(97-3*math.Sqrt2, 3), 1e-12},
	} {
		if v := Volume(c.got); math.Abs(v/c.want-1) > c.to {
			t.Errorf("%s: %.12g, expected %.12g", c.name, v, c.want)
		}
	}
}

func TestShapesRefuse(t *testing.T) {
	square := rectangleAt(0, 100, 100, 0, 0).Points
	crossed := []r2.Vec{square[0], square[2], square[1], square[3]}
	turnedBack := []r2.Vec{square[3], square[2], square[1], square[0]}
	twisted := []r2.Vec{square[2], square[3], square[0], square[1]}
	for _, c := range []struct {
		name      string
		make      func() (Solid, error)
		dimension string
		words     string
	}{
		{"one station", func() (Solid, error) { return NewLoft([]Station{{0, square}}) }, "stations", "two or more"},
		{"falling", func() (Solid, error) { return NewLoft([]Station{{0, square}, {0, square}}) }, "stations[1].at", "rising"},
		{"counts", func() (Solid, error) { return NewLoft([]Station{{0, square}, {9, square[:3]}}) }, "stations[1].points", "as many"},
		{"crossed", func() (Solid, error) { return NewLoft([]Station{{0, crossed}, {9, square}}) }, "stations[0].points", "touch itself"},
		{"other way", func() (Solid, error) { return NewLoft([]Station{{0, square}, {9, turnedBack}}) }, "stations[1]", "same sense"},
		{"twisted by half a turn", func() (Solid, error) { return NewLoft([]Station{{0, square}, {9, twisted}}) }, "stations[1].points", "crosses itself"},
		{"not finite", func() (Solid, error) { return NewLoft([]Station{{math.NaN(), square}, {9, square}}) }, "stations[0].at", "within"},
		{"cone to nothing", func() (Solid, error) { return Frustum(0, 0, 100, 0) }, "high_diameter", "above 0"},
		{"thick cone", func() (Solid, error) { return Frustum(0, 20, 500, 12) }, "wall", "thinner"},
		{"sphere", func() (Solid, error) { return Sphere(-1, 0) }, "diameter", "above 0"},
		{"falling dip", func() (Solid, error) { return NewDip([]DipRow{{0, 5}, {10, 4}}) }, "table[1]", "rise"},
	} {
		_, err := c.make()
		var d *DimensionError
		if !errors.As(err, &d) || d.Dimension != c.dimension || !strings.Contains(d.Reason, c.words) {
			t.Errorf("%s: %v, expected %s … %s", c.name, err, c.dimension, c.words)
		}
	}
}
