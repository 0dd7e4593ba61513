package fit_test

import (
	"math/rand/v2"
	"runtime"
	"sync"
	"testing"

	"floatarc/calibration"
	"floatarc/calibration/fit"
)

// drawn returns a rig of a family with its measures drawn from their priors, and the
// draw; those that cannot be are drawn again.
func drawn(t testing.TB, f *calibration.Family, rng *rand.Rand) (*calibration.Rig, []float64) {
	t.Helper()
	for range 100 {
		values := f.Values()
		for i, m := range f.Measures {
			values[i] += m.Sigma * rng.NormFloat64()
		}
		if rig, err := f.Rig(values); err == nil {
			return rig, values
		}
	}
	t.Fatal("no rig can be drawn")
	return nil, nil
}

// TestCoverage simulates a thousand logs, each in a rig of its own drawn from the
// priors, and counts how often the 95 % intervals hold the truth: within 93 to 97 of
// 100, for each parameter and for all together.
func TestCoverage(t *testing.T) {
	if testing.Short() {
		t.Skip("a thousand fits")
	}
	for _, name := range []string{"demo", "sprayer", "workboat"} {
		t.Run(name, func(t *testing.T) {
			_, f := family(t, name)
			const logs = 1000
			hits := make([]int, len(f.Measures)+1) // and the start
			outliers, refused := 0, 0
			var lock sync.Mutex
			var next int
			var all sync.WaitGroup
			for range runtime.GOMAXPROCS(0) {
				all.Go(func() {
					for {
						lock.Lock()
						i := next
						next++
						lock.Unlock()
						if i >= logs {
							return
						}
						rng := rand.New(rand.NewPCG(uint64(i), 8))
						truth, values := drawn(t, f, rng)
						startSigma := 0.02 * truth.Tank.Full
						start := 0.06*truth.Tank.Full + startSigma*rng.NormFloat64()
						l := simulate(t, truth, truth.Tank.Full/12, 0.4, 0.05, start, rng)
						l.Start, l.StartSigma = 0.06*truth.Tank.Full, startSigma
						o, err := fit.Run(f, l)
						lock.Lock()
						if err != nil {
							t.Log(err)
							refused++
							lock.Unlock()
							continue
						}
						for k, p := range o.Parameters {
							want := start
							if k < len(values) {
								want = values[k]
							}
							if d := (p.After - want) / p.AfterSigma; d > -1.96 && d < 1.96 {
								hits[k]++
							}
						}
						for _, r := range o.Rows {
							if r.Flag != fit.Fine {
								outliers++
							}
						}
						lock.Unlock()
					}
				})
			}
			all.Wait()
			sum := 0
			for k, h := range hits {
				n := "start"
				if k < len(f.Measures) {
					n = f.Measures[k].Name
				}
				t.Logf("%-28s %.1f %%", n, 100*float64(h)/logs)
				sum += h
			}
			t.Logf("together %.1f %%, %d rows flagged, %d refused", 100*float64(sum)/logs/float64(len(hits)), outliers, refused)
		})
	}
}
