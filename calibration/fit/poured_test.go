package fit_test

import (
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"floatarc/calibration/fit"
	"floatarc/float"
)

// TestPouredFollows turns simulated logs into litres and ohms, and holds them against the
// rig that made the log.
func TestPouredFollows(t *testing.T) {
	_, f := family(t, "workboat")
	truth, _ := moved(t, f, nil)
	l := simulate(t, truth, truth.Tank.Full/16, 1e-9, 1e-9, 0, rand.New(rand.NewPCG(1, 1)))
	for i := range l.Rows {
		l.Rows[i].InputSigma = 0.2
	}
	knots, strays, err := fit.Poured(l)
	if err != nil {
		t.Fatal(err)
	}
	if len(strays) > 0 {
		t.Errorf("%v stray", strays)
	}
	low, high := truth.Level.Live()
	if knots[0].Litres > low+truth.Tank.Full/16 || len(knots) < 50 {
		t.Errorf("from %.1f L in %d points, expected from next to %.1f L", knots[0].Litres, len(knots), low)
	}
	for i, k := range knots {
		if i > 0 && (k.Litres <= knots[i-1].Litres || k.Ohms >= knots[i-1].Ohms) {
			t.Errorf("%v follows %v", k, knots[i-1])
		}
		// Between the readings next to a stop the curve cannot know where it is.
		if k.Litres > low+0.12*truth.Tank.Full && k.Litres < high-0.12*truth.Tank.Full {
			if want := truth.EvenAt(truth.Level.Travel(k.Litres)); math.Abs(k.Ohms-want) > 0.35 {
				t.Errorf("%.1f L: %.2f ohm, the rig shows %.2f", k.Litres, k.Ohms, want)
			}
		}
	}
}

func TestPouredRefusals(t *testing.T) {
	row := func(poured, ohms float64) fit.Row { return fit.Row{Poured: poured, Input: ohms, InputSigma: 0.3} }
	for _, c := range []struct {
		rows []fit.Row
		says string
	}{
		{[]fit.Row{row(5, 200)}, "1 reading that counts"},
		{[]fit.Row{row(5, 200), row(5, 200), row(5, 200)}, "one and the same"},
		{[]fit.Row{row(5, 200), row(5, 150), row(5, 170), row(5, 100)}, "150 ohm at 10 L and 170 ohm at 15 L"},
	} {
		if _, _, err := fit.Poured(&fit.Log{Rows: c.rows}); err == nil || !strings.Contains(err.Error(), c.says) {
			t.Errorf("%v, expected a word of %q", err, c.says)
		}
	}
	sensed := func(sense float.Sense, from float64, poured float64, ohms ...float64) (rows []fit.Row) {
		rows = append(rows, fit.Row{Poured: from, Input: math.NaN()})
		for _, v := range ohms {
			rows = append(rows, fit.Row{Poured: poured, Input: v, InputSigma: 0.3, Sense: sense})
		}
		return rows
	}
	contrary := append(sensed(float.Rising, 0, 5, 200, 166, 133, 100), sensed(float.Falling, 0, -4, 160, 128, 95, 60)...)
	if _, _, err := fit.Poured(&fit.Log{Rows: contrary}); err == nil {
		t.Error("rows that were drained and go the other way are taken")
	}
	start := append([]fit.Row{{Input: 240, InputSigma: 0.3, Sense: float.Mean}}, sensed(float.Rising, 0, 10, 200, 150, 100)...)
	if knots, _, err := fit.Poured(&fit.Log{Rows: start}); err != nil || knots[0] != (fit.Knot{Litres: 0, Ohms: 240}) {
		t.Errorf("the reading before the first can: %v, %v", knots, err)
	}
	two, _, err := fit.Poured(&fit.Log{Rows: []fit.Row{row(5, 200), row(10, 100)}})
	if err != nil || len(two) < 2 || two[0] != (fit.Knot{Litres: 5, Ohms: 200}) || two[len(two)-1] != (fit.Knot{Litres: 15, Ohms: 100}) {
		t.Errorf("two readings: %v, %v", two, err)
	}
}

// TestPouredStrays: a slip of the pen lies off the curve through its neighbours.
func TestPouredStrays(t *testing.T) {
	l := &fit.Log{}
	for _, ohms := range []float64{240, 210, 182, 158, 125, 110, 87, 65, 44} { // 135 would be right
		l.Rows = append(l.Rows, fit.Row{Poured: 5, Input: ohms, InputSigma: 0.3})
	}
	_, strays, err := fit.Poured(l)
	if err != nil || len(strays) == 0 {
		t.Fatalf("%v, %v, expected 125 ohm among the strays", strays, err)
	}
	for _, s := range strays {
		if s.Ohms == 125 && math.Abs(s.Curve-134) < 2 {
			return
		}
	}
	t.Errorf("%v, expected 125 ohm, off by about 9", strays)
}

// TestPouredIsMonotone: whatever is poured and read, litres rise and ohms all rise or all
// fall, and readings that go one way are kept as they are.
func TestPouredIsMonotone(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(2, 12).Draw(t, "rows")
		sign := rapid.SampledFrom([]float64{-1, 1}).Draw(t, "sign")
		l := &fit.Log{}
		ohms, litres := 1000.0, 0.0
		at := map[float64]float64{}
		for range n {
			poured := rapid.Float64Range(0.5, 20).Draw(t, "poured")
			ohms += sign * rapid.Float64Range(0.5, 40).Draw(t, "ohms")
			litres += poured
			at[litres] = ohms
			l.Rows = append(l.Rows, fit.Row{Poured: poured, Input: ohms, InputSigma: 0.1, Sense: float.Rising})
		}
		knots, _, err := fit.Poured(l)
		if err != nil {
			t.Fatal(err)
		}
		for i, k := range knots {
			if i > 0 && (k.Litres <= knots[i-1].Litres || sign*(k.Ohms-knots[i-1].Ohms) <= 0) {
				t.Fatalf("%v follows %v", k, knots[i-1])
			}
			if want, read := at[k.Litres]; read && math.Abs(k.Ohms-want) > 1e-9*want {
				t.Fatalf("%v, read were %g ohm", k, want)
			}
		}
	})
}
