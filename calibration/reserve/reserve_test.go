package reserve

import (
	"errors"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"
	"pgregory.net/rapid"

	"floatarc/calibration"
	"floatarc/float"
	"floatarc/geometry"
	"floatarc/tanks"
	"floatarc/volume"
)

func join(f *tanks.Rig) *calibration.Rig {
	low, high := f.Sender.Free()
	return &calibration.Rig{
		Tank: f.Tank.Tank, Sender: f.Sender.Sender(), Low: low, High: high, Level: f.Level,
		Wiring: f.Wiring, Dial: f.Gauge.Dial, Conditioner: f.Conditioner,
	}
}

// promise is that of a built-in rig, of its own reserve.
func promise(t testing.TB, name string, set ...string) *Promise {
	t.Helper()
	f, err := tanks.Load(name, set)
	if err != nil {
		t.Fatal(err)
	}
	litres, err := f.Reserve()
	if err != nil {
		t.Fatal(err)
	}
	return &Promise{
		Rig: join(f), Tolerance: f.Sender.Tolerance, Winding: f.Sender.Winding(),
		Envelope: Envelope{f.Use.Grade, f.Use.SideSlope}, Reserve: litres,
	}
}

// solved is a promise that can be kept.
func solved(t testing.TB, p *Promise) *Warning {
	t.Helper()
	w, err := p.Solve()
	if err != nil {
		t.Fatal(err)
	}
	return w
}

// TestDemoPromise holds the warning of the demo rig, and of two others, against
// 10,000 random attitudes inside the envelope: the least with which the lamp lights
// at any of them, less the most that cannot be drawn at any other, covers the
// reserve to 0.001 % of the capacity, a hundredth of what is promised.
func TestDemoPromise(t *testing.T) {
	if testing.Short() {
		t.Skip("long")
	}
	for _, name := range []string{"demo", "camper", "launch"} {
		p := promise(t, name)
		w := solved(t, p)
		random := rand.New(rand.NewPCG(7, 11))
		latest, unusable := math.Inf(1), 0.0
		for range 10000 {
			s, err := p.stand(p.Envelope.at(2*random.Float64()-1, 2*random.Float64()-1))
			if err != nil {
				t.Fatal(err)
			}
			latest = math.Min(latest, p.latest(w.Chosen)(s))
			unusable = math.Max(unusable, s.Unusable)
		}
		spare := (latest - unusable - p.Reserve) / p.Rig.Tank.Capacity()
		t.Logf("%s: lights with %.4f L on level ground; least %.4f L, unusable %.4f L, reserve %.4f L: %.2g of the capacity to spare",
			name, p.Level(w.Chosen), latest, unusable, p.Reserve, spare)
		if spare < -1e-5 {
			t.Errorf("%s: the promise is broken by %.2g of the capacity", name, -spare)
		}
	}
}

// TestZeroEnvelopeIsLevelOnly: without slopes the warning is that of level ground,
// and in a sender without tolerance that is the unusable fuel and the reserve.
func TestZeroEnvelopeIsLevelOnly(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := drawLong(t).promise(t)
		p.Reserve = rapid.Float64Range(2, 6).Draw(t, "reserve")
		w, err := p.Solve()
		if err != nil {
			t.Fatal(err)
		}
		if w.Chosen != w.LevelOnly || w.Chosen != w.Steady {
			t.Fatalf("%+v without slopes, %+v level, %+v steady", w.Chosen, w.LevelOnly, w.Steady)
		}
		want := p.Rig.Level.Contents.Unusable + p.Reserve
		if got := p.Level(w.Chosen); math.Abs(got-want) > 1e-9*want && !w.Chosen.AtStop {
			t.Fatalf("lights with %.12g L, expected %.12g", got, want)
		}
		q := *p
		q.Envelope = Envelope{NoseUp: 6}
		if wide, err := q.Solve(); err == nil && wide.LevelOnly != w.Chosen {
			t.Fatalf("level only %+v on slopes, %+v without", wide.LevelOnly, w.Chosen)
		}
	})
}

// TestWiderNeverLater: a wider envelope, a greater reserve and a worse sender never
// lower the warning level.
func TestWiderNeverLater(t *testing.T) {
	if testing.Short() {
		t.Skip("long")
	}
	rapid.Check(t, func(t *rapid.T) {
		p := drawLong(t).promise(t)
		p.Envelope = Envelope{rapid.Float64Range(0, 8).Draw(t, "nose"), rapid.Float64Range(0, 8).Draw(t, "left")}
		p.Reserve = rapid.Float64Range(0.5, 4).Draw(t, "reserve")
		wider := *p
		wider.Envelope.NoseUp += rapid.Float64Range(0, 4).Draw(t, "more nose")
		wider.Envelope.LeftUp += rapid.Float64Range(0, 4).Draw(t, "more left")
		wider.Reserve += rapid.Float64Range(0, 1).Draw(t, "more reserve")
		wider.Tolerance = rapid.Float64Range(0, 0.05).Draw(t, "tolerance")
		before, err := p.Solve()
		after, errAfter := wider.Solve()
		switch {
		case errAfter != nil:
			return
		case err != nil:
			t.Fatalf("%v, but the wider promise is kept", err)
		}
		a, b := p.Level(before.Chosen), wider.Level(after.Chosen)
		if b < a-2*p.slack() {
			t.Fatalf("lights with %.9g L, and with %.9g L in the wider envelope", a, b)
		}
		if after.Unusable.Litres < before.Unusable.Litres-p.slack() {
			t.Fatalf("unusable %.9g L, and %.9g L in the wider envelope", before.Unusable.Litres, after.Unusable.Litres)
		}
	})
}

// TestAcceleratedEnvelope: every slope with every acceleration lies in the
// accelerated envelope, which the worst of them reach.
func TestAcceleratedEnvelope(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		angle, acceleration := rapid.Float64Range(0, 35), rapid.Float64Range(0, 0.6)
		e := Envelope{angle.Draw(t, "nose"), angle.Draw(t, "left")}
		along, across := acceleration.Draw(t, "along"), acceleration.Draw(t, "across")
		wide := e.Accelerated(along, across)
		unit := rapid.Float64Range(-1, 1)
		a := e.at(unit.Draw(t, "u"), unit.Draw(t, "v")).Accelerated(along*unit.Draw(t, "x"), across*unit.Draw(t, "y"))
		if math.Abs(a.NoseUp) > wide.NoseUp+1e-9 || math.Abs(a.LeftUp) > wide.LeftUp+1e-9 {
			t.Fatalf("%+v lies outside %+v", a, wide)
		}
		corner := e.at(1, 1).Accelerated(along, across)
		if math.Abs(corner.LeftUp-wide.LeftUp) > 1e-9 {
			t.Fatalf("the corner reaches %g° of %g°", corner.LeftUp, wide.LeftUp)
		}
		easing := math.Min(across, e.at(1, 1).Up().Y)
		if steep := e.at(1, 1).Accelerated(along, -easing); math.Abs(steep.NoseUp-wide.NoseUp) > 1e-9 {
			t.Fatalf("the steepest nose is %g°, envelope %g°", steep.NoseUp, wide.NoseUp)
		}
	})
	if got := (Envelope{NoseUp: 5, LeftUp: 3}).Accelerated(0, 0); got != (Envelope{NoseUp: 5, LeftUp: 3}) {
		t.Errorf("without acceleration: %+v", got)
	}
	// From level ground the angles are those of the accelerations (atan(A/g), by
	// another program); on a slope they do not add.
	if got := (Envelope{}).Accelerated(0.2, 0.3); math.Abs(got.NoseUp-11.30993) > 5e-6 || math.Abs(got.LeftUp-16.69924) > 5e-6 {
		t.Errorf("0.2 g and 0.3 g: %+v", got)
	}
}

// TestEndsOfASender: at the late end of tolerance and winding the lamp lights at a
// lower travel than a nominal sender's, at the early end at a higher one, whichever
// way the ohms run; and an input comes back.
func TestEndsOfASender(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := drawLong(t)
		p := b.promise(t)
		p.Tolerance = rapid.Float64Range(0, 0.1).Draw(t, "tolerance")
		p.Winding = float.Winding{Start: b.low, Width: (b.high - b.low) / 80, Steps: 80}
		travel := b.low + (b.high-b.low)*rapid.Float64Range(0.3, 0.6).Draw(t, "travel")
		on := p.input(travel, late)
		l, n, e := p.lights(on, late), p.lights(on, nominal), p.lights(on, early)
		if math.Abs(l-travel) > 1e-9 || l > n-p.Winding.Width+1e-9 || n > e-p.Winding.Width+1e-9 {
			t.Fatalf("lit below %g°, %g° and %g°, expected %g° and rising", l, n, e, travel)
		}
	})
	p := longTank{length: 600, width: 300, height: 250, pivot: [2]float64{300, 150}, arm: 150, low: -60, high: 30, pickup: [2]float64{10, 10}, ohmsLow: 240, ohmsHigh: 33}.promise(t)
	if got := p.lights(300, nominal); !math.IsInf(got, -1) {
		t.Errorf("an input that is never reached lights below %g°", got)
	}
	if got := p.lights(20, nominal); !math.IsInf(got, 1) {
		t.Errorf("an input that is always passed lights below %g°", got)
	}
}

// TestContacts: on a stem the threshold lies half way between two contacts, and the
// lamp lights when the float leaves the upper one: 30 mm above the floor of a box of
// 0.18 L a millimetre there are 5.4 L.
func TestContacts(t *testing.T) {
	p := promise(t, tanks.Demo, `tank.body=[{shape="box", length=600, width=300, height=250}]`, "tank.fill.height=240", "tank.pickup.at=[300,150,10]", "tank.rated=45",
		`sender={kind="stem", foot=[300,150,10], head=[300,150,230], pitch=10, resistance={low=230, high=10}}`, "use.reserve='3 L'", "use.grade=0", "use.side_slope=0", "gauge.empty=1", "wiring.ground=0", "wiring.length=0")
	w := solved(t, p)
	// 1.8 L are unusable and 3 L the reserve: 4.8 L, 26.7 mm. The next contact up is
	// number 2, at 30 mm: when the float leaves it, 210 ohm become 220.
	if w.Chosen.On != 215 || math.Abs(p.Level(w.Chosen)-5.4) > 1e-9 {
		t.Errorf("lit at %g ohm with %g L, expected 215 ohm and 5.4 L", w.Chosen.On, p.Level(w.Chosen))
	}
	// A sender that is 6 % low shows 206.8 for the 220 ohm; the next contact of a
	// nominal one is 200 ohm.
	p.Tolerance = 0.06
	w = solved(t, p)
	if got := w.Chosen.On; math.Abs(got-203.4) > 1e-9 {
		t.Errorf("with a tolerance lit at %g ohm, expected 203.4", got)
	}
}

// TestOutBearsOrdinaryDriving lets senders of the tolerance and the winding light the
// lamp at one attitude, and reads them at others with as much fuel: none shows what
// would put it out, and a full tank does.
func TestOutBearsOrdinaryDriving(t *testing.T) {
	if testing.Short() {
		t.Skip("long")
	}
	random := rand.New(rand.NewPCG(3, 5))
	within := func() float64 { return 2*random.Float64() - 1 }
	for _, c := range []struct {
		name string
		set  []string
	}{
		{"demo", nil}, {"demo", []string{"sender.resistance.tolerance=0.1"}}, {"camper", []string{"sender.resistance.tolerance=0.05"}}, {"launch", nil},
		{"sprayer", []string{"sender.resistance.tolerance=0.05", "sender.resistance.turns=60"}}, {"loader", []string{"sender.resistance.tolerance=0.05"}},
	} {
		p := promise(t, c.name, c.set...)
		w := solved(t, p)
		ordinary := p.Envelope.Scaled(0.5)
		out, err := p.Out(w.Chosen, ordinary)
		if err != nil {
			t.Fatal(err)
		}
		if out.Limited {
			t.Errorf("%s: limited", c.name)
		}
		var stances []*stance
		for _, row := range ordinary.Grid(coarseness) {
			more, err := p.stances(row...)
			if err != nil {
				t.Fatal(err)
			}
			stances = append(stances, more...)
		}
		track, wiring := p.Rig.Sender.Track(), p.Rig.Wiring
		nearest := math.Inf(1)
		for i := range 3000 {
			factor, met, meets := 1+p.Tolerance*within(), within(), within()
			if i%2 == 0 { // the corners matter most
				factor, met, meets = 1+p.Tolerance*math.Copysign(1, within()), 1, 1
			}
			a, b := stances[random.IntN(len(stances))], stances[random.IntN(len(stances))]
			litres := a.lit(float.Rising, track.Travel(wiring.Sender(w.Chosen.On)/factor)+met*p.Winding.Width)
			shown := wiring.Input(track.Ohms(b.on(float.Falling).Travel(litres)+meets*p.Winding.Width) * factor)
			if !p.Falls() {
				shown = -shown
			}
			off := out.Off
			if !p.Falls() {
				off = -off
			}
			nearest = math.Min(nearest, shown-off)
		}
		if nearest < -1e-6 || nearest > 1 {
			t.Errorf("%s: goes out at %g ohm, and a lit sender comes to %g ohm before it", c.name, out.Off, nearest)
		}
		if level := p.Rig.InputAt(p.Rig.Level.Travel(p.Rig.Tank.Full)); !p.fuller(level, out.Off) {
			t.Errorf("%s: goes out at %g ohm, a full tank shows %g", c.name, out.Off, level)
		}
	}
}

// TestOutIsApart: a lamp goes out at least a step of the conditioner and a fiftieth of
// the inputs later than it lights, on a stem a contact, and a full tank puts it out,
// however little room there is; or there is no lamp.
func TestOutIsApart(t *testing.T) {
	stem := []string{`tank.body=[{shape="box", length=600, width=300, height=250}]`, "tank.fill.height=240", "tank.pickup.at=[300,150,10]", "tank.rated=45",
		`sender={kind="stem", foot=[300,150,10], head=[300,150,230], pitch=10, resistance={low=230, high=10}}`, "gauge.empty=1"}
	dragging := []string{"sender.float.friction='15 N.mm'", "tank.fill.height=180", "gauge.full='sender'"}
	kept := 0
	for _, c := range []struct {
		name string
		set  []string
	}{{"arm", nil}, {"arm on slopes", []string{"use.grade=15"}}, {"low top", []string{"use.grade=15", "sender.stop_high=-15", "gauge.full='sender'"}}, {"dragging arm", dragging}, {"stem", stem}, {"fine arm", []string{"sender.resistance.turns=1000"}}} {
		for litres := 1.0; litres < 46; litres += 3 {
			p := promise(t, tanks.Demo, append([]string{"use.grade=0", "use.side_slope=0"}, c.set...)...)
			p.Reserve = litres
			w, err := p.Solve()
			if err != nil {
				continue
			}
			kept++
			out, err := p.Out(w.Chosen, p.Envelope)
			if err != nil {
				t.Fatal(err)
			}
			if nearest := p.apartFrom(w.Chosen.On); p.fuller(nearest, out.Off) || out.Off == w.Chosen.On {
				t.Errorf("%s, %g L: on at %g and off at %g ohm, expected %g or further", c.name, litres, w.Chosen.On, out.Off, nearest)
			}
			if out.Travel <= w.Chosen.Travel || out.Litres > p.Rig.Tank.Full+1e-9 {
				t.Errorf("%s, %g L: lit below %g, out above %g, with %g L of %g", c.name, litres, w.Chosen.Travel, out.Travel, out.Litres, p.Rig.Tank.Full)
			}
			level := p.level()
			full := p.Rig.InputAt(level.on(float.Rising).Travel(p.Rig.Tank.Full))
			if !p.fuller(full, out.Off) {
				t.Errorf("%s, %g L: out at %g ohm, a full tank shows %g", c.name, litres, out.Off, full)
			}
			if on, off := p.Settings(w.Chosen.On, out.Off); p.fuller(w.Chosen.On, on) || !math.IsNaN(off) && (!p.fuller(off, on) || !p.fuller(full, off)) || math.IsNaN(off) && p.fuller(full, on-3) {
				t.Errorf("%s, %g L: set to %g and %g ohm for %g and %g, full %g", c.name, litres, on, off, w.Chosen.On, out.Off, full)
			}
		}
	}
	if kept < 40 {
		t.Errorf("%d lamps", kept)
	}
	// Without slopes and friction just that is left.
	p := promise(t, tanks.Demo, "use.grade=0", "use.side_slope=0", "sender.float.friction=0", "sender.resistance.tolerance=0")
	p.Winding = float.Winding{}
	w := solved(t, p)
	span := p.Rig.InputAt(p.Rig.Low) - p.Rig.InputAt(p.Rig.High)
	if out, err := p.Out(w.Chosen, p.Envelope); err != nil || math.Abs(w.Chosen.On-out.Off-span/50) > 1e-9 {
		t.Errorf("on at %g, off at %g ohm, %v; expected %g ohm less", w.Chosen.On, out.Off, err, span/50)
	}
}

// TestRisingFuelThatHoldsTheFloat: where friction holds the float under on rising
// fuel, no refill puts a lamp out, and there is none.
func TestRisingFuelThatHoldsTheFloat(t *testing.T) {
	p := promise(t, tanks.Demo, "sender.float.mass='60 g'", "sender.float.friction='30 N.mm'", "use.reserve='2 L'", "use.side_slope=0")
	var no *Impossible
	if _, err := p.Solve(); !errors.As(err, &no) || no.Reason != Held {
		t.Errorf("%v, expected a float that is held", err)
	}
}

// TestUnknownUnusable: a pickup that is known on level ground only makes no promise
// on slopes.
func TestUnknownUnusable(t *testing.T) {
	p := promise(t, tanks.Demo)
	tank := *p.Rig.Tank
	tank.Pickup = volume.Measured(2)
	p.Rig.Tank = &tank
	if _, err := p.Solve(); err == nil || !strings.Contains(err.Error(), "expected a draw point") {
		t.Errorf("promises on slopes: %v", err)
	}
	if _, err := p.MostUnusable(); err == nil {
		t.Error("tells the most on slopes")
	}
	p.Envelope = Envelope{}
	if _, err := p.Solve(); err != nil {
		t.Errorf("on level ground: %v", err)
	}
}

// TestSimplerLamps holds the least fuel with which the three lamps light, and the most
// with which the promised one is lit, against 2,000 random attitudes; on rising fuel
// there is more than on falling.
func TestSimplerLamps(t *testing.T) {
	if testing.Short() {
		t.Skip("long")
	}
	for _, name := range []string{"demo", "camper", "launch"} {
		p := promise(t, name)
		w := solved(t, p)
		random := rand.New(rand.NewPCG(1, 2))
		least := [4]float64{math.Inf(1), math.Inf(1), math.Inf(1), math.Inf(1)}
		most, falling := 0.0, 0.0
		for range 2000 {
			s, err := p.stand(p.Envelope.at(2*random.Float64()-1, 2*random.Float64()-1))
			if err != nil {
				t.Fatal(err)
			}
			for i, c := range []Choice{w.Chosen, w.LevelOnly, w.Steady} {
				least[i] = math.Min(least[i], s.lit(float.Falling, p.lights(c.On, late)))
			}
			least[3] = math.Min(least[3], s.Unusable)
			most = math.Max(most, s.lit(float.Rising, p.lights(w.Chosen.On, early)))
			falling = math.Max(falling, s.lit(float.Falling, p.lights(w.Chosen.On, early)))
		}
		slack := 5e-4 * p.Rig.Tank.Full // of the 2,000
		for i, told := range []float64{w.Latest.Litres, w.LevelOnlyLatest.Litres, w.SteadyLatest.Litres, w.Least.Litres} {
			if told > least[i]+1e-4*p.Rig.Tank.Full || i < 3 && told < least[i]-20*slack {
				t.Errorf("%s: figure %d is told as %.6g L, at random attitudes %.6g L", name, i, told, least[i])
			}
		}
		if w.Earliest.Litres < most-1e-4*p.Rig.Tank.Full || w.Earliest.Litres > most+20*slack {
			t.Errorf("%s: lit with up to %.6g L, at random attitudes %.6g L", name, w.Earliest.Litres, most)
		}
		if name == "demo" && !(most > falling+0.02) {
			t.Errorf("%s: lit with up to %.6g L on rising fuel and %.6g L on falling", name, most, falling)
		}
	}
}

// TestNoLamp tells why there is none, and what would cure it.
func TestNoLamp(t *testing.T) {
	if testing.Short() {
		t.Skip("long")
	}
	p := promise(t, "buggy", "use.reserve='155 km'")
	_, err := p.Solve()
	var no *Impossible
	if !errors.As(err, &no) || no.Reason != Blind || !(no.Needs > no.Tells) || no.Tells <= 0 {
		t.Fatalf("%v", err)
	}
	cures, err := p.Cures(math.NaN(), p.Envelope.Scaled)
	if err != nil {
		t.Fatal(err)
	}
	seen := map[Part]int{}
	for _, c := range cures {
		seen[c.Of]++
		var less *Promise // with a little less of the cure
		switch c.Of {
		case OfPickup:
			less, _, _ = p.pickupMoved(c.Toward, c.By-2*more)
		case OfSender:
			less, _, _ = p.senderMoved(c.Toward, c.By-2*more)
		case OfSlopes:
			q := *p
			q.Envelope, less = p.Envelope.Scaled(c.Share+0.06), &q
		case OfReserve:
			q := *p
			q.Reserve, less = p.Reserve*(c.Share+0.06), &q
		}
		most := 1.0
		for _, aim := range []float64{0.75, 0.5} {
			if c.Litres <= aim*p.Rig.Tank.Full {
				most = aim
			}
		}
		most *= p.Rig.Tank.Full
		if w, err := less.Solve(); err == nil && less.Level(w.Chosen) <= most {
			t.Errorf("%+v: less of it would do", c)
		}
		if !(c.Litres > 0 && c.Litres <= most) {
			t.Errorf("%+v: the lamp would light with %g L", c, c.Litres)
		}
	}
	if seen[OfPickup] == 0 || seen[OfSender] == 0 || seen[OfSlopes] != 1 || seen[OfReserve] != 1 {
		t.Errorf("cures of %v", seen)
	}
	held := promise(t, tanks.Demo, "sender.float.friction='80 N.mm'", "use.grade=0", "use.side_slope=0")
	if _, err := held.Solve(); !errors.As(err, &no) || no.Reason != Held {
		t.Errorf("an arm that friction holds: %v", err)
	}
	early := promise(t, tanks.Demo, "use.reserve='43.9 L'", "use.grade=0", "use.side_slope=0", "gauge.full='sender'")
	if _, err := early.Solve(); !errors.As(err, &no) || no.Reason != Always {
		t.Errorf("a reserve of nearly all: %v", err)
	}
}

// TestShortCures: a pickup that can be moved down by a few millimetres only, which is
// enough, is told so.
func TestShortCures(t *testing.T) {
	if testing.Short() {
		t.Skip("long")
	}
	p := promise(t, tanks.Demo, "use.reserve='44.6 L'", "use.grade=0", "use.side_slope=0", "sender.resistance.tolerance=0", "sender.resistance.turns=2000",
		"gauge.full='sender'", "tank.pickup.at=[320,170,12]", "wiring.ground=0", "sender.float.friction=0", "conditioner.step=0.1")
	for litres := 40.0; litres < 46; litres += 0.05 {
		p.Reserve = litres
		if _, err := p.Solve(); err != nil {
			break
		}
	}
	cures, err := p.Cures(math.NaN(), p.Envelope.Scaled)
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range cures {
		if c.Of == OfPickup && c.Toward == (r3.Vec{Z: -1}) {
			if c.By > 11 {
				t.Errorf("the pickup %g mm further down, expected a few", c.By)
			}
			return
		}
	}
	t.Errorf("no pickup further down cures %g L: %+v", p.Reserve, cures)
}

// TestMoved: a sender that is moved and moved back is where it was.
func TestMoved(t *testing.T) {
	p := promise(t, tanks.Demo)
	q, place, ok := p.senderMoved(r3.Vec{Z: 1}, 4)
	if !ok || place != (r3.Vec{X: 320, Y: 170, Z: 189}) {
		t.Fatalf("moved to %v, %v", place, ok)
	}
	back, _, ok := q.senderMoved(r3.Vec{Z: -1}, 4)
	if a, b := solved(t, p), solved(t, back); !ok || math.Abs(a.Chosen.On-b.Chosen.On) > 1e-6 {
		t.Errorf("%g ohm, moved and moved back %g ohm", a.Chosen.On, b.Chosen.On)
	}
	if _, _, ok := p.senderMoved(r3.Vec{Z: 1}, 400); ok {
		t.Error("the pivot may lie outside the tank")
	}
	if _, _, ok := p.pickupMoved(r3.Vec{Z: -1}, 20); ok {
		t.Error("the pickup may lie outside the tank")
	}
}

// TestAttitudesOfAnEnvelope: the level, the corners and the middles of the edges are
// among the landmarks, once each.
func TestAttitudesOfAnEnvelope(t *testing.T) {
	got := Envelope{10, 4}.Landmarks()
	if len(got) != 9 || got[0] != (geometry.Attitude{}) {
		t.Errorf("%v", got)
	}
	for e, n := range map[Envelope]int{{}: 1, {NoseUp: 3}: 3, {LeftUp: 3}: 3} {
		if got := e.Landmarks(); len(got) != n || got[0] != (geometry.Attitude{}) {
			t.Errorf("%v: %v", e, got)
		}
	}
}
