package fit_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"floatarc/calibration/fit"
)

func TestDbg(t *testing.T) {
	_, f := family(t, "sprayer")
	shown := 0
	for i := range 120 {
		rng := rand.New(rand.NewPCG(uint64(i), 8))
		truth, values := drawn(t, f, rng)
		startSigma := 0.02 * truth.Tank.Full
		start := 0.06*truth.Tank.Full + startSigma*rng.NormFloat64()
		l := simulate(t, truth, truth.Tank.Full/12, 0.4, 0.05, start, rng)
		l.Start, l.StartSigma = 0.06*truth.Tank.Full, startSigma
		o, err := fit.Run(f, l)
		if err != nil {
			continue
		}
		bad := false
		for k, p := range o.Parameters {
			if p.Name == "sender.resistance.low" && math.Abs(p.After-values[k])/p.AfterSigma > 2.2 {
				bad = true
			}
		}
		if !bad {
			continue
		}
		low, high := truth.Level.Reach()
		fmt.Println("=== truth low", truth.Low, "high", truth.High, "live", low, high)
		low, high = o.Rig.Level.Reach()
		fmt.Println("    fit   low", o.Rig.Low, "high", o.Rig.High, "live", low, high)
		for k, p := range o.Parameters {
			v := start
			if k < len(values) {
				v = values[k]
			}
			fmt.Printf("%-28s %8.3f ± %.3f → %8.3f ± %.3f truth %.3f %s %s\n", p.Name, p.Value, p.Sigma, p.After, p.AfterSigma, v, p.Left, p.With)
		}
		for _, r := range o.Rows {
			fmt.Printf("%7.2f L %7.2f ohm exp %7.2f model %7.2f res %6.2f prior %6.2f blind %v used %v %s\n", r.Litres, r.Input, r.Expected, r.Model, r.Residual, r.Prior, r.Blind, r.Used, r.Flag)
		}
		fmt.Println(o.Square, o.Chance)
		if shown++; shown > 3 {
			break
		}
	}
}
