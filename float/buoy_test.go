package float

import (
	"encoding/json"
	"math"
	"os"
	"strings"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"
	"pgregory.net/rapid"

	"floatarc/geometry"
)

// TestTorqueBalance compares the level that holds an arm with that from the
// torque balance about the axle, solved by a general-purpose root finder
// (testdata/waterlines.json, made by waterlines.py beside it).
func TestTorqueBalance(t *testing.T) {
	var reference struct {
		Cases []struct {
			Shape                       string
			Diameter, Length, Mass, Arm float64
			ArmMass                     float64 `json:"arm_mass"`
			Friction, Density, Angle    float64
			NoseUp                      float64 `json:"nose_up"`
			LeftUp                      float64 `json:"left_up"`
			Sense                       int
			Level                       float64
		}
	}
	text, err := os.ReadFile("testdata/waterlines.json")
	if err != nil {
		t.Fatal(err)
	}
	if err := json.Unmarshal(text, &reference); err != nil || len(reference.Cases) < 50 {
		t.Fatal(err)
	}
	worst := 0.0
	for _, c := range reference.Cases {
		b := &Buoy{Shape: Sphere{c.Diameter}, Load: c.Mass + c.ArmMass/2, Drag: c.Friction, Density: c.Density}
		if c.Shape == "cylinder" {
			b.Shape = Cylinder{c.Diameter, c.Length}
		}
		a := newArm(t, Arm{Length: c.Arm, Low: -60, High: 30, Buoy: b}).On(Sense(c.Sense))
		n := geometry.Mount{}.Up(geometry.Attitude{NoseUp: c.NoseUp, LeftUp: c.LeftUp})
		got := a.In(n).Level(c.Angle)
		worst = math.Max(worst, math.Abs(got-c.Level))
		if !(math.Abs(got-c.Level) <= 1e-8) {
			t.Errorf("%+v: level %.12g", c, got)
		}
	}
	t.Logf("worst of %d: %.2g mm", len(reference.Cases), worst)
}

// TestArchimedes: a ball of half the fuel's density floats at its centre, and so
// does a cylinder; 5/32 of a ball's volume lie below a quarter of its height, and
// of a lying cylinder the share that the handbooks give for H/D = 0.25, 0.19550
// (Perry's Chemical Engineers' Handbook, sec. 10, table of partially filled
// horizontal cylinders, from memory).
func TestArchimedes(t *testing.T) {
	up, axle := r3.Vec{Z: 1}, r3.Vec{Y: 1}
	ball, roll := Sphere{50}, Cylinder{50, 80}
	for _, c := range []struct {
		name  string
		shape Shape
		share float64
		want  float64
		to    float64
	}{
		{"ball, half", ball, 0.5, 0, 1e-9}, {"ball, a quarter of its height", ball, 5. / 32, -12.5, 1e-9},
		{"cylinder, half", roll, 0.5, 0, 1e-9}, {"cylinder, a quarter of its height", roll, 0.19550, -12.5, 1e-3},
		{"upright, a third", Upright{900, 30}, 1. / 3, -5, 1e-12},
	} {
		if got, _ := c.shape.Afloat(up, axle)(c.share * c.shape.Volume()); math.Abs(got-c.want) > c.to {
			t.Errorf("%s: waterline %.9g mm over the centre, expected %g", c.name, got, c.want)
		}
	}
	for name, c := range map[string]struct {
		shape        Shape
		draft, share float64
	}{"ball": {ball, 12.5, 5. / 32}, "cylinder": {roll, 25, 0.5}, "upright": {Upright{900, 30}, 10, 1. / 3}} {
		if got := c.shape.Immersed(c.draft) / c.shape.Volume(); math.Abs(got-c.share) > 1e-12 {
			t.Errorf("%s, %g mm deep: %g of it immersed, expected %g", name, c.draft, got, c.share)
		}
	}
}

func TestFloatsThatCannotFloat(t *testing.T) {
	ohms := track(t, [2]float64{-40, 240}, [2]float64{10, 33})
	arm := Arm{Length: 200, Low: -40, High: 10}
	heavy := arm
	heavy.Buoy = &Buoy{Shape: Sphere{30}, Load: 12, Density: 745} // it carries 10.5 g
	if _, err := NewArm(heavy, ohms); err == nil || !strings.Contains(err.Error(), "the float sinks: it and half the arm weigh 12 g, but wholly under it carries 10.53 g") {
		t.Errorf("%v", err)
	}
	// Friction of more than the float can lift: on rising fuel it never moves.
	stuck := arm
	stuck.Buoy = &Buoy{Shape: Sphere{30}, Load: 10, Drag: 5, Density: 745}
	a, err := NewArm(stuck, ohms)
	if err != nil {
		t.Fatal(err)
	}
	if from, to := a.On(Rising).In(r3.Vec{Z: 1}).Follows(-40, 10); from < to {
		t.Errorf("follows from %g° to %g°, expected nowhere", from, to)
	}
	if from, to := a.On(Mean).In(r3.Vec{Z: 1}).Follows(-40, 10); from != -40 || to != 10 {
		t.Errorf("on the mean it follows from %g° to %g°", from, to)
	}
}

// TestWhereFrictionHolds: with a lever shorter than T/(g·spare) the float is too
// weak; at exactly that angle the arm is held.
func TestWhereFrictionHolds(t *testing.T) {
	b := &Buoy{Shape: Sphere{40}, Load: 12, Drag: 6, Density: 745}
	a := newArm(t, Arm{Length: 200, Low: -89, High: 60, Buoy: b})
	spare := b.carries(b.Shape.Volume()) - b.Load
	least := math.Acos(1000*6/(geometry.Gravity*spare)/200) * 180 / math.Pi
	from, to := a.On(Rising).In(r3.Vec{Z: 1}).Follows(-89, 60)
	if from < -least || to > 60 {
		t.Errorf("rising: follows from %g° to %g°, expected from no lower than %g°", from, to, -least)
	}
	held := math.Acos(1000*6/(geometry.Gravity*12)/200) * 180 / math.Pi
	from, to = a.On(Falling).In(r3.Vec{Z: 1}).Follows(-89, 60)
	if math.Abs(from+held) > 1e-5 || to != 60 {
		t.Errorf("falling: follows from %g° to %g°, expected from %g°", from, to, -held)
	}
}

func drawBuoy(t *rapid.T) *Buoy {
	d := rapid.Float64Range(25, 80).Draw(t, "diameter")
	b := &Buoy{Density: rapid.Float64Range(700, 1000).Draw(t, "density")}
	switch rapid.IntRange(0, 2).Draw(t, "shape") {
	case 0:
		b.Shape = Sphere{d}
	case 1:
		b.Shape = Cylinder{d, rapid.Float64Range(20, 90).Draw(t, "length")}
	default:
		b.Shape = Upright{d * d, rapid.Float64Range(15, 60).Draw(t, "height")}
	}
	b.Load = b.carries(b.Shape.Volume()) * rapid.Float64Range(0.1, 0.8).Draw(t, "load")
	return b
}

// TestRisingNeverReadsHigherThanFalling: at one level the arm stands lower on
// rising fuel than on the mean, and there lower than on falling fuel; without
// friction the three are one.
func TestRisingNeverReadsHigherThanFalling(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := drawBuoy(t)
		b.Drag = b.Load * geometry.Gravity / 1000 * 200 * rapid.Float64Range(0, 0.3).Draw(t, "friction")
		a := newArm2(t, Arm{Length: 200, Heading: rapid.Float64Range(-180, 180).Draw(t, "heading"), Low: -50, High: 30, Buoy: b})
		tilt := rapid.Float64Range(-15, 15)
		n := geometry.Mount{}.Up(geometry.Attitude{NoseUp: tilt.Draw(t, "nose"), LeftUp: tilt.Draw(t, "left")})
		angle := rapid.Float64Range(-50, 30).Draw(t, "angle")
		rising, mean, falling := a.On(Rising).In(n).Level(angle), a.In(n).Level(angle), a.On(Falling).In(n).Level(angle)
		if math.IsNaN(rising) || math.IsNaN(falling) {
			return // held
		}
		// The level that holds one angle: higher on rising fuel.
		if rising < mean-1e-9 || falling > mean+1e-9 {
			t.Fatalf("levels %g rising, %g mean, %g falling", rising, mean, falling)
		}
		if b.Drag == 0 && (rising != mean || falling != mean) {
			t.Fatalf("no friction, but levels %g, %g, %g", rising, mean, falling)
		}
	})
}

// newArm2 is newArm for rapid's own kind of test.
func newArm2(t *rapid.T, a Arm) *Arm {
	lines, err := NewLines([][2]float64{{a.Low, 240}, {a.High, 33}})
	if err != nil {
		t.Fatal(err)
	}
	arm, err := NewArm(a, lines)
	if err != nil {
		t.Fatal(err)
	}
	return arm
}

// TestFollowedLevelsRise: between the ends that Follows gives, the level rises
// with the angle, on every way of the fuel.
func TestFollowedLevelsRise(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := drawBuoy(t)
		b.Drag = b.Load * geometry.Gravity / 1000 * 200 * rapid.Float64Range(0, 1.2).Draw(t, "friction")
		a := newArm2(t, Arm{Length: 200, Low: -100, High: 95, Buoy: b}).On(Sense(rapid.IntRange(-1, 1).Draw(t, "sense")))
		n := geometry.Mount{}.Up(geometry.Attitude{NoseUp: rapid.Float64Range(-20, 20).Draw(t, "nose")})
		path := a.In(n)
		from, to := path.Follows(-100, 95)
		before := math.Inf(-1)
		for i := 0; i <= 200 && from < to; i++ {
			h := path.Level(from + (to-from)*float64(i)/200)
			if !(h >= before-1e-9) {
				t.Fatalf("level %g after %g, from %g° to %g°", h, before, from, to)
			}
			before = h
		}
	})
}

// TestNoSizeIsTheRigidArm: a float of no size and no weight rides on the surface
// with its centre, and mirror images give mirror images.
func TestNoSizeIsTheRigidArm(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		tilt := rapid.Float64Range(-20, 20)
		nose, left := tilt.Draw(t, "nose"), tilt.Draw(t, "left")
		heading, angle := rapid.Float64Range(-180, 180).Draw(t, "heading"), rapid.Float64Range(-50, 20).Draw(t, "angle")
		n := geometry.Mount{}.Up(geometry.Attitude{NoseUp: nose, LeftUp: left})
		rigid := Arm{Pivot: r3.Vec{X: 5, Y: 7, Z: 9}, Length: 200, Heading: heading, Low: -60, High: 30}
		tiny := rigid
		tiny.Buoy = &Buoy{Shape: Sphere{1e-3}, Load: 1e-13, Density: 745}
		a, b := newArm2(t, rigid).In(n).Level(angle), newArm2(t, tiny).In(n).Level(angle)
		if math.Abs(a-b) > 1e-3 {
			t.Fatalf("levels %g and %g", a, b)
		}
		mirror := rigid
		mirror.Pivot.Y, mirror.Heading, mirror.Offset = -7, -heading, -30
		mirror.Buoy = &Buoy{Shape: Cylinder{40, 60}, Load: 20, Drag: 2, Density: 800}
		same := mirror
		same.Pivot.Y, same.Heading, same.Offset = 7, heading, 30
		m := geometry.Mount{}.Up(geometry.Attitude{NoseUp: nose, LeftUp: -left})
		for _, sense := range []Sense{Falling, Mean, Rising} {
			a, b := newArm2(t, same).On(sense).In(n).Level(angle), newArm2(t, mirror).On(sense).In(m).Level(angle)
			if math.Abs(a-b) > 1e-9 {
				t.Fatalf("sense %d: levels %g and, mirrored, %g", sense, a, b)
			}
		}
	})
}

// TestSwingOfAFloat checks where a float of a size meets floor, roof, front, side
// and a pump module, by sines and cosines.
func TestSwingOfAFloat(t *testing.T) {
	tank := box(t, 400, 200, 150)
	degrees := func(rad float64) float64 { return rad * 180 / math.Pi }
	ball := &Buoy{Shape: Sphere{40}, Load: 10, Density: 745}
	roll := &Buoy{Shape: Cylinder{40, 60}, Load: 10, Density: 745}
	disc := &Buoy{Shape: Upright{math.Pi * 25 * 25, 30}, Load: 10, Density: 745}
	module := tank
	post, err := geometry.Box{Length: 50, Width: 50, Height: 150}.Solid()
	if err != nil {
		t.Fatal(err)
	}
	module.Bodies = append(module.Bodies, geometry.Body{Name: "pump", Solid: geometry.Place(post, geometry.Turned(r3.Vec{X: 230, Y: 75}, 0, 0, 0)), Displaces: true})
	for _, c := range []struct {
		name      string
		tank      geometry.Composite
		arm       Arm
		low, high float64
		side      string
	}{
		{"ball, floor and roof", tank, Arm{Pivot: r3.Vec{X: 50, Y: 100, Z: 100}, Length: 120, Low: -80, High: 60, Buoy: ball}, -degrees(math.Asin(80. / 120)), degrees(math.Asin(30. / 120)), "floor"},
		{"cylinder, floor and roof", tank, Arm{Pivot: r3.Vec{X: 50, Y: 100, Z: 100}, Length: 120, Low: -80, High: 60, Buoy: roll}, -degrees(math.Asin(80. / 120)), degrees(math.Asin(30. / 120)), "floor"},
		{"upright, floor and roof", tank, Arm{Pivot: r3.Vec{X: 50, Y: 100, Z: 100}, Length: 120, Low: -80, High: 60, Buoy: disc}, -degrees(math.Asin(85. / 120)), degrees(math.Asin(35. / 120)), "floor"},
		{"ball, front", tank, Arm{Pivot: r3.Vec{X: 300, Y: 100, Z: 110}, Length: 90, Low: -88, High: -20, Buoy: ball}, -88, -degrees(math.Acos(80. / 90)), ""},
		{"ball, pump", module, Arm{Pivot: r3.Vec{X: 100, Y: 100, Z: 110}, Length: 115, Low: -48, High: -5, Buoy: ball}, -48, -degrees(math.Acos(110. / 115)), ""},
		{"ball, left side", tank, Arm{Pivot: r3.Vec{X: 200, Y: 100, Z: 110}, Length: 90, Heading: 90, Low: -60, High: -10, Buoy: ball}, -60, -degrees(math.Acos(80. / 90)), ""},
	} {
		a := newArm(t, c.arm)
		s, err := a.Swing(c.tank)
		if err != nil {
			t.Errorf("%s: %v", c.name, err)
			continue
		}
		if math.Abs(s.Low-c.low) > 1e-3 || math.Abs(s.High-c.high) > 1e-3 {
			t.Errorf("%s: %g° to %g°, expected %g° to %g°", c.name, s.Low, s.High, c.low, c.high)
		}
		if c.side != "" {
			if _, side := c.tank.WallAt(s.MetLow.At, s.MetLow.From); side != c.side {
				t.Errorf("%s: meets the %s, expected the %s", c.name, side, c.side)
			}
			if _, side := c.tank.WallAt(s.MetHigh.At, s.MetHigh.From); side != "roof" {
				t.Errorf("%s: meets the %s, expected the roof", c.name, side)
			}
		}
	}
}

func TestRods(t *testing.T) {
	up := r3.Vec{Z: 1}
	straight := func(length float64) (Track, error) { return NewLines([][2]float64{{0, 10}, {length, 180}}) }
	stem, err := NewRod(Rod{Foot: r3.Vec{Z: 20}, Head: r3.Vec{Z: 230}, Stem: true, Buoy: &Buoy{Shape: Upright{1500, 30}, Load: 12, Density: 800}}, straight)
	if err != nil {
		t.Fatal(err)
	}
	// 12 g displace 15000 mm³, 10 mm of the float: 5 mm below its centre.
	if got := stem.In(up).Level(100); math.Abs(got-115) > 1e-12 {
		t.Errorf("stem: level %g, expected 115", got)
	}
	probe, err := NewRod(Rod{Foot: r3.Vec{Z: 10}, Head: r3.Vec{X: 30, Z: 50}}, straight)
	if err != nil {
		t.Fatal(err)
	}
	if _, to := probe.Stops(); to != 50 || probe.In(up).Level(25) != 30 {
		t.Errorf("leaning probe: %g mm long, level %g half way", to, probe.In(up).Level(25))
	}
	if from, to := probe.In(r3.Vec{Z: -1}).Follows(0, 50); from < to {
		t.Errorf("upside down it follows from %g to %g", from, to)
	}
}

// TestContacts: of the contacts at or below the float the nearest counts.
func TestContacts(t *testing.T) {
	c, err := NewContacts(210, 12, 240, 30) // 18 contacts, numbers 0 to 17
	if err != nil {
		t.Fatal(err)
	}
	step := 210. / 17
	for travel, want := range map[float64]float64{0: 240, 11.9: 240, 12: 240 - step, 23.999: 240 - step, 24: 240 - 2*step, 204: 30, 210: 30} {
		if got := c.Ohms(travel); math.Abs(got-want) > 1e-9 {
			t.Errorf("at %g mm: %g ohm, expected %g", travel, got, want)
		}
	}
	for k := range 18 {
		if got := c.Travel(240 - step*float64(k)); math.Abs(got-12*float64(k)) > 1e-9 {
			t.Errorf("contact %d at %g mm", k, got)
		}
	}
	if n := len(c.Knots(0, 210)); n != 34 {
		t.Errorf("%d knots, expected two at each of 17 contacts", n)
	}
	for _, bad := range [][2]float64{{210, 0}, {10, 12}, {210, -3}} {
		if _, err := NewContacts(bad[0], bad[1], 1, 2); err == nil {
			t.Errorf("contacts %g apart over %g mm are taken", bad[1], bad[0])
		}
	}
}

// TestCylinderOnAnUprightStem lies along the stem.
func TestCylinderOnAnUprightStem(t *testing.T) {
	stem, err := NewRod(Rod{Foot: r3.Vec{Z: 40}, Head: r3.Vec{Z: 260}, Stem: true, Buoy: &Buoy{Shape: Cylinder{40, 30}, Load: 15, Density: 745}},
		func(length float64) (Track, error) { return NewLines([][2]float64{{0, 240}, {length, 33}}) })
	if err != nil {
		t.Fatal(err)
	}
	want := 140 + 15/745e-6/(math.Pi*400) - 15
	if got := stem.In(r3.Vec{Z: 1}).Level(100); math.Abs(got-want) > 1e-9 {
		t.Errorf("level %g, expected %g", got, want)
	}
}

// TestThinPipesAreMet: a pipe between the points of a coarse skin stops the float
// too, and is named.
func TestThinPipesAreMet(t *testing.T) {
	tank := box(t, 600, 400, 300)
	pipe, err := geometry.Cylinder{Diameter: 8, Length: 300}.Solid()
	if err != nil {
		t.Fatal(err)
	}
	tank.Bodies = append(tank.Bodies, geometry.Body{Name: "dip tube", Solid: geometry.Place(pipe, geometry.Turned(r3.Vec{X: 440, Y: 221}, 0, 0, 0)), Displaces: true})
	for _, shape := range []Shape{Cylinder{30, 80}, Sphere{60}, Upright{math.Pi * 900, 40}} {
		a := newArm(t, Arm{Pivot: r3.Vec{X: 300, Y: 200, Z: 250}, Length: 200, Low: -60, High: 5, Buoy: &Buoy{Shape: shape, Load: 10, Density: 745}})
		s, err := a.Swing(tank)
		if err != nil {
			t.Fatal(err)
		}
		// The float clears the pipe while its centre is far enough ahead of it.
		clear := func(degrees float64) bool {
			ahead := 300 + 200*math.Cos(degrees*math.Pi/180) - 440
			switch shape := shape.(type) {
			case Cylinder:
				return ahead > shape.Diameter/2+4
			case Sphere: // about a pipe that stands 21 mm aside
				return math.Hypot(ahead, 21) > shape.Diameter/2+4
			}
			return math.Hypot(ahead, 21) > 30+4
		}
		want := geometry.LastInside(clear, 5, -60)
		if math.Abs(s.Low-want) > 0.1 || s.MetLow == nil {
			t.Errorf("%T: from %g°, expected %g°", shape, s.Low, want)
			continue
		}
		if name, side := tank.WallAt(s.MetLow.At, s.MetLow.From); name != "dip tube" || side != "" {
			t.Errorf("%T: meets %s %s", shape, name, side)
		}
	}
}
