package calibration_test

import (
	"math"
	"testing"

	"floatarc/calibration"
	"floatarc/float"
	"floatarc/gauge"
	"floatarc/tanks"
	"floatarc/volume"
)

// TestInfluencesInABox compares with the closed forms of the box: a millimetre of
// pivot or draught is 0.12 L, a millimetre of arm 0.12 L times the sine of the
// angle, an ohm of earth the angle of an ohm, a degree of nose up the rise of the
// float over the middle of the surface.
func TestInfluencesInABox(t *testing.T) {
	r := load(t, tanks.Demo, box...)
	half := (boxEmpty + boxFull) / 2
	sin := (half/0.12 - 150) / 200
	cos := math.Sqrt(1 - sin*sin)
	perDegree := 0.12 * 200 * cos * math.Pi / 180
	got := map[string]calibration.Influence{}
	for _, i := range r.Influences() {
		got[i.Of] = i
	}
	for _, c := range []struct {
		of       string
		want, to float64
	}{
		{"pivot", 0.12, 1e-6}, {"draught", 0.12, 1e-6}, {"arm", 0.12 * sin, 1e-6},
		{"earth", perDegree * 70 / 180, 0.01 * perDegree},
		// Nose up turns the surface about the tank's middle, 300 mm ahead of
		// the rear; the float rides at 250 + 200 cos t.
		{"nose", 0.12 * (250 + 200*cos - 300) * math.Pi / 180, 0.002}, {"wire", 0, 1e-9},
	} {
		if i, ok := got[c.of]; !ok || math.Abs(i.Half-c.want) > c.to {
			t.Errorf("%s: %+v, expected %g half way", c.of, i, c.want)
		}
	}
	// Mirror images: a tank that is alike on both sides, an arm in the middle.
	if i := got["left"]; i.Most() > 1e-3 {
		t.Errorf("left: %+v, expected next to nothing", i)
	}
}

// TestStepsAndTolerance: 70 turns over 70 degrees are one degree each, coarsest
// where the arm lies level, at 0.12·150 L; five percent of the ohms.
func TestStepsAndTolerance(t *testing.T) {
	r := load(t, tanks.Demo, box...)
	turns := float.Winding{Start: -45, Width: 1, Steps: 70}
	step := r.Coarsest(turns)
	if want := 0.12 * 200 * 2 * math.Sin(math.Pi/360); math.Abs(step.Litres-want) > 1e-4 || math.Abs(step.At-18) > 0.5 {
		t.Errorf("coarsest step %+v, expected %g L at about 18 L", step, want)
	}
	if got, want := r.StepAt(turns, 18), 0.12*200*2*math.Sin(math.Pi/360); math.Abs(got-want) > 1e-6 {
		t.Errorf("step at 18 L: %g, expected %g", got, want)
	}
	if got := r.StepAt(turns, 0.3); got != 0 {
		t.Errorf("step in the blind band: %g, expected 0", got)
	}
	angle := func(ohms float64) float64 { return (200-ohms)*70/180 - 45 }
	litres := func(ohms float64) float64 { return 0.12 * (150 + 200*math.Sin(angle(ohms)*math.Pi/180)) }
	if got, want := r.Tolerance(0.05, litres(100)), math.Max(litres(100/1.05)-litres(100), litres(100)-litres(100/0.95)); math.Abs(got-want) > 1e-9 {
		t.Errorf("tolerance %g L, expected %g", got, want)
	}
}

// TestHysteresis: an upright float of 1200 mm² that friction of 6 N·mm loads by
// 6/(g·200 cos t) kg lies so much deeper, on a box of 0.12 L a millimetre.
func TestHysteresis(t *testing.T) {
	set := append(append([]string{}, box...), `sender.float={shape="upright", area="12 cm2", height=40, mass=15, friction=6}`, "fuel.density=800", "fuel.kind=petrol")
	f, err := tanks.Load(tanks.Demo, set)
	if err != nil {
		t.Fatal(err)
	}
	r := join(f)
	on := func(sense float.Sense) *volume.Relation {
		rel, ok := volume.Relate(r.Level.Contents, f.Sender.Arm.On(sense), r.Low, r.High, r.Tank.Full)
		if !ok {
			t.Fatal("the arm follows nowhere")
		}
		return rel
	}
	most, _ := r.Hysteresis(on(float.Rising), on(float.Falling))
	lever := 200 * math.Min(math.Cos(r.Low*math.Pi/180), math.Cos(r.High*math.Pi/180))
	kilograms := 6 / (9.80665 * lever)
	if want := 2 * kilograms * 1000 / (800e-6 * 1200) * 0.12; math.Abs(most-want) > 1e-3*want {
		t.Errorf("%g L between rising and falling, expected %g", most, want)
	}
}

// TestContactsAgainstBruteForce holds the worst error of points on a stem with
// contacts, a staircase, against many quantities.
func TestContactsAgainstBruteForce(t *testing.T) {
	set := []string{box[0], box[1], box[2], "tank.rated=30", "wiring.length=0", "gauge.empty=2",
		`sender={kind="stem", foot=[300,100,10], head=[300,100,235], pitch=15, resistance={low=240, high=30}}`}
	r := load(t, tanks.Demo, set...)
	points, _ := r.AtMarks()
	l := lines(t, r, points)
	curve := r.Curve(r.Level, l)
	got := curve.Worst(l)
	worst := 0.0
	const steps = 200000
	for i := range steps + 1 {
		q := boxEmpty + (boxFull-boxEmpty)*float64(i)/steps
		number := math.Floor(math.Max(0, q/0.12-10)/15 + 1e-12)
		shown := l.Show(240 - 210*math.Min(15, number)/15 + 0.3)
		worst = math.Max(worst, 100*math.Abs(shown-(q-boxEmpty)/(boxFull-boxEmpty)))
	}
	if math.Abs(got.Percent-worst) > 2e-3 {
		t.Errorf("worst %g %%, brute force %g %%", got.Percent, worst)
	}
}

// TestMarksOnOneContact: of marks that read the same, one is stored.
func TestMarksOnOneContact(t *testing.T) {
	set := []string{box[0], box[1], box[2], "tank.rated=30", "gauge.empty=0",
		`sender={kind="stem", foot=[300,100,40], head=[300,100,235], pitch=60, resistance={low=240, high=30}}`}
	points, dropped := load(t, tanks.Demo, set...).AtMarks()
	for i := range points[1:] {
		if points[i].InputOhms == points[i+1].InputOhms {
			t.Errorf("%s and %s share %g ohm", points[i].Label, points[i+1].Label, points[i].InputOhms)
		}
	}
	if len(points)+len(dropped) != 5 || points[0].Label != "E" || points[len(points)-1].Label != "F" || len(dropped) == 0 {
		t.Errorf("points %+v, dropped %+v", points, dropped)
	}
}

// TestTablesBeyondTheTank: where a table of heights reaches beyond the tank, the
// reading at the brim is that of the brim.
func TestTablesBeyondTheTank(t *testing.T) {
	set := []string{box[0], box[2], "tank.rated=30", "wiring.ground=0", "wiring.length=0",
		`sender={kind="table", resistance={points=[[-10,240],[100,150],[400,33]]}}`}
	r := load(t, tanks.Demo, append(set, "tank.fill={fraction=1}")...)
	if got, want := r.Level.Ohms(r.Tank.Full), 150-117*150./300; math.Abs(got-want) > 1e-9 {
		t.Errorf("full: %g ohm, expected %g", got, want)
	}
	if got, want := r.Level.Ohms(0), 240-90*10./110; math.Abs(got-want) > 1e-9 {
		t.Errorf("empty: %g ohm, expected %g", got, want)
	}
}

// TestInfluencesOfMeasuredWiring: an ohm of earth stands for the same whether the
// wiring was computed or measured, and so does the wire's temperature.
func TestInfluencesOfMeasuredWiring(t *testing.T) {
	computed, measured := load(t, tanks.Demo), load(t, tanks.Demo)
	added := computed.Wiring.Input(0)
	in, err := gauge.Install([]gauge.Found{{Sender: 33, Terminals: 33 + added}, {Sender: 240, Terminals: 240 + added}})
	if err != nil {
		t.Fatal(err)
	}
	measured.Wiring.Installed = in
	want := computed.Influences()
	for i, got := range measured.Influences() {
		if got.Of != want[i].Of || math.Abs(got.Half-want[i].Half) > 1e-7 || math.Abs(got.Full-want[i].Full) > 1e-7 {
			t.Errorf("%+v with the wiring measured, %+v computed", got, want[i])
		}
	}
}
