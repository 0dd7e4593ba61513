package fit_test

import (
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"floatarc/calibration"
	"floatarc/calibration/fit"
	"floatarc/float"
	"floatarc/geometry"
)

// simulate pours and reads in a rig: cans until it is full, then half of it drained again.
// The start of the log is the true one.
func simulate(t testing.TB, rig *calibration.Rig, can, meter, pour float64, start float64, rng *rand.Rand) *fit.Log {
	t.Helper()
	l := &fit.Log{Start: start}
	litres := start
	row := func(poured float64, sense float.Sense) {
		litres += poured + pour*rng.NormFloat64()
		rel, ok := rig.On(rig.Level, sense)
		if !ok {
			t.Fatal("friction holds the arm")
		}
		input := rig.EvenAt(rel.Travel(litres)) + meter*rng.NormFloat64()
		l.Rows = append(l.Rows, fit.Row{Poured: poured, PouredSigma: pour, Input: input, InputSigma: meter, Sense: sense})
	}
	for litres+can < rig.Tank.Full {
		row(can, float.Rising)
	}
	for litres > rig.Tank.Full/2 {
		row(-can, float.Falling)
	}
	return l
}

// moved returns the rig of a family with some measures otherwise, and its values.
func moved(t testing.TB, f *calibration.Family, by map[string]float64) (*calibration.Rig, []float64) {
	t.Helper()
	values := f.Values()
	for i, m := range f.Measures {
		values[i] += by[m.Name]
	}
	rig, err := f.Rig(values)
	if err != nil {
		t.Fatal(err)
	}
	return rig, values
}

// run fits a log.
func run(t testing.TB, f *calibration.Family, l *fit.Log) *fit.Outcome {
	t.Helper()
	o, err := fit.Run(f, l)
	if err != nil {
		t.Fatal(err)
	}
	return o
}

func parameter(t testing.TB, o *fit.Outcome, name string) fit.Parameter {
	t.Helper()
	for _, p := range o.Parameters {
		if p.Name == name {
			return p
		}
	}
	t.Fatalf("no parameter %s", name)
	return fit.Parameter{}
}

// TestExactLog: readings without an error, of a rig of which one measure alone is
// wrong and doubted, give that measure back.
func TestExactLog(t *testing.T) {
	for name, by := range map[string]float64{"sender.arm": 4, "sender.pivot[2]": -3, "sender.stop_low": 1.5, "wiring.ground": 0.8, "tank.scale": 0.012} {
		_, f := family(t, "workboat")
		truth, values := moved(t, f, map[string]float64{name: by})
		l := simulate(t, truth, truth.Tank.Full/12, 1e-9, 1e-9, 0, rand.New(rand.NewPCG(1, 1)))
		for i := range l.Rows {
			l.Rows[i].InputSigma, l.Rows[i].PouredSigma = 1e-3, 1e-3
		}
		for i := range f.Measures { // the others are known
			if f.Measures[i].Name != name {
				f.Measures[i].Sigma = 1e-9
			}
		}
		o := run(t, f, l)
		for i, p := range o.Parameters {
			if p.Name == name && math.Abs(p.After-values[i]) > 5*p.AfterSigma+1e-3*math.Abs(by) {
				t.Errorf("%s: %.6g ± %.2g, the truth is %.6g", name, p.After, p.AfterSigma, values[i])
			}
		}
		if o.RMS > 0.02 {
			t.Errorf("%s: %.3f L are left", name, o.RMS)
		}
	}
}

// TestOutliers puts one wrong row into a log, and finds it.
func TestOutliers(t *testing.T) {
	_, f := family(t, "workboat")
	truth, _ := moved(t, f, map[string]float64{"sender.arm": 2})
	for _, c := range []struct {
		name  string
		spoil func(rows []fit.Row)
		row   int
		flag  fit.Flag
	}{
		{"nothing", func([]fit.Row) {}, 0, fit.Fine},
		{"a slip of the pen", func(r []fit.Row) { r[5].Input += 30 }, 5, fit.BadRead},
		{"the last reading", func(r []fit.Row) { r[len(r)-1].Input += 20 }, -1, fit.BadRead},
		{"a can forgotten", func(r []fit.Row) { r[4].Poured -= 12 }, 4, fit.BadPour},
		{"marked doubtful", func(r []fit.Row) { r[6].Input += 30; r[6].Doubtful = true }, 6, fit.Doubtful},
		{"marked spilled", func(r []fit.Row) { r[3].Poured += 7; r[3].Spilled = true }, 3, fit.Spilled},
		{"nobody read", func(r []fit.Row) { r[7].Input = math.NaN() }, 7, fit.Unread},
	} {
		l := simulate(t, truth, truth.Tank.Full/12, 0.3, 0.05, 0, rand.New(rand.NewPCG(7, 7)))
		c.spoil(l.Rows)
		o := run(t, f, l)
		want := c.row
		if want < 0 {
			want = len(l.Rows) - 1
		}
		for i, r := range o.Rows {
			if i == want && r.Flag != c.flag || i != want && r.Flag != fit.Fine {
				t.Errorf("%s: row %d is flagged %q", c.name, i, r.Flag)
			}
			if used := c.flag == fit.Fine || i != want || c.flag == fit.BadPour || c.flag == fit.Spilled; r.Used != used {
				t.Errorf("%s: row %d: used is %t", c.name, i, r.Used)
			}
		}
		if p := parameter(t, o, "sender.arm"); math.Abs(p.After-p.Value-2) > 3*p.AfterSigma {
			t.Errorf("%s: the arm comes out at %.2f ± %.2f, expected %.2f", c.name, p.After, p.AfterSigma, p.Value+2)
		}
		if o.RMS > 0.6 {
			t.Errorf("%s: %.2f L are left", c.name, o.RMS)
		}
	}
}

// TestLeft: what the log does not tell is left at its prior and named, and of two that it
// cannot tell apart one.
func TestLeft(t *testing.T) {
	_, f := family(t, "workboat")
	truth, _ := moved(t, f, nil)
	whole := simulate(t, truth, truth.Tank.Full/12, 0.3, 0.05, 0, rand.New(rand.NewPCG(3, 1)))
	middle := fit.Log{Rows: whole.Rows[4:9], Start: 4 * truth.Tank.Full / 12} // says nothing of the ends
	o := run(t, f, &middle)
	if p := parameter(t, o, "sender.resistance.high"); p.Left != fit.Silent || p.After != p.Value || p.AfterSigma != p.Sigma {
		t.Errorf("the ohms at the top: %+v, expected them left", p)
	}
	// A larger can and a smaller tank look the same.
	whole.Can = 0.02
	for i := range f.Measures {
		if f.Measures[i].Name == "tank.scale" {
			f.Measures[i].Sigma = 0.05
		}
	}
	o = run(t, f, whole)
	if p := parameter(t, o, fit.CanName); p.Left != fit.Alike || p.With != "tank.scale" || p.After != 0 || p.AfterSigma != 0.02 {
		t.Errorf("the can: %+v, expected it left", p)
	}
}

// TestCan: a can that holds more than it says is found where the tank is known, and the
// litres of the rows are those that it really poured.
func TestCan(t *testing.T) {
	_, f := family(t, "workboat")
	truth, _ := moved(t, f, nil)
	l := simulate(t, truth, truth.Tank.Full/14, 1e-6, 1e-6, 0, rand.New(rand.NewPCG(3, 4)))
	var poured []float64
	for i := range l.Rows {
		poured = append(poured, l.Rows[i].Poured)
		l.Rows[i].Poured /= 1.04
		l.Rows[i].InputSigma, l.Rows[i].PouredSigma = 0.2, 0.02
	}
	l.Can = 0.04
	for i := range f.Measures {
		if f.Measures[i].Name == "tank.scale" {
			f.Measures[i].Sigma = 1e-4
		}
	}
	o := run(t, f, l)
	if p := parameter(t, o, fit.CanName); math.Abs(p.After-0.04) > 2*p.AfterSigma {
		t.Errorf("the can: %.4f ± %.4f, the truth is 0.04", p.After, p.AfterSigma)
	}
	sum := 0.0
	for i, r := range o.Rows {
		if sum += poured[i]; math.Abs(r.Litres-sum) > 0.02*sum+0.1 {
			t.Errorf("row %d: %.2f L in the tank, the truth is %.2f", i, r.Litres, sum)
		}
	}
	if o.RMS > 0.4 {
		t.Errorf("%.2f L are left", o.RMS)
	}
}

// TestFewReadings: a log of next to nothing, with readings that go with nothing, is fitted
// without all of them being left out.
func TestFewReadings(t *testing.T) {
	_, f := family(t, "demo")
	l := &fit.Log{Rows: []fit.Row{
		{Poured: 5, PouredSigma: 0.05, Input: math.NaN(), Sense: float.Rising},
		{Poured: 5, PouredSigma: 0.05, Input: 150, InputSigma: 0.3, Sense: float.Rising},
		{Poured: 15, PouredSigma: 0.05, Input: 185, InputSigma: 0.3, Sense: float.Rising},
	}}
	o := run(t, f, l)
	if o.Readings < 2 || o.Freedom < 1 || o.Chance > 1e-6 {
		t.Errorf("%d readings, %d degrees of freedom, chance %.2g", o.Readings, o.Freedom, o.Chance)
	}
}

// TestFreedom: what the readings alone tell, a pour of which nothing is known or a start
// that was found, takes a degree of freedom each.
func TestFreedom(t *testing.T) {
	_, f := family(t, "sprayer")
	truth, _ := moved(t, f, nil)
	l := simulate(t, truth, truth.Tank.Full/12, 0.3, 0.05, 0, rand.New(rand.NewPCG(5, 1)))
	plain := run(t, f, l)
	l.FindStart(truth)
	l.Rows[4].Poured, l.Rows[4].Spilled = 0, true // nothing is written of what went in
	o := run(t, f, l)
	if plain.Freedom != plain.Readings || o.Freedom != o.Readings-2 {
		t.Errorf("%d of %d and %d of %d degrees of freedom", plain.Freedom, plain.Readings, o.Freedom, o.Readings)
	}
	if o.RMS > 0.5 || !o.Rows[4].Vague || o.Chance < 0.01 {
		t.Errorf("%.2f L are left, %+v", o.RMS, o.Rows[4])
	}
}

// TestSmallDoubts: ohms that together are told by a reading at the stop move, though each of
// them may stand for the other; and a start that nobody knows is never below 0.
func TestSmallDoubts(t *testing.T) {
	_, f := family(t, "workboat")
	truth, _ := moved(t, f, map[string]float64{"wiring.ground": 0.8})
	l := simulate(t, truth, truth.Tank.Full/12, 1e-6, 1e-6, 0, rand.New(rand.NewPCG(6, 4)))
	for i := range l.Rows {
		l.Rows[i].InputSigma, l.Rows[i].PouredSigma = 0.3, 0.05
	}
	o := run(t, f, l)
	together := 0.0
	for _, p := range o.Parameters {
		if p.Name == "wiring.ground" || p.Name == "sender.resistance.low" {
			together += p.After - p.Value
		}
	}
	if math.Abs(together-0.8) > 0.4 {
		t.Errorf("joints and ohms at the low stop move by %.2f ohm together, expected 0.8", together)
	}
	l.FindStart(truth)
	if start := parameter(t, run(t, f, l), fit.StartName); start.After < 0 || start.After > 3*start.AfterSigma+1 {
		t.Errorf("the start of an empty tank: %.2f ± %.2f L", start.After, start.AfterSigma)
	}
}

// TestScatter: readings that scatter more than stated widen what is told.
func TestScatter(t *testing.T) {
	_, f := family(t, "sprayer")
	truth, _ := moved(t, f, nil)
	l := simulate(t, truth, truth.Tank.Full/14, 2, 0.02, 0, rand.New(rand.NewPCG(3, 3)))
	calm := simulate(t, truth, truth.Tank.Full/14, 0.3, 0.02, 0, rand.New(rand.NewPCG(3, 3)))
	for i := range l.Rows {
		l.Rows[i].InputSigma = 0.7
		calm.Rows[i].InputSigma = 0.7
	}
	wild, quiet := run(t, f, l), run(t, f, calm)
	if wild.Widened <= 1.5 || quiet.Widened != 1 {
		t.Errorf("widened by %.2f and %.2f, expected more than 1.5 and 1", wild.Widened, quiet.Widened)
	}
	if a, b := parameter(t, wild, "tank.scale"), parameter(t, quiet, "tank.scale"); a.AfterSigma <= b.AfterSigma {
		t.Errorf("± %.4f of readings that scatter, ± %.4f of quiet ones", a.AfterSigma, b.AfterSigma)
	}
	if wild.Chance > 1e-3 || quiet.Chance < 0.05 {
		t.Errorf("chances %.2g and %.2g", wild.Chance, quiet.Chance)
	}
}

// TestSlope: rows that were read on a slope are held against the rig on it.
func TestSlope(t *testing.T) {
	_, f := family(t, "workboat")
	truth, values := moved(t, f, map[string]float64{"sender.arm": 3})
	tilted := geometry.Attitude{NoseUp: 4, LeftUp: -3}
	rel, err := truth.At(tilted)
	if err != nil {
		t.Fatal(err)
	}
	l := &fit.Log{}
	litres := 0.0
	for range 11 {
		litres += truth.Tank.Full / 12
		l.Rows = append(l.Rows, fit.Row{Poured: truth.Tank.Full / 12, PouredSigma: 0.02, Input: truth.EvenAt(rel.Travel(litres)), InputSigma: 0.2, Attitude: tilted})
	}
	o := run(t, f, l)
	if p := parameter(t, o, "sender.arm"); math.Abs(p.After-values[0]) > 2*p.AfterSigma {
		t.Errorf("the arm comes out at %.2f ± %.2f, the truth is %.2f", p.After, p.AfterSigma, values[0])
	}
	for i := range l.Rows {
		l.Rows[i].Attitude = geometry.Attitude{}
	}
	if level := run(t, f, l); level.Square < 4*o.Square {
		t.Errorf("chi-square %.1f on the slope, %.1f if they were taken as level, expected that not to fit", o.Square, level.Square)
	}
}

// TestWater: a proof with water finds the same arm as one with fuel, since the float lies
// higher in it.
func TestWater(t *testing.T) {
	_, f := family(t, "demo")
	truth, values := moved(t, f, map[string]float64{"sender.arm": 3})
	wet := *truth
	var err error
	if wet.Sender, err = float.InFuel(truth.Sender, 999.1); err != nil {
		t.Fatal(err)
	}
	var ok bool
	if wet.Level, ok = wet.In(truth.Level.Contents, float.Mean); !ok {
		t.Fatal("the float does not float")
	}
	l := simulate(t, &wet, 4, 1e-9, 1e-9, 0, rand.New(rand.NewPCG(1, 1)))
	for i := range l.Rows {
		l.Rows[i].InputSigma, l.Rows[i].PouredSigma = 0.2, 0.02
	}
	fuel := run(t, f, l)
	for i := range l.Rows {
		l.Rows[i].Density = 999.1
	}
	water := run(t, f, l)
	if p := parameter(t, water, "sender.arm"); math.Abs(p.After-values[0]) > 2*p.AfterSigma {
		t.Errorf("the arm comes out at %.2f ± %.2f, the truth is %.2f", p.After, p.AfterSigma, values[0])
	}
	if water.Square > fuel.Square/2 {
		t.Errorf("chi-square %.2f as water, %.2f as fuel, expected the fuel not to fit", water.Square, fuel.Square)
	}
}

func TestRefusals(t *testing.T) {
	_, f := family(t, "demo")
	row := fit.Row{Poured: 10, PouredSigma: 0.05, Input: 200, InputSigma: 0.3}
	for _, c := range []struct {
		log  fit.Log
		says string
	}{
		{fit.Log{}, "0 readings that count"},
		{fit.Log{Rows: []fit.Row{row}}, "1 reading that counts"},
		{fit.Log{Rows: []fit.Row{row, {Poured: 1, Input: math.NaN()}}}, "1 reading that counts"},
		{fit.Log{Rows: make([]fit.Row, 2000)}, "2000 rows"},
		{fit.Log{Rows: []fit.Row{row, {Poured: 1, Input: 100}}}, "without an uncertainty"},
	} {
		if _, err := fit.Run(f, &c.log); err == nil || !strings.Contains(err.Error(), c.says) {
			t.Errorf("%v, expected a word of %q", err, c.says)
		}
	}
}

func BenchmarkRun(b *testing.B) {
	for _, name := range []string{"demo", "workboat", "quad", "sprayer", "launch"} {
		_, f := family(b, name)
		truth, _ := moved(b, f, map[string]float64{"sender.arm": 4})
		l := simulate(b, truth, truth.Tank.Full/12, 0.3, 0.03, 0, rand.New(rand.NewPCG(1, 2)))
		b.Run(name, func(b *testing.B) {
			for b.Loop() {
				run(b, f, l)
			}
		})
	}
}
