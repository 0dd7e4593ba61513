package float

import (
	"math"
	"strings"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"
	"pgregory.net/rapid"

	"floatarc/geometry"
)

func track(t testing.TB, points ...[2]float64) *Lines {
	t.Helper()
	tr, err := NewLines(points)
	if err != nil {
		t.Fatal(err)
	}
	return tr
}

func newArm(t testing.TB, a Arm) *Arm {
	t.Helper()
	arm, err := NewArm(a, track(t, [2]float64{a.Low, 240}, [2]float64{a.High, 33}))
	if err != nil {
		t.Fatal(err)
	}
	return arm
}

func TestCentre(t *testing.T) {
	pivot := r3.Vec{X: 10, Y: 20, Z: 30}
	for _, c := range []struct {
		heading, angle float64
		want           r3.Vec
	}{
		{0, 0, r3.Vec{X: 210, Y: 20, Z: 30}},
		{90, 0, r3.Vec{X: 10, Y: 220, Z: 30}},
		{180, 0, r3.Vec{X: -190, Y: 20, Z: 30}},
		{-90, 0, r3.Vec{X: 10, Y: -180, Z: 30}},
		{0, -90, r3.Vec{X: 10, Y: 20, Z: -170}},
		{0, -30, r3.Vec{X: 10 + 200*math.Sqrt(3)/2, Y: 20, Z: -70}},
	} {
		a := newArm(t, Arm{Pivot: pivot, Length: 200, Heading: c.heading, Low: -95, High: 5})
		if got := a.Centre(c.angle); r3.Norm(r3.Sub(got, c.want)) > 1e-12*200 {
			t.Errorf("heading %g°, arm at %g°: %v, expected %v", c.heading, c.angle, got, c.want)
		}
	}
}

// TestRising checks the rigid arm on a slope: nose up by a, an arm that points
// forward hangs straight down at -90° - a in the tank.
func TestRising(t *testing.T) {
	a := newArm(t, Arm{Length: 200, Low: -120, High: 40})
	for _, noseUp := range []float64{0, 10, -15} {
		n := geometry.Mount{}.Up(geometry.Attitude{NoseUp: noseUp})
		from, to := a.In(n).Follows(-120, 40)
		if math.Abs(from-(-90-noseUp)) > 1e-12 || to != 40 {
			t.Errorf("nose up %g°: rises from %g° to %g°", noseUp, from, to)
		}
	}
	if from, to := a.In(r3.Vec{Z: 1}).Follows(-80, 40); from != -80 || to != 40 {
		t.Errorf("rises from %g° to %g°, expected the whole swing", from, to)
	}
}

func TestRisingIsWhereTheLevelRises(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		angle := rapid.Float64Range(-170, 170)
		low := angle.Draw(t, "low")
		a, err := NewArm(Arm{Length: 100, Heading: angle.Draw(t, "heading"), Low: low, High: low + rapid.Float64Range(1, 180).Draw(t, "swing")},
			&Lines{travel: []float64{-999, 999}})
		if err != nil {
			t.Fatal(err)
		}
		tilt := rapid.Float64Range(-40, 40)
		n := geometry.Mount{}.Up(geometry.Attitude{NoseUp: tilt.Draw(t, "nose"), LeftUp: tilt.Draw(t, "left")})
		from, to := a.In(n).Follows(a.Low, a.High)
		rising := 0
		const steps = 400
		for i := range steps {
			t0 := a.Low + (a.High-a.Low)*float64(i)/steps
			t1 := a.Low + (a.High-a.Low)*float64(i+1)/steps
			up := a.In(n).Level(t1) > a.In(n).Level(t0)
			if up {
				rising++
			}
			if t0 >= from && t1 <= to && !up {
				t.Fatalf("the level falls from %g° to %g°, within %g° to %g°", t0, t1, from, to)
			}
		}
		// The longest rising stretch is at least half of all that rises: a
		// swing of half a turn has at most two.
		if to > from && (to-from)/(a.High-a.Low)*steps < float64(rising)/2-2 {
			t.Fatalf("rises over %d of %d steps, but the stretch is %g° to %g°", rising, steps, from, to)
		}
	})
}

func box(t testing.TB, length, width, height float64) geometry.Composite {
	t.Helper()
	s, err := geometry.Box{Length: length, Width: width, Height: height}.Solid()
	if err != nil {
		t.Fatal(err)
	}
	return geometry.Composite{Bodies: []geometry.Body{{Solid: s}}}
}

// TestSwing checks where the float centre meets floor, roof, wall and pump
// module, by the sine and cosine of the angle.
func TestSwing(t *testing.T) {
	tank := box(t, 400, 200, 150)
	degrees := func(rad float64) float64 { return rad * 180 / math.Pi }
	for _, c := range []struct {
		name      string
		arm       Arm
		low, high float64
	}{
		{"free", Arm{Pivot: r3.Vec{X: 50, Y: 100, Z: 100}, Length: 120, Low: -40, High: 20}, -40, 20},
		{"floor and roof", Arm{Pivot: r3.Vec{X: 50, Y: 100, Z: 100}, Length: 120, Low: -80, High: 60},
			-degrees(math.Asin(100. / 120)), degrees(math.Asin(50. / 120))},
		{"front wall", Arm{Pivot: r3.Vec{X: 350, Y: 100, Z: 100}, Length: 100, Low: -80, High: 20}, -80, -degrees(math.Acos(50. / 100))},
		{"rests on the floor", Arm{Pivot: r3.Vec{X: 50, Y: 100, Z: 60}, Length: 120, Low: -30, High: 20}, -30, 20},
	} {
		s, err := newArm(t, c.arm).Swing(tank)
		if err != nil {
			t.Errorf("%s: %v", c.name, err)
			continue
		}
		// Containment has a slack of a billionth of the tank's size.
		if math.Abs(s.Low-c.low) > 1e-5 || math.Abs(s.High-c.high) > 1e-5 {
			t.Errorf("%s: %g° to %g°, expected %g° to %g°", c.name, s.Low, s.High, c.low, c.high)
		}
		if (s.MetLow == nil) != (c.low == c.arm.Low) || (s.MetHigh == nil) != (c.high == c.arm.High) {
			t.Errorf("%s: walls at %v and %v", c.name, s.MetLow, s.MetHigh)
		}
	}
	outside := newArm(t, Arm{Pivot: r3.Vec{X: 50, Y: 100, Z: 100}, Length: 120, Low: 80, High: 100})
	if _, err := outside.Swing(tank); err == nil || !strings.Contains(err.Error(), "inside the tank at no angle") {
		t.Errorf("an arm outside the tank: %v", err)
	}
}

func TestTrackRefusals(t *testing.T) {
	for _, c := range []struct {
		points [][2]float64
		says   string
	}{
		{[][2]float64{{0, 1}}, "expected 2 or more"},
		{[][2]float64{{0, 10}, {0, 20}}, "expected a rising order"},
		{[][2]float64{{0, 10}, {5, 20}, {10, 15}}, "expected ohms that all rise or all fall"},
		{[][2]float64{{0, 10}, {5, 10}}, "expected ohms that all rise or all fall"},
	} {
		if _, err := NewLines(c.points); err == nil || !strings.Contains(err.Error(), c.says) {
			t.Errorf("%v: %v, expected a word of %q", c.points, err, c.says)
		}
	}
}

func TestTrackComesBack(t *testing.T) {
	tr := track(t, [2]float64{-48, 240}, [2]float64{-20, 140}, [2]float64{8, 33})
	for angle, want := range map[float64]float64{-60: 240, -48: 240, -34: 190, -20: 140, -6: 86.5, 8: 33, 20: 33} {
		if got := tr.Ohms(angle); math.Abs(got-want) > 1e-12 {
			t.Errorf("%g°: %g ohm, expected %g", angle, got, want)
		}
		if angle >= -48 && angle <= 8 {
			if got := tr.Travel(want); math.Abs(got-angle) > 1e-12 {
				t.Errorf("%g ohm: %g°, expected %g°", want, got, angle)
			}
		}
	}
}
