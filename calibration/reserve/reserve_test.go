package reserve

import (
	"errors"
	"iter"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"floatarc/calibration"
	"floatarc/float"
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

// scattered puts the vehicle at random attitudes of the envelope, at the same ones each
// time.
func scattered(t testing.TB, p *Promise, n int) iter.Seq[*stance] {
	return func(yield func(*stance) bool) {
		random := rand.New(rand.NewPCG(7, 11))
		for range n {
			s, err := p.stand(p.Envelope.at(2*random.Float64()-1, 2*random.Float64()-1))
			if err != nil {
				t.Fatal(err)
			}
			if !yield(s) {
				return
			}
		}
	}
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
		latest, unusable := math.Inf(1), 0.0
		for s := range scattered(t, p, 10000) {
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
		least := [4]float64{math.Inf(1), math.Inf(1), math.Inf(1), math.Inf(1)}
		most, falling := 0.0, 0.0
		for s := range scattered(t, p, 2000) {
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
