package reserve

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"floatarc/float"
	"floatarc/tanks"
)

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
