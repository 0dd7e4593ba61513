package fit_test

import (
	"fmt"
	"math/rand/v2"
	"testing"

	"floatarc/calibration"
	"floatarc/calibration/fit"
	"floatarc/float"
)

// simulate pours and reads in a rig: cans up to full, then half of it drained again.
func simulate(t testing.TB, rig *calibration.Rig, can, meter, pour float64, start float64, rng *rand.Rand) *fit.Log {
	t.Helper()
	l := &fit.Log{Start: start}
	litres := start
	row := func(poured float64, sense float.Sense) {
		litres += poured + pour*rng.NormFloat64()
		rel, ok := rig.On(rig.Level, sense)
		if !ok {
			t.Fatal("held")
		}
		input := rig.EvenAt(rel.Travel(litres)) + meter*rng.NormFloat64()
		l.Rows = append(l.Rows, fit.Row{Poured: poured, PouredSigma: pour, Input: input, InputSigma: meter, Sense: sense})
	}
	for litres+can < rig.Tank.Full {
		row(can, float.Rising)
	}
	for litres > rig.Tank.Full/2 {
		row(-can, float.Falling)
	}
	return l
}

func TestTry(t *testing.T) {
	for _, name := range []string{"demo", "workboat"} {
		_, f := family(t, name)
		rng := rand.New(rand.NewPCG(1, 2))
		values := f.Values()
		values[0] += 4
		for i, m := range f.Measures {
			if m.Name == "wiring.ground" {
				values[i] += 0.8
			}
		}
		truth, err := f.Rig(values)
		if err != nil {
			t.Fatal(err)
		}
		l := simulate(t, truth, truth.Tank.Full/12, 0.3, 0.03, 0, rng)
		o, err := fit.Run(f, l)
		if err != nil {
			t.Fatal(err)
		}
		for i, p := range o.Parameters {
			fmt.Printf("%-28s %8.3f ± %.3f → %8.3f ± %.3f truth %.3f %s %s\n", p.Name, p.Value, p.Sigma, p.After, p.AfterSigma, values[i], p.Left, p.With)
		}
		for _, r := range o.Rows {
			fmt.Printf("%7.2f L %7.2f ohm exp %7.2f model %7.2f res %6.2f prior %6.2f blind %v used %v %s\n", r.Litres, r.Input, r.Expected, r.Model, r.Residual, r.Prior, r.Blind, r.Used, r.Flag)
		}
		fmt.Println("chi2", o.Square, o.Readings, o.Chance, o.Widened, o.RMS, o.Prior)
	}
}

func BenchmarkRun(b *testing.B) {
	for _, name := range []string{"demo", "workboat", "quad", "sprayer", "launch"} {
		_, f := family(b, name)
		rng := rand.New(rand.NewPCG(1, 2))
		values := f.Values()
		values[0] += 4
		truth, err := f.Rig(values)
		if err != nil {
			b.Fatal(err)
		}
		l := simulate(b, truth, truth.Tank.Full/12, 0.3, 0.03, 0, rng)
		b.Run(name, func(b *testing.B) {
			for b.Loop() {
				if _, err := fit.Run(f, l); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
