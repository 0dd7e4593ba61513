package calibration_test

import (
	"fmt"
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"floatarc/calibration"
	"floatarc/gauge"
	"floatarc/tanks"
)

// TestGridIsAnUpperBound goes over inputs and positions of a grid: never better
// than the free optimum, and closer to it on a finer one.
func TestGridIsAnUpperBound(t *testing.T) {
	if testing.Short() {
		t.Skip("takes long")
	}
	for _, name := range []string{tanks.Demo, "workboat", "loader"} {
		_, free, _ := best(t, load(t, name), 0.25, 4)
		before := math.Inf(1)
		for _, step := range []float64{8, 4, 2} {
			r := load(t, name, fmt.Sprintf("conditioner.step=%g", step))
			s, err := r.Search(0.25)
			if err != nil {
				t.Fatal(err)
			}
			var positions []float64
			for k := 0.0; k <= 100; k += step / 4 {
				positions = append(positions, k/100)
			}
			b, err := s.Rounded(4, positions)
			if err != nil {
				t.Fatal(err)
			}
			if b.Least < free.Least-1e-6 || b.Least > before+1e-3 {
				t.Errorf("%s, %g ohm: %.6f %%, on a coarser grid %.6f %%, free %.6f %%", name, step, b.Least, before, free.Least)
			}
			before = b.Least
		}
		if before > free.Least+0.5 {
			t.Errorf("%s: %.6f %% on the finest grid, free %.6f %%", name, before, free.Least)
		}
	}
}

// TestRounding compares with what a person does who rounds the free points.
func TestRounding(t *testing.T) {
	if testing.Short() {
		t.Skip("takes long")
	}
	rigs, _ := tanks.Names()
	for _, name := range rigs {
		r := load(t, name, "conditioner.step=2")
		s, b, _ := best(t, r, 0, r.Conditioner.Places)
		positions, err := r.Dial.Settable(gauge.Percents)
		if err != nil {
			t.Fatal(err)
		}
		on, err := s.Rounded(r.Conditioner.Places, positions)
		if err != nil {
			t.Fatal(err)
		}
		naive := append([]calibration.Point{}, b.Points...)
		for i := range naive {
			naive[i].InputOhms, naive[i].Position = 2*math.Round(naive[i].InputOhms/2), math.Round(100*naive[i].Position)/100
		}
		worst := func(points []calibration.Point) float64 {
			l, err := r.Conditioner.Lines(calibration.Pairs(points))
			if err != nil {
				return math.Inf(1) // two points on one input
			}
			return r.Curve(r.Level, l).Worst(l).Percent
		}
		// At a blind band a twentieth of a percent may be given for less elsewhere.
		if got, want := worst(on.Points), worst(naive); got > want+0.051 || on.Least > want+1e-3 {
			t.Errorf("%s: %.5f %% on the grid (least %.5f %%), rounded by hand %.5f %%", name, got, on.Least, want)
		}
		for _, p := range on.Points {
			if off := math.Remainder(p.InputOhms, 2); off != 0 || math.Abs(math.Remainder(p.Position, 0.01)) > 1e-12 {
				t.Errorf("%s: point at %g ohm, %g", name, p.InputOhms, p.Position)
			}
		}
		all, _ := r.AtMarks()
		marks, err := r.RoundMarks(all)
		if err != nil {
			t.Fatal(err)
		}
		naive = append([]calibration.Point{}, all...)
		for i := range naive {
			naive[i].InputOhms = 2 * math.Round(naive[i].InputOhms/2)
			if marks[i].Label != all[i].Label || math.Abs(marks[i].InputOhms-all[i].InputOhms) > 4 || math.Remainder(marks[i].InputOhms, 2) != 0 {
				t.Errorf("%s: mark %s from %g to %g ohm", name, all[i].Label, all[i].InputOhms, marks[i].InputOhms)
			}
		}
		if got, want := worst(marks), worst(naive); got > want+0.051 {
			t.Errorf("%s: marks on the step %.5f %%, rounded by hand %.5f %%", name, got, want)
		} else if got > want-0.05 && mean(r, marks) > mean(r, naive)+0.05 {
			t.Errorf("%s: marks on the step are off by %.3f %% on the mean, rounded by hand by %.3f %%, with a worst error of %.3f and %.3f %%", name, mean(r, marks), mean(r, naive), got, want)
		}
	}
}

// mean is the mean error of points over the litres between the marks, in percent.
func mean(r *calibration.Rig, points []calibration.Point) float64 {
	l, err := r.Conditioner.Lines(calibration.Pairs(points))
	if err != nil {
		return math.Inf(1)
	}
	curve, sum := r.Curve(r.Level), 0.0
	const n = 400
	for i := range n {
		off, _ := curve.Off(l, curve.At(r.Dial.Litres((float64(i)+0.5)/n)))
		sum += 100 * math.Abs(off) / n
	}
	return sum
}

// TestSettings spans what the conditioner is told of, whatever its step, its list or
// its limits.
func TestSettings(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		set := []string{fmt.Sprintf("conditioner.step=%g", math.Exp(rapid.Float64Range(-12, 4).Draw(t, "ln step")))}
		if rapid.Bool().Draw(t, "limited") {
			set = append(set, "conditioner.input_range=[40, 200]")
		}
		if rapid.Bool().Draw(t, "listed") {
			set = append(set, "conditioner.inputs=[20, 50, 100, 150, 190, 250]")
		}
		f, err := tanks.Load(tanks.Demo, set)
		if err != nil {
			t.Fatal(err)
		}
		r := join(f)
		got := r.Settings()
		told := r.Told(r.Level)
		low, high := r.InputAt(told.High.Travel), r.InputAt(told.Low.Travel)
		least, most := r.Conditioner.Limits()
		if len(got) < 2 || !slices.IsSorted(got) || got[0] < least || got[len(got)-1] > most {
			t.Fatalf("%v", got)
		}
		gap := (high - low) / 2
		if got[0] > low+gap || got[len(got)-1] < high-gap || len(got) > 200000 {
			t.Fatalf("%d settings from %g to %g ohm, inputs from %g to %g ohm", len(got), got[0], got[len(got)-1], low, high)
		}
	})
}

// TestContacts searches points for a stem whose reading jumps: the error at every
// quantity, by its own closed form, is at most the one that is told.
func TestContacts(t *testing.T) {
	for _, pitch := range []float64{8, 20, 50} {
		r := load(t, tanks.Demo, append(slices.Clone(box[:4]),
			fmt.Sprintf(`sender={kind="stem", foot=[300,100,20], head=[300,100,220], pitch=%g, resistance={low=200, high=20}}`, pitch), "wiring.length=0", "wiring.ground=0", "gauge.empty=2")...)
		_, b, l := best(t, r, 0, 5)
		low, high := 0.12*5+2, 0.12*230
		last, worst := math.Floor(200/pitch), 0.0
		for i := range 20001 {
			q := low + (high-low)*float64(i)/20000
			number := math.Max(0, math.Min(last, math.Floor((q/0.12-20)/pitch+1e-12)))
			worst = math.Max(worst, 100*math.Abs(l.Show(200-180*number/last)-(q-low)/(high-low)))
		}
		if worst > b.Least+1e-3 || worst < b.Least-0.1 {
			t.Errorf("contacts %g mm apart: %.6f %% by the closed form, told %.6f %%", pitch, worst, b.Least)
		}
		// No line is better than half a contact's worth.
		if half := 50 * 0.12 * pitch / (high - low); b.Least < half*(1-2e-6) { // a hair below each contact
			t.Errorf("contacts %g mm apart: %.6f %%, half a contact is %.6f %%", pitch, b.Least, half)
		}
		table, err := r.Lookup(21, 0)
		if err != nil {
			t.Fatal(err)
		}
		if half := 0.06 * pitch; table.LitresOff < half*(1-2e-6) {
			t.Errorf("contacts %g mm apart: the table says it is off by at most %g L, but a contact stands for ±%g L", pitch, table.LitresOff, half)
		}
	}
}

// TestNeedleThatFallsShort cannot show E: the promise near empty is not kept, and
// that is told.
func TestNeedleThatFallsShort(t *testing.T) {
	r := load(t, tanks.Demo, "gauge.needle=[[0, 0.05], [1, 1]]")
	s, _, l := best(t, r, 0.25, 5)
	if over := s.Falling(r.Level).Over(l, 0.25); over < 4.9 {
		t.Errorf("shows %g %% too much near empty, expected the 5 %% that the needle cannot go below", over)
	}
}

// TestNoPlaces chooses nothing.
func TestNoPlaces(t *testing.T) {
	r := load(t, tanks.Demo)
	all, _ := r.AtMarks()
	if got := r.Choose(all, 0); got != nil {
		t.Errorf("%v", got)
	}
}

// TestListedInputs takes settings from the conditioner's list alone.
func TestListedInputs(t *testing.T) {
	r := load(t, tanks.Demo, "conditioner.inputs=[20, 40, 60, 90, 120, 160, 200, 230, 260]")
	s, err := r.Search(0)
	if err != nil {
		t.Fatal(err)
	}
	positions, _ := r.Dial.Settable(gauge.Halves)
	b, err := s.Rounded(5, positions)
	if err != nil {
		t.Fatal(err)
	}
	for _, p := range b.Points {
		listed := false
		for _, v := range r.Conditioner.Inputs {
			listed = listed || v == p.InputOhms
		}
		if eighths := 8 * p.Position; !listed || eighths != math.Round(eighths) {
			t.Errorf("point at %g ohm, %g", p.InputOhms, p.Position)
		}
	}
}
