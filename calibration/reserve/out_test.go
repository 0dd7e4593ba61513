package reserve

import (
	"math"
	"math/rand/v2"
	"testing"

	"floatarc/float"
	"floatarc/tanks"
)

// TestOutBearsOrdinaryDriving lets senders of the tolerance and the winding light the
// lamp at one attitude, and reads them at others with as much fuel: none comes nearer
// than a step to what would put it out, and a full tank does.
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
		if step := math.Abs(p.stepped(0, 1)); nearest < step-1e-6 || nearest > 2*step {
			t.Errorf("%s: goes out at %g ohm, and a lit sender comes to %g ohm before it, expected a step of %g", c.name, out.Off, nearest, step)
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
			if travel, with := p.lights(out.Off, nominal), p.OutAt(out.Off); travel <= w.Chosen.Travel || with > p.Rig.Tank.Full+1e-9 {
				t.Errorf("%s, %g L: lit below %g, out above %g, with %g L of %g", c.name, litres, w.Chosen.Travel, travel, with, p.Rig.Tank.Full)
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
