package volume

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"
	"pgregory.net/rapid"

	"floatarc/float"
	"floatarc/geometry"
)

// seen returns the contents of a tank that can be seen at every attitude.
func seen(t interface{ Fatal(...any) }, tank interface {
	At(geometry.Attitude) (*Contents, error)
}, a geometry.Attitude) *Contents {
	c, err := tank.At(a)
	if err != nil {
		t.Fatal(err)
	}
	return c
}

func lyingDrum(t testing.TB) *Tank {
	t.Helper()
	head := geometry.Head{Kind: geometry.Torispherical}
	s, err := geometry.Cylinder{Diameter: 500, Length: 800, Low: head, High: head}.Solid()
	if err != nil {
		t.Fatal(err)
	}
	solid := geometry.Place(s, geometry.Across(geometry.X, r3.Vec{Z: 250}))
	return &Tank{Solid: solid, Full: 0.95 * geometry.Volume(solid) / perLitre, Pickup: DrawPoint{X: 400, Z: 10}}
}

func boxTank(t testing.TB, length, width, height float64) *Tank {
	t.Helper()
	s, err := geometry.Box{Length: length, Width: width, Height: height}.Solid()
	if err != nil {
		t.Fatal(err)
	}
	return &Tank{Solid: s, Full: length * width * height / perLitre}
}

func arm(t testing.TB, a float.Arm) *float.Arm {
	t.Helper()
	track, err := float.NewLines([][2]float64{{a.Low, 240}, {a.High, 33}})
	if err != nil {
		t.Fatal(err)
	}
	out, err := float.NewArm(a, track)
	if err != nil {
		t.Fatal(err)
	}
	return out
}

func TestLevelsComeBack(t *testing.T) {
	drum := lyingDrum(t)
	capacity := drum.Capacity()
	rapid.Check(t, func(t *rapid.T) {
		tilt := rapid.Float64Range(-60, 60)
		c := seen(t, drum, geometry.Attitude{NoseUp: tilt.Draw(t, "nose"), LeftUp: tilt.Draw(t, "left")})
		litres := capacity * rapid.Float64Range(0, 1).Draw(t, "share")
		if got := c.Litres(c.Level(litres)); math.Abs(got-litres) > 1e-12*capacity {
			t.Fatalf("%.15g L comes back as %.15g", litres, got)
		}
	})
}

// TestHandbookInverse reads the handbook table of horizontal cylinders (Perry,
// sec. 10, from memory) backwards: a share of the capacity to a depth.
func TestHandbookInverse(t *testing.T) {
	s, err := geometry.Cylinder{Diameter: 1000, Length: 3000}.Solid()
	if err != nil {
		t.Fatal(err)
	}
	tank := &Tank{Solid: geometry.Place(s, geometry.Across(geometry.X, r3.Vec{Z: 500}))}
	c := seen(t, tank, geometry.Attitude{})
	for depth, share := range map[float64]float64{0.05: .01869, 0.1: .05204, 0.2: .14238, 0.35: .31192, 0.5: .5, 0.9: 1 - .05204} {
		got := c.Level(share*tank.Capacity()) / 1000
		if math.Abs(got-depth) > 2e-5 { // the share is printed to 5 decimals
			t.Errorf("share %g lies at %g of the diameter, table %g", share, got, depth)
		}
	}
}

// TestArmInABox checks the arm by the closed form of a box: litres = area times
// height, height = that of the pivot plus arm times sine.
func TestArmInABox(t *testing.T) {
	tank := boxTank(t, 600, 300, 250)
	a := arm(t, float.Arm{Pivot: r3.Vec{X: 250, Y: 150, Z: 150}, Length: 200, Low: -40, High: 25})
	r, ok := Relate(seen(t, tank, geometry.Attitude{}), a, -40, 25, tank.Full)
	if !ok {
		t.Fatal("the arm follows the fuel nowhere")
	}
	for _, angle := range []float64{-40, -17.3, 0, 12, 25} {
		want := 600 * 300 * (150 + 200*math.Sin(angle*math.Pi/180)) / 1e6
		if got := r.Litres(angle); math.Abs(got-want) > 1e-12*want {
			t.Errorf("%g°: %.15g L, expected %.15g", angle, got, want)
		}
		if got := r.Travel(want); math.Abs(got-angle) > 1e-9 {
			t.Errorf("%.6g L: %.12g°, expected %g°", want, got, angle)
		}
	}
	low, high := r.Live()
	if r.Travel(low-1) != -40 || r.Travel(high+1) != 25 {
		t.Error("the arm does not rest on its stops in the blind bands")
	}
	// Nose up by a the surface meets the front wall deeper: with the whole
	// floor and no part of the roof wetted, the volume is area times the
	// height of the surface at the middle of the floor.
	const noseUp = 8
	r, _ = Relate(seen(t, tank, geometry.Attitude{NoseUp: noseUp}), a, -40, 25, tank.Full)
	centre := a.Centre(0)
	want := 600 * 300 * (centre.Z + (centre.X-300)*math.Tan(noseUp*math.Pi/180)) / 1e6
	if got := r.Litres(0); math.Abs(got-want) > 1e-12*want {
		t.Errorf("nose up %g°: %.15g L, expected %.15g", float64(noseUp), got, want)
	}
}

// TestUnusable checks fuel below a pickup in a box by hand: level, a slab; nose
// up so that the floor is dry in front, a wedge W d²/(2 tan a).
func TestUnusable(t *testing.T) {
	tank := boxTank(t, 600, 300, 250)
	tank.Pickup = DrawPoint{X: 500, Y: 150, Z: 10}
	if got := seen(t, tank, geometry.Attitude{}).Unusable; math.Abs(got-1.8) > 1e-12 {
		t.Errorf("level: %.15g L, expected 1.8", got)
	}
	// Nose down the fuel runs to the pickup's end.
	tan := math.Tan(20 * math.Pi / 180)
	d := 10 + (600-500)*tan // depth at the front wall
	want := 300 * d * d / (2 * tan) / 1e6
	if got := seen(t, tank, geometry.Attitude{NoseUp: -20}).Unusable; math.Abs(got-want) > 1e-12 {
		t.Errorf("nose down: %.15g L, expected %.15g", got, want)
	}
	tank.Pickup = Measured(2.5)
	if got := seen(t, tank, geometry.Attitude{}).Unusable; got != 2.5 {
		t.Errorf("measured: %g L, expected 2.5", got)
	}
	if got := seen(t, tank, geometry.Attitude{NoseUp: 5}).Unusable; !math.IsNaN(got) {
		t.Errorf("measured, on a slope: %g L, expected not to know", got)
	}
}

// TestMirrorImage turns a tank and its arm left for right: the litres must be
// those of the mirrored attitude.
func TestMirrorImage(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		corners := []geometry.Corner{{U: 0, V: 0}, {U: 700, V: 60}, {U: 650, V: 260, Fillet: 20}, {U: 100, V: 300}}
		solid := func(side float64) geometry.Solid {
			mirrored := make([]geometry.Corner, len(corners))
			for i, c := range corners {
				mirrored[i] = geometry.Corner{U: side * c.U, V: c.V, Fillet: c.Fillet}
			}
			s, err := geometry.Sweep(mirrored, 500, 0)
			if err != nil {
				t.Fatal(err)
			}
			return geometry.Place(s, geometry.Across(geometry.X, r3.Vec{}))
		}
		tilt := rapid.Float64Range(-25, 25)
		nose, left := tilt.Draw(t, "nose"), tilt.Draw(t, "left")
		heading := rapid.Float64Range(-180, 180).Draw(t, "heading")
		angle := rapid.Float64Range(-60, 40).Draw(t, "angle")
		litres := func(side float64) float64 {
			tank := &Tank{Solid: solid(side), Full: 100}
			track, err := float.NewLines([][2]float64{{-70, 1}, {50, 2}})
			if err != nil {
				t.Fatal(err)
			}
			a, err := float.NewArm(float.Arm{Pivot: r3.Vec{X: 200, Y: side * 350, Z: 160}, Length: 130, Heading: side * heading, Low: -70, High: 50}, track)
			if err != nil {
				t.Fatal(err)
			}
			c := seen(t, tank, geometry.Attitude{NoseUp: nose, LeftUp: side * left})
			return c.Litres(a.In(c.Up).Level(angle))
		}
		if a, b := litres(1), litres(-1); math.Abs(a-b) > 1e-9 {
			t.Fatalf("%.12g L, mirrored %.12g L", a, b)
		}
	})
}

func BenchmarkLevel(b *testing.B) {
	drum := lyingDrum(b)
	c := seen(b, drum, geometry.Attitude{NoseUp: 7, LeftUp: 4})
	capacity := drum.Capacity()
	sum := 0.0
	for i := 0; b.Loop(); i++ {
		sum += c.Level(capacity * float64(i%99+1) / 100)
	}
	_ = sum
}
