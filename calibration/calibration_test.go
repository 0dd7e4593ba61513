package calibration_test

import (
	"fmt"
	"math"
	"testing"

	"pgregory.net/rapid"

	"floatarc/calibration"
	"floatarc/gauge"
	"floatarc/geometry"
	"floatarc/tanks"
)

func load(t testing.TB, name string, set ...string) *calibration.Rig {
	t.Helper()
	f, err := tanks.Load(name, set)
	if err != nil {
		t.Fatal(err)
	}
	return join(f)
}

func join(f *tanks.Rig) *calibration.Rig {
	low, high := f.Sender.Free()
	return &calibration.Rig{
		Tank: f.Tank.Tank, Sender: f.Sender.Sender(), Low: low, High: high, Level: f.Level,
		Wiring: f.Wiring, Dial: f.Gauge.Dial, Conditioner: f.Conditioner,
	}
}

func lines(t testing.TB, r *calibration.Rig, points []calibration.Point) *gauge.Lines {
	t.Helper()
	l, err := gauge.NewLines(r.Conditioner.Law, calibration.Pairs(points))
	if err != nil {
		t.Fatal(err)
	}
	return l
}

// box is a tank in which everything has a closed form: litres = 0.12 z, with
// z = 150 + 200 sin t, ohms straight in t from 200 at -45° to 20 at 25°.
var box = []string{
	"tank.body=[{shape=\"box\", length=600, width=200, height=250}]", "tank.fill.height=230", "tank.pickup.at=[300,100,5]",
	"tank.rated=30", "sender={pivot=[250,100,150], arm=200, stop_low=-45, stop_high=25, resistance={low=200, high=20}}", "wiring.length=0", "wiring.ground=0.5", "gauge.empty=2",
}

const (
	boxEmpty = 0.12*5 + 2
	boxFull  = 0.12 * 230
)

func boxInput(litres float64) float64 {
	t := math.Asin((litres/0.12-150)/200) * 180 / math.Pi
	t = math.Max(-45, math.Min(25, t))
	return 200 - 180*(t+45)/70 + 0.5
}

func TestPointsInABox(t *testing.T) {
	r := load(t, tanks.Demo, box...)
	points, dropped := r.AtMarks()
	if len(points) != 5 || len(dropped) != 0 {
		t.Fatalf("%d points, %d dropped", len(points), len(dropped))
	}
	for i, p := range points {
		litres := boxEmpty + float64(i)/4*(boxFull-boxEmpty)
		if math.Abs(p.Litres-litres) > 1e-10 || math.Abs(p.InputOhms-boxInput(litres)) > 1e-8 {
			t.Errorf("%s: %.12g L at %.12g ohm, expected %.12g L at %.12g ohm", p.Label, p.Litres, p.InputOhms, litres, boxInput(litres))
		}
		if p.Blind { // the float goes from 8.6 mm to 234.5 mm
			t.Errorf("%s is called blind", p.Label)
		}
	}
}

// TestWorstAgainstBruteForce compares the worst errors in a box with those over
// 400,000 quantities by the closed form, with the lines computed afresh.
func TestWorstAgainstBruteForce(t *testing.T) {
	for _, law := range []string{"conditioner.law=\"resistance\"", "conditioner={points=5, law=\"divider\", pull_up=100}"} {
		for _, stop := range []string{"sender.stop_low=-45", "sender.stop_low=-30"} {
			set := append(append([]string{}, box...), law, stop)
			if stop == "sender.stop_low=-30" { // the same track, cut short: E is blind
				set = append(set, "sender.resistance={points=[[-45,200],[25,20]]}")
			}
			r := load(t, tanks.Demo, set...)
			points, _ := r.AtMarks()
			l := lines(t, r, points)
			got := r.Curve(r.Level, l).Worst(l)
			want, live, litres := bruteForce(points, r.Conditioner.Law, math.Max(boxEmpty, r.Level.Litres(r.Low)))
			if math.Abs(got.Percent-want) > 1e-6 || math.Abs(got.LivePercent-live) > 1e-6 || math.Abs(got.Litres-litres) > 1e-6 {
				t.Errorf("%s, %s: %.9g %%, %.9g %% live, %.9g L; brute force %.9g, %.9g, %.9g", law, stop, got.Percent, got.LivePercent, got.Litres, want, live, litres)
			}
		}
	}
}

// bruteForce holds the points against the box; the sender stands still below
// liveLow.
func bruteForce(points []calibration.Point, law gauge.Law, liveLow float64) (percent, live, litres float64) {
	show := func(input float64) float64 {
		x := func(p calibration.Point) float64 { return law.X(p.InputOhms) }
		first, last := points[0], points[len(points)-1]
		if input >= first.InputOhms {
			return first.Position
		}
		if input <= last.InputOhms {
			return last.Position
		}
		for i := 1; ; i++ {
			if a, b := points[i-1], points[i]; input >= b.InputOhms {
				return a.Position + (law.X(input)-x(a))/(x(b)-x(a))*(b.Position-a.Position)
			}
		}
	}
	const steps = 400000
	for i := range steps + 2 {
		q := boxEmpty + (boxFull-boxEmpty)*float64(i)/steps
		if i > steps {
			q = liveLow // where the sender starts to move
		}
		off := show(boxInput(math.Max(q, liveLow))) - (q-boxEmpty)/(boxFull-boxEmpty)
		percent = math.Max(percent, 100*math.Abs(off))
		litres = math.Max(litres, math.Abs(off)*(boxFull-boxEmpty))
		if q >= liveLow {
			live = math.Max(live, 100*math.Abs(off))
		}
	}
	return percent, live, litres
}

// TestChoiceAgainstExhaustiveSearch tries every subset of the marks.
func TestChoiceAgainstExhaustiveSearch(t *testing.T) {
	marks := `gauge.marks=[`
	for i := range 10 {
		marks += fmt.Sprintf(`{label="m%d", share=%g},`, i, float64(i)/9)
	}
	marks += "]"
	rigs, _ := tanks.Names()
	for _, name := range rigs {
		r := load(t, name, marks)
		points, _ := r.AtMarks()
		curve := r.Curve(r.Level)
		for places := 2; places <= 6; places++ {
			least := math.Inf(1)
			for set := 1; set < 1<<len(points); set++ {
				var some []calibration.Point
				for i, p := range points {
					if set>>i&1 == 1 {
						some = append(some, p)
					}
				}
				if len(some) <= places {
					l := lines(t, r, some)
					worst := 0.0
					for _, s := range curve.Samples {
						off, _ := curve.Off(l, s)
						worst = math.Max(worst, 100*math.Abs(off))
					}
					least = math.Min(least, worst)
				}
			}
			chosen := r.Choose(points, places)
			if len(chosen) > places {
				t.Fatalf("%s: %d points for %d places", name, len(chosen), places)
			}
			l := lines(t, r, chosen)
			got := r.Curve(r.Level, l).Worst(l)
			// The search looked at samples only, the worst between them too.
			if got.Percent > least+2e-3 || got.Percent < least-1e-9 {
				t.Errorf("%s, %d places: worst error %.9g %%, exhaustive search %.9g %%", name, places, got.Percent, least)
			}
		}
	}
}

func TestPointsAreMonotone(t *testing.T) {
	rigs, _ := tanks.Names()
	rapid.Check(t, func(t *rapid.T) {
		name := rapid.SampledFrom(rigs).Draw(t, "rig")
		f, err := tanks.Load(name, []string{
			fmt.Sprintf("mount.nose_up=%g", rapid.Float64Range(-6, 6).Draw(t, "nose")),
			fmt.Sprintf("gauge.empty=%g", rapid.Float64Range(0, 15).Draw(t, "empty")),
			fmt.Sprintf("gauge.full=%g", rapid.Float64Range(0, 8).Draw(t, "full")),
			"tank.fill.fraction=0.93", "tank.fill={fraction=0.93}",
		})
		if err != nil {
			t.Skip(err)
		}
		r := join(f)
		points, _ := r.AtMarks()
		sense := math.Copysign(1, points[len(points)-1].InputOhms-points[0].InputOhms)
		for i := 1; i < len(points); i++ {
			a, b := points[i-1], points[i]
			if !(b.Litres > a.Litres && b.Position > a.Position && sense*(b.InputOhms-a.InputOhms) > 0 && b.Travel > a.Travel) {
				t.Fatalf("%s: %+v then %+v", name, a, b)
			}
		}
		l, err := gauge.NewLines(r.Conditioner.Law, calibration.Pairs(points))
		if err != nil {
			t.Fatal(err)
		}
		for _, p := range points {
			if p.Blind {
				continue
			}
			if off, _ := r.Curve(r.Level, l).Off(l, r.Curve(r.Level, l).At(p.Litres)); math.Abs(off) > 1e-9 {
				t.Fatalf("%s: the needle is off by %g at the mark %s", name, off, p.Label)
			}
		}
	})
}

func TestBlindMarks(t *testing.T) {
	r := load(t, "loader", `gauge.empty=0`, `gauge.marks=[{label="E",share=0},{label="1/50",share=0.02},{label="1/2",share=0.5},{label="F",share=1}]`, "conditioner.points=4")
	low, _ := r.Level.Live()
	points, dropped := r.AtMarks()
	if len(dropped) != 1 || dropped[0].Label != "1/50" {
		t.Fatalf("dropped %v, expected 1/50: only the outermost mark of a blind band is stored", dropped)
	}
	e := points[0]
	if !e.Blind || e.Position != 0 || e.Travel != r.Low || e.Litres != r.Dial.Empty || e.Litres >= low {
		t.Errorf("E: %+v, expected blind, at the end of the live band, with its own position and litres", e)
	}
}

// TestMarkWhereTheBlindBandBegins has a mark exactly where the sender stops: the
// outermost mark of the blind band is stored in its place.
func TestMarkWhereTheBlindBandBegins(t *testing.T) {
	low, high := load(t, "loader").Level.Reach()
	for _, end := range []struct {
		mark float64
		want []string
	}{{high, []string{"E", "1/2", "F"}}, {low, []string{"E", "1/2", "F"}}} {
		r := load(t, "loader", "gauge.empty=2", "tank.fill={fraction=0.99}")
		at := r.Dial.Share(end.mark)
		r = load(t, "loader", "gauge.empty=2", "tank.fill={fraction=0.99}",
			fmt.Sprintf(`gauge.marks=[{label="E",share=0},{label="1/2",share=0.5},{label="edge",share=%.17g},{label="F",share=1}]`, max(at, 0.6)))
		if at < 0.5 {
			r = load(t, "loader", "gauge.empty=2", "tank.fill={fraction=0.99}",
				fmt.Sprintf(`gauge.marks=[{label="E",share=0},{label="edge",share=%.17g},{label="1/2",share=0.5},{label="F",share=1}]`, at))
		}
		points, dropped := r.AtMarks()
		var got []string
		for _, p := range points {
			got = append(got, p.Label)
		}
		if fmt.Sprint(got) != fmt.Sprint(end.want) || len(dropped) != 1 || dropped[0].Label != "edge" {
			t.Errorf("a mark at %.6g L: stored %v, dropped %v", end.mark, got, dropped)
		}
	}
}

func TestReadingsComeBack(t *testing.T) {
	r := load(t, "camper")
	rel, err := r.At(geometry.Attitude{NoseUp: 4, LeftUp: -2})
	if err != nil {
		t.Fatal(err)
	}
	low, high := rel.Live()
	rapid.Check(t, func(t *rapid.T) {
		q := low + (high-low)*rapid.Float64Range(0, 1).Draw(t, "share")
		got, err := r.LitresAt(rel, r.Reading(rel, q).InputOhms)
		if err != nil || math.Abs(got-q) > 1e-8 {
			t.Fatalf("%.12g L comes back as %.12g: %v", q, got, err)
		}
	})
	if _, err := r.LitresAt(rel, 500); err == nil {
		t.Error("500 ohm was taken")
	}
}

func BenchmarkPoints(b *testing.B) {
	r := load(b, "workboat")
	for b.Loop() {
		points, _ := r.AtMarks()
		l := lines(b, r, r.Choose(points, 4))
		r.Curve(r.Level, l).Worst(l)
	}
}

// TestUnitsChangeNothing writes one rig in millimetres and litres, and again in
// inches and gallons: the points must be the same.
func TestUnitsChangeNothing(t *testing.T) {
	const inch, gallon = 25.4, 3.785411784 // exact
	rapid.Check(t, func(t *rapid.T) {
		size := func(name string, lo, hi float64) float64 { return rapid.Float64Range(lo, hi).Draw(t, name) }
		length, width, height := size("length", 20, 30), size("width", 10, 15), size("height", 10, 14)
		rig := func(unit, can float64, lengths, cans string) []calibration.Point {
			mm := func(v float64) string { return fmt.Sprintf("\"%.15g %s\"", v*unit, lengths) }
			f, err := tanks.Load(tanks.Demo, []string{
				fmt.Sprintf("tank.body=[{shape=\"box\", length=%s, width=%s, height=%s, radius=%s}]", mm(length), mm(width), mm(height), mm(1)),
				"tank.fill.height=" + mm(height-0.5), fmt.Sprintf("tank.pickup.at=[%s, %s, %s]", mm(5), mm(5), mm(0.4)),
				fmt.Sprintf("sender.pivot=[%s, %s, %s]", mm(10), mm(5), mm(8)), "sender.arm=" + mm(8.5),
				fmt.Sprintf("gauge.empty=\"%.15g %s\"", 0.5*can, cans),
			})
			if err != nil {
				t.Fatal(err)
			}
			r := join(f)
			points, _ := r.AtMarks()
			return points
		}
		metric, us := rig(inch, gallon, "mm", "L"), rig(1, 1, "in", "US gal")
		if len(metric) != len(us) {
			t.Fatalf("%d points in mm, %d in inches", len(metric), len(us))
		}
		for i := range us {
			if math.Abs(metric[i].InputOhms-us[i].InputOhms) > 1e-7 || math.Abs(metric[i].Litres-us[i].Litres) > 1e-9 {
				t.Fatalf("%+v in mm, %+v in inches", metric[i], us[i])
			}
		}
	})
}
