package fit_test

import (
	"flag"
	"math"
	"math/rand/v2"
	"runtime"
	"strings"
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

// Long runs look at other rigs, too: -rigs demo,sprayer,workboat,launch.
var (
	rigs = flag.String("rigs", "sprayer,workboat", "built-in rigs in which logs are simulated")
	logs = flag.Int("logs", 1000, "logs that are simulated in each")
)

// A tally counts how often intervals hold the truth.
type tally struct {
	sync.Mutex
	next, fits, flagged int
	names               []string
	held                []int
}

// take returns the number of the next log.
func (c *tally) take() (int, bool) {
	c.Lock()
	defer c.Unlock()
	c.next++
	return c.next - 1, c.next <= *logs
}

// count adds an outcome.
func (c *tally) count(o *fit.Outcome, truth []float64) {
	c.Lock()
	defer c.Unlock()
	c.fits++
	for k, p := range o.Parameters {
		if c.fits == 1 {
			c.names, c.held = append(c.names, p.Name), append(c.held, 0)
		}
		if math.Abs(p.After-truth[k]) < fit.Coverage*p.AfterSigma {
			c.held[k]++
		}
	}
	for _, r := range o.Rows {
		if r.Flag != fit.Fine {
			c.flagged++
		}
	}
}

// TestCoverage simulates a thousand logs, each in a rig of its own drawn from the
// priors, and counts how often the 95 % intervals hold the truth: within 93 to 97 of
// 100, for each parameter. Of a log in which nothing is wrong a row is flagged in one of
// a hundred logs.
func TestCoverage(t *testing.T) {
	if testing.Short() {
		t.Skip("a thousand fits")
	}
	for _, name := range strings.Split(*rigs, ",") {
		t.Run(name, func(t *testing.T) {
			_, f := family(t, name)
			var c tally
			var workers sync.WaitGroup
			for range runtime.GOMAXPROCS(0) {
				workers.Go(func() {
					for i, ok := c.take(); ok; i, ok = c.take() {
						coverOne(t, f, i, &c)
					}
				})
			}
			workers.Wait()
			for k, held := range c.held {
				share := 100 * float64(held) / float64(c.fits)
				t.Logf("%-28s %.1f %%", c.names[k], share)
				if share < 93 || share > 97 {
					t.Errorf("%s: %.1f %% of the intervals hold the truth, expected 93 to 97", c.names[k], share)
				}
			}
			t.Logf("%d of %d logs fitted, %d rows flagged", c.fits, *logs, c.flagged)
			if c.fits < *logs || c.flagged > *logs/40 {
				t.Errorf("%d of %d logs fitted, %d rows flagged, expected all and about one in a hundred", c.fits, *logs, c.flagged)
			}
		})
	}
}

// coverOne simulates and fits one log, from a start that is not known well.
func coverOne(t *testing.T, f *calibration.Family, number int, c *tally) {
	rng := rand.New(rand.NewPCG(uint64(number), 8))
	rig, values := drawn(t, f, rng)
	full := rig.Tank.Full
	start := 0.06*full + 0.02*full*rng.NormFloat64()
	l := simulate(t, rig, full/12, 0.4, 0.05, start, rng)
	l.Start, l.StartSigma = 0.06*full, 0.02*full
	o, err := fit.Run(f, l)
	if err != nil {
		t.Error(err)
		return
	}
	c.count(o, append(values, start))
}
