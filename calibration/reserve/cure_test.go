package reserve

import (
	"errors"
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"

	"floatarc/tanks"
)

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
	w, err := early.Solve()
	if !errors.As(err, &no) || no.Reason != Always {
		t.Errorf("a reserve of nearly all: %v", err)
	} else if w.Chosen.Possible() || w.LevelOnly.Possible() || w.Steady.Possible() {
		t.Errorf("no lamp, but %+v, %+v, %+v", w.Chosen, w.LevelOnly, w.Steady)
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
