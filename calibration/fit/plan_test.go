package fit_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"floatarc/calibration/fit"
)

// TestPlanHolds draws rigs from the priors, pours and reads in each, and counts how often
// the reading, and its change from the row before, lie in the band told beforehand: 93 to
// 97 of 100, but that of the rows next to a stop, where the band is the wider.
func TestPlanHolds(t *testing.T) {
	const rigs = 400
	_, f := family(t, "workboat")
	nominal, _ := moved(t, f, nil)
	can := nominal.Tank.Full / 12
	rng := rand.New(rand.NewPCG(4, 4))
	l := simulate(t, nominal, can, 0.4, 0.05, 0, rng)
	expected, err := fit.Plan(f, l)
	if err != nil {
		t.Fatal(err)
	}
	held, changes, n := 0, 0, 0
	for range rigs {
		truth, _ := drawn(t, f, rng)
		s := simulate(t, truth, can, 0.4, 0.05, 0, rng)
		for i, e := range expected[3:9] {
			r := s.Rows[i+3]
			if math.Abs(r.Input-e.Input) < fit.Coverage*e.Sigma {
				held++
			}
			if math.Abs(r.Input-s.Rows[i+2].Input-e.Change) < fit.Coverage*e.ChangeSigma {
				changes++
			}
			n++
		}
	}
	for what, got := range map[string]int{"readings": held, "changes": changes} {
		if share := 100 * float64(got) / float64(n); share < 93 || share > 97 {
			t.Errorf("%.1f %% of the %s lie in their band, expected 93 to 97", share, what)
		}
	}
	if last := expected[8]; last.ChangeSigma > last.Sigma/2 {
		t.Errorf("the change is known to %.2f ohm, the reading to %.2f, expected it much better", last.ChangeSigma, last.Sigma)
	}
}

// TestNext takes the reading that is said to tell the most, and holds what is then known
// against what was foretold; and no other reading tells more.
func TestNext(t *testing.T) {
	_, f := family(t, "workboat")
	truth, _ := moved(t, f, map[string]float64{"sender.arm": 2})
	const meter, pour = 0.3, 0.05
	few := simulate(t, truth, truth.Tank.Full/12, meter, pour, 0, rand.New(rand.NewPCG(2, 2)))
	few.Rows = few.Rows[:5]
	o := run(t, f, few)
	p, err := o.Prospect()
	if err != nil {
		t.Fatal(err)
	}
	next, ok := p.Next(meter, func(float64) float64 { return pour })
	if !ok {
		t.Fatal("nothing is gained anywhere")
	}
	litres := o.Rows[4].Litres
	after := func(at float64) float64 {
		more := &fit.Log{Rows: append([]fit.Row{}, few.Rows...)}
		rel := truth.Level
		more.Rows = append(more.Rows, fit.Row{Poured: at - litres, PouredSigma: pour, Input: truth.EvenAt(rel.Travel(at)), InputSigma: meter})
		q, err := run(t, f, more).Prospect()
		if err != nil {
			t.Fatal(err)
		}
		return q.Worst()
	}
	if got := after(next.Litres); math.Abs(got/next.After-1) > 0.15 { // the fit is a little bent
		t.Errorf("%.3f L remain uncertain, foretold were %.3f (of %.3f)", got, next.After, next.Before)
	}
	for _, share := range []float64{0.2, 0.4, 0.6, 0.9} {
		if got := after(share * truth.Tank.Full); got < 0.9*next.After {
			t.Errorf("a reading at %.0f L leaves %.3f L, the one that was advised %.3f", share*truth.Tank.Full, got, next.After)
		}
	}
}

// TestBefore: without a log, what is uncertain is what the measures make so: of a tank
// that is uncertain by a share, that share of the litres.
func TestBefore(t *testing.T) {
	_, f := family(t, "workboat")
	for i := range f.Measures {
		if f.Measures[i].Name != "tank.scale" {
			f.Measures[i].Sigma = 1e-9
		}
	}
	p, err := fit.Before(f)
	if err != nil {
		t.Fatal(err)
	}
	for i, litres := range p.Litres {
		if math.Abs(p.Sigma[i]/(0.01*litres)-1) > 0.01 {
			t.Errorf("%.1f L are known to %.3f, expected a hundredth", litres, p.Sigma[i])
		}
	}
}
