package calibration_test

import (
	"math"
	"testing"

	"floatarc/calibration"
	"floatarc/gauge"
	"floatarc/geometry"
	"floatarc/tanks"
)

// boxLitres is the box's closed form the other way round: litres of an input.
func boxLitres(input float64) float64 {
	t := (200.5-input)/180*70 - 45
	return 0.12 * (150 + 200*math.Sin(t*math.Pi/180))
}

// TestBenchInABox holds the schedule against the closed form: points, and half way
// in ohms between them what the lines show there.
func TestBenchInABox(t *testing.T) {
	r := load(t, tanks.Demo, box...)
	points, _ := r.AtMarks()
	l := lines(t, r, points)
	settings := r.Bench(r.Level, points, l, 90)
	if len(settings) != 9 {
		t.Fatalf("%d settings, expected five points and four checks", len(settings))
	}
	for i, s := range settings {
		input := points[i/2].InputOhms
		position := points[i/2].Position
		tolerance := 1.5 / 90
		if s.Midpoint() {
			input = (input + points[i/2+1].InputOhms) / 2
			position = (position + points[i/2+1].Position) / 2
			tolerance = 3. / 90
		}
		if math.Abs(s.Input-input) > 1e-12 || math.Abs(s.Sender-(input-0.5)) > 1e-12 || math.Abs(s.Position-position) > 1e-12 ||
			math.Abs(s.Litres-boxLitres(input)) > 1e-8 || math.Abs(s.Tolerance-tolerance) > 1e-15 || s.Midpoint() != (i%2 == 1) {
			t.Errorf("%+v, expected %g ohm, %g, %g L", s, input, position, boxLitres(input))
		}
		if i == 0 || i == len(settings)-1 { // the needle is held on one side
			a, b := points[0], points[1]
			if i > 0 {
				a, b = points[3], points[4]
			}
			if want := (b.Position - a.Position) / (b.InputOhms - a.InputOhms); math.Abs(s.PerOhm-want) > 1e-9 {
				t.Errorf("%s: %g an ohm, expected %g", s.Label, s.PerOhm, want)
			}
		}
	}
}

// TestBenchHysteresis: at one input there is more in the tank on rising than on
// falling fuel, since a dragging arm reads low on its way up.
func TestBenchHysteresis(t *testing.T) {
	r := load(t, tanks.Demo)
	points, _ := r.AtMarks()
	for _, s := range r.Bench(r.Level, points, lines(t, r, points), 90) {
		if s.Blind {
			continue
		}
		if !(s.Rising > s.Litres && s.Litres > s.Falling) || s.Rising-s.Falling > 0.2 {
			t.Errorf("%+v", s)
		}
	}
	rel, err := r.At(geometry.Attitude{NoseUp: 3})
	if err != nil {
		t.Fatal(err)
	}
	level, tilted := r.Bench(r.Level, points, lines(t, r, points), 90), r.Bench(rel, points, lines(t, r, points), 90)
	if level[2].Position != tilted[2].Position || math.Abs(level[2].Litres-tilted[2].Litres) < 1 {
		t.Errorf("level %+v, nose up by 3° %+v: expected the same needle and other litres", level[2], tilted[2])
	}
}

// TestMoves moves one stored pair in the box: a pair put 15 ohm off its place is the
// one to move, back to where it was.
func TestMoves(t *testing.T) {
	r := load(t, tanks.Demo, box...)
	_, b, _ := best(t, r, 0, 4)
	stored := calibration.Pairs(b.Points)
	stored[1].Input += 15
	l, err := r.Conditioner.Lines(stored)
	if err != nil {
		t.Fatal(err)
	}
	curve := r.Curve(r.Level, l)
	moves := curve.Moves(r.Conditioner, stored)
	least := 0
	for i, m := range moves {
		if m.Percent < moves[least].Percent {
			least = i
		}
		if m.Percent > curve.Worst(l).Percent+1e-9 {
			t.Errorf("moving pair %d leaves %g %%, not moving it %g %%", i, m.Percent, curve.Worst(l).Percent)
		}
	}
	if least != 1 || math.Abs(moves[1].To-b.Points[1].InputOhms) > 0.5 || moves[1].Percent > 1.1*b.Least {
		t.Errorf("move pair %d to %.2f ohm, %.4f %% left; expected pair 1 to %.2f ohm, %.4f %%", least, moves[least].To, moves[least].Percent, b.Points[1].InputOhms, b.Least)
	}
}

// TestLookup holds a table against the box's closed form, more closely than its own
// judgement looks.
func TestLookup(t *testing.T) {
	divider := gauge.Divider{PullUp: 120}
	for _, converter := range []*gauge.Converter{nil, {Bits: 10, Full: 1}, {Bits: 12, Full: 0.8}} {
		r := load(t, tanks.Demo, box...)
		if converter != nil {
			r.Conditioner.Law, r.Conditioner.Feed.Converter = divider, converter
		}
		table, err := r.Lookup(17, 0.02)
		if err != nil {
			t.Fatal(err)
		}
		if len(table.Rows) != 17 || math.Abs(table.Shorted-20.5*0.9) > 1e-9 || math.Abs(table.Open-200.5*1.1) > 1e-9 {
			t.Errorf("%d rows, shorted below %g, open above %g ohm", len(table.Rows), table.Shorted, table.Open)
		}
		worst := 0.0
		for i := 1; i < len(table.Rows); i++ {
			a, b := table.Rows[i-1], table.Rows[i]
			if b.Litres >= a.Litres || converter != nil && b.Count <= a.Count {
				t.Fatalf("%+v then %+v", a, b)
			}
			for k := 0.0; k <= 100; k++ {
				input := a.Input + (b.Input-a.Input)*k/100
				share := k / 100
				if converter != nil {
					share = (divider.X(input) - divider.X(a.Input)) / (divider.X(b.Input) - divider.X(a.Input))
				}
				worst = math.Max(worst, math.Abs(a.Litres+share*(b.Litres-a.Litres)-boxLitres(math.Min(200.5, math.Max(20.5, input)))))
			}
		}
		if worst > 1.02*table.LitresOff || worst < 0.9*table.LitresOff {
			t.Errorf("straight lines are off by %g L, the table says %g L", worst, table.LitresOff)
		}
		if converter == nil {
			continue
		}
		counts := 0.0
		low := converter.Count(divider.X(20.5))
		for c := low + 1; c < converter.Count(divider.X(200.5)); c++ {
			at := func(c int) float64 { return boxLitres(divider.Ohms(converter.Share(c))) }
			counts = math.Max(counts, math.Abs(at(c+1)-at(c)))
		}
		if math.Abs(counts-table.PerCount) > 0.05*counts {
			t.Errorf("a count is worth up to %g L, the table says %g L", counts, table.PerCount)
		}
	}
	r := load(t, tanks.Demo, box...)
	if _, err := r.Lookup(1, 0); err == nil {
		t.Error("a table of one row was taken")
	}
	r.Conditioner.Law, r.Conditioner.Feed.Converter = divider, &gauge.Converter{Bits: 6, Full: 1}
	if _, err := r.Lookup(500, 0); err == nil {
		t.Error("500 rows of 64 counts were taken")
	}
}

// TestFaults tells a short and an open wire from the sender's own ends, whatever the
// conditioner takes.
func TestFaults(t *testing.T) {
	for limits, want := range map[string][2]float64{
		"[0, 500]": {20.5 * 0.9, 200.5 * 1.1}, "[40, 500]": {0, 200.5 * 1.1}, "[10, 205]": {20.5 * 0.9, math.Inf(1)},
	} {
		r := load(t, tanks.Demo, append(append([]string{}, box...), "conditioner.input_range="+limits)...)
		table, err := r.Lookup(9, 0.05)
		if err != nil {
			t.Fatal(err)
		}
		if math.Abs(table.Shorted-want[0]) > 1e-9 || table.Open != want[1] && math.Abs(table.Open-want[1]) > 1e-9 {
			t.Errorf("%s: shorted below %g, open above %g ohm, expected %g and %g", limits, table.Shorted, table.Open, want[0], want[1])
		}
	}
}

// TestMisread: a pull-up 2 % too small reads 2 % too many ohms.
func TestMisread(t *testing.T) {
	r := load(t, tanks.Demo, box...)
	want := 0.0
	for i := range 2001 {
		input := 20.5 + 180*float64(i)/2000
		for _, f := range []float64{1.02, 1 / 1.02} {
			want = math.Max(want, math.Abs(boxLitres(math.Max(20.5, math.Min(200.5, input*f)))-boxLitres(input)))
		}
	}
	if got := r.Misread(0.02); math.Abs(got-want) > 0.02*want {
		t.Errorf("%g L, expected %g L", got, want)
	}
	d, e := gauge.Divider{PullUp: 100}, gauge.Divider{PullUp: 98}
	if math.Abs(d.Ohms(e.X(77))-77/0.98) > 1e-9 {
		t.Error("a divider does not misread as the comment says")
	}
}

// TestInstalledWiring carries the line through two readings into the points.
func TestInstalledWiring(t *testing.T) {
	r := load(t, tanks.Demo, box...)
	in, err := gauge.Install([]gauge.Found{{Sender: 20, Terminals: 22}, {Sender: 200, Terminals: 211}})
	if err != nil {
		t.Fatal(err)
	}
	r.Wiring.Installed = in
	points, _ := r.AtMarks()
	for _, p := range points {
		sender := boxInput(p.Litres) - 0.5
		if want := 22 + (sender-20)*189/180; math.Abs(p.InputOhms-want) > 1e-8 || math.Abs(p.SenderOhms-sender) > 1e-8 {
			t.Errorf("%s: %g ohm at the terminals, expected %g", p.Label, p.InputOhms, want)
		}
	}
}
