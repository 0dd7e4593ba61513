package calibration_test

import (
	"cmp"
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"floatarc/calibration"
	"floatarc/gauge"
	"floatarc/tanks"
)

func best(t fataler, r *calibration.Rig, neverOver float64, places int) (*calibration.Search, calibration.Best, *gauge.Lines) {
	t.Helper()
	s, err := r.Search(neverOver)
	if err != nil {
		t.Fatal(err)
	}
	b, err := s.Best(places)
	if err != nil {
		t.Fatal(err)
	}
	l, err := r.Conditioner.Lines(calibration.Pairs(b.Points))
	if err != nil {
		t.Fatal(err)
	}
	return s, b, l
}

type fataler interface {
	Helper()
	Fatal(...any)
}

// TestBestOnEveryRig holds what the search promises: the worst error between the
// samples is the least one at them, more points never make it larger, it is at
// least the floor and, where nothing is promised near empty, at most that of the
// points at the marks.
func TestBestOnEveryRig(t *testing.T) {
	rigs, _ := tanks.Names()
	for _, name := range rigs {
		r := load(t, name)
		all, _ := r.AtMarks()
		for _, neverOver := range []float64{0, 0.25} {
			before := math.Inf(1)
			for places := 2; places <= 8; places++ {
				s, b, l := best(t, r, neverOver, places)
				w := r.Curve(r.Level, l).Worst(l)
				if len(b.Points) > places {
					t.Fatalf("%s: %d points, asked for %d", name, len(b.Points), places)
				}
				if off := w.Percent - b.Least; off < -1e-6 || off > s.Between {
					t.Errorf("%s, %d points, never over %g: worst error %.9g %%, on the samples %.9g %%, between them %.2g %%", name, places, neverOver, w.Percent, b.Least, s.Between)
				}
				if b.Least > before+1e-8 || b.Least < s.Floor-1e-8 || b.Live > b.Least+1e-8 {
					t.Errorf("%s, %d points, never over %g: %.9g %% (live %.9g), with one less %.9g %%, floor %.9g %%", name, places, neverOver, b.Least, b.Live, before, s.Floor)
				}
				if off := w.AwayPercent - b.Live; off < -1e-6-s.Between || off > s.Between+1e-6 {
					t.Errorf("%s, %d points, never over %g: away from the stops %.9g %%, on the samples %.9g %%", name, places, neverOver, w.AwayPercent, b.Live)
				}
				before = b.Least
				if neverOver > 0 {
					// What is left is the truth between two samples.
					if over := s.Falling().Over(l, neverOver); over > 1e-4 {
						t.Errorf("%s, %d points: shows %.2g %% too much near empty", name, places, over)
					}
					continue
				}
				marks := lines(t, r, r.Choose(all, places))
				if m := r.Curve(r.Level, marks).Worst(marks).Percent; b.Least > m+1e-6 {
					t.Errorf("%s, %d points: %.9g %%, at the marks %.9g %%", name, places, b.Least, m)
				}
			}
		}
	}
}

// TestBestOfAnyRig draws laws, limits, gauges and friction.
func TestBestOfAnyRig(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		set := []string{
			rapid.SampledFrom([]string{`conditioner={points=5}`, `conditioner={points=5, law="divider", pull_up=90}`, `conditioner={points=5, input_range=[40, 200]}`,
				`conditioner={points=5, law="divider", pull_up=150, supply=5, adc_bits=10, reference=2.5}`}).Draw(t, "conditioner"),
			rapid.SampledFrom([]string{`gauge.empty=2`, `gauge.needle=[[0,0],[0.6,0.4],[1,1]]`, `gauge.needle=[[240,0],[90,0.5],[33,1]]`}).Draw(t, "needle"),
			rapid.SampledFrom([]string{`sender.float.friction=0`, `sender.float.friction=3`}).Draw(t, "friction"),
			fmt.Sprintf("gauge.empty=%g", rapid.Float64Range(0, 8).Draw(t, "empty")),
			fmt.Sprintf("gauge.full=%g", rapid.Float64Range(0, 8).Draw(t, "full")),
		}
		f, err := tanks.Load(tanks.Demo, set)
		if err != nil {
			t.Skip(err)
		}
		r := join(f)
		neverOver := rapid.SampledFrom([]float64{0, 0.25, 0.6}).Draw(t, "never over")
		places := rapid.IntRange(2, 6).Draw(t, "places")
		s, b, l := best(t, r, neverOver, places)
		w := r.Curve(r.Level, l).Worst(l)
		if off := w.Percent - b.Least; off < -1e-6 || off > s.Between+1e-6 {
			t.Fatalf("worst error %.9g %%, on the samples %.9g %%, between them %.2g %%", w.Percent, b.Least, s.Between)
		}
		if neverOver > 0 {
			if over := s.Falling().Over(l, neverOver); over > 1e-4 {
				t.Fatalf("shows %.2g %% too much near empty", over)
			}
		}
		for i, p := range b.Points {
			if p.Position < 0 || p.Position > 1 || p.InputOhms < 0 || i > 0 && (p.Travel < b.Points[i-1].Travel || p.Position <= b.Points[i-1].Position) {
				t.Fatalf("points %+v", b.Points)
			}
		}
	})
}

// inBox is the truth in the box at n+1 quantities between the marks by the closed
// form: input and position.
func inBox(n int) (inputs, positions []float64) {
	for i := range n + 1 {
		share := float64(i) / float64(n)
		inputs, positions = append(inputs, boxInput(boxEmpty+share*(boxFull-boxEmpty))), append(positions, share)
	}
	return inputs, positions
}

// held is the worst error of pairs (input falling, position) with their end values
// held, in percent.
func held(inputs, positions, at, p []float64) float64 {
	worst := 0.0
	for k, input := range inputs {
		shown := p[len(p)-1]
		if input >= at[0] {
			shown = p[0]
		} else {
			for i := 1; i < len(at); i++ {
				if input >= at[i] {
					shown = p[i-1] + (at[i-1]-input)/(at[i-1]-at[i])*(p[i]-p[i-1])
					break
				}
			}
		}
		worst = math.Max(worst, 100*math.Abs(shown-positions[k]))
	}
	return worst
}

// TestBestAgainstExhaustiveSearch goes over every choice of inputs and positions on
// a grid, and then closer around the best of them. It knows nothing of bands. No
// choice may be better than the best, and the closest must come near it. The box is
// known by its closed form, the demo by its samples.
func TestBestAgainstExhaustiveSearch(t *testing.T) {
	if testing.Short() {
		t.Skip("takes long")
	}
	for _, c := range []struct {
		name   string
		set    []string
		places int
		grid   int
	}{
		{"box", box, 2, 40}, {"box", box, 3, 16},
		{"demo", nil, 2, 40}, {"demo, F where the live band ends", []string{`gauge.full="sender"`}, 2, 40}, {"demo, F where the live band ends", []string{`gauge.full="sender"`}, 3, 16},
	} {
		r := load(t, tanks.Demo, c.set...)
		inputs, positions := inBox(300)
		if c.name != "box" {
			inputs, positions = nil, nil
			for i, s := range r.Curve(r.Level).Samples {
				if i%2 == 0 || s.Litres == r.Dial.Empty || s.Litres == r.Dial.Full {
					inputs, positions = append(inputs, s.Input), append(positions, s.Position)
				}
			}
		}
		random := rand.New(rand.NewPCG(1, 2))
		_, b, _ := best(t, r, 0, c.places)
		span := slices.Max(inputs) - slices.Min(inputs)
		least := math.Inf(1)
		for _, start := range overGrid(inputs, positions, c.places, c.grid) {
			for scale := 1.0; scale > 1e-4; scale *= 0.7 {
				for range 120 * c.places {
					start.nearby(random, inputs, positions, scale*span/float64(c.grid), scale/float64(c.grid))
				}
			}
			least = math.Min(least, start.percent)
		}
		// A few hundred quantities see a little less than all of them.
		if least < b.Least-0.01 || least > b.Least+0.02 {
			t.Errorf("%s, %d points: exhaustive search %.5f %%, best %.5f %%", c.name, c.places, least, b.Least)
		}
		t.Logf("%s, %d points: exhaustive search %.5f %%, best %.5f %%", c.name, c.places, least, b.Least)
	}
}

// A guess is a choice of inputs and positions, and its worst error.
type guess struct {
	at, p   []float64
	percent float64
}

// overGrid goes over all choices of so many inputs and positions on a grid of n steps
// each way, and returns the best for each choice of inputs, the best sixty of them.
func overGrid(inputs, positions []float64, places, n int) []guess {
	from, to := slices.Max(inputs), slices.Min(inputs)
	var all []guess
	a, q := make([]float64, places), make([]float64, places)
	var place func(i, low int, into *guess)
	place = func(i, low int, into *guess) {
		if i == places {
			if e := held(inputs, positions, a, q); e < into.percent {
				*into = guess{slices.Clone(a), slices.Clone(q), e}
			}
			return
		}
		for j := low; j <= n; j++ {
			q[i] = float64(j) / float64(n)
			place(i+1, j, into)
		}
	}
	var choose func(i, first int)
	choose = func(i, first int) {
		if i == places {
			g := guess{percent: math.Inf(1)}
			place(0, 0, &g)
			all = append(all, g)
			return
		}
		for k := first; k <= n; k++ {
			a[i] = from + (to-from)*float64(k)/float64(n)
			choose(i+1, k+1)
		}
	}
	choose(0, 0)
	slices.SortFunc(all, func(a, b guess) int { return cmp.Compare(a.percent, b.percent) })
	return all[:60]
}

// nearby tries one choice drawn around the guess, and takes it if it is better.
func (g *guess) nearby(random *rand.Rand, inputs, positions []float64, ohms, share float64) {
	a, q := make([]float64, len(g.at)), make([]float64, len(g.p))
	for i := range g.at {
		a[i], q[i] = g.at[i]+ohms*random.NormFloat64(), math.Max(0, math.Min(1, g.p[i]+share*random.NormFloat64()))
		if i > 0 && a[i] >= a[i-1] {
			return
		}
	}
	if e := held(inputs, positions, a, q); e < g.percent {
		*g = guess{a, q, e}
	}
}

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
	if over := s.Falling().Over(l, 0.25); over < 4.9 {
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

// TestFlat refuses a conditioner that sees nothing of the sender.
func TestFlat(t *testing.T) {
	r := load(t, tanks.Demo, "conditioner.input_range=[300, 400]")
	if _, err := r.Search(0); err != calibration.ErrFlat {
		t.Errorf("%v, expected %v", err, calibration.ErrFlat)
	}
}

// BenchmarkSearch samples the demo and places five points.
func BenchmarkSearch(b *testing.B) {
	r := load(b, tanks.Demo)
	for b.Loop() {
		best(b, r, 0.25, 5)
	}
}
