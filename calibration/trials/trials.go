package trials

import (
	"fmt"
	"math"
	"math/rand/v2"
	"runtime"
	"sync"
	"sync/atomic"

	"gonum.org/v1/gonum/mat"

	"floatarc/calibration"
)

// Trials are what is drawn.
type Trials struct {
	Family *calibration.Family
	Count  int    // of rigs
	Seed   uint64 // the same draws for the same seed, however many processors there are
	// Watch, if not nil, is told how many rigs are done.
	Watch func(done, of int)
}

// A Result is the figures of every rig that could be.
type Result struct {
	Measures []calibration.Measure
	Together bool        // the measures hang together
	Figures  [][]float64 // by figure, then by rig
	Drawn    [][]float64 // by measure, then by rig: in standard uncertainties from the value
	Refused  int         // rigs that cannot be: a float outside the tank
	Why      error       // of one of them
}

// least is how many rigs must be possible, as a share of those drawn.
const least = 0.5

// Run draws rigs and takes their figures, as many for each. A figure that a rig does not
// have is NaN.
func (t *Trials) Run(figures func(*calibration.Rig) ([]float64, error)) (*Result, error) {
	if t.Count < 1 {
		return nil, fmt.Errorf("%d rigs, expected 1 or more", t.Count)
	}
	drawn, err := t.draw()
	if err != nil {
		return nil, err
	}
	all := make([][]float64, t.Count)
	errs := make([]error, t.Count)
	var next atomic.Int64
	done := 0
	var workers sync.WaitGroup
	var watch sync.Mutex
	work := func() {
		for i := int(next.Add(1)) - 1; i < t.Count; i = int(next.Add(1)) - 1 {
			rig, err := t.Family.Rig(t.values(drawn[i]))
			if err == nil {
				all[i], err = figures(rig)
			}
			errs[i] = err
			if t.Watch != nil {
				watch.Lock()
				done++
				t.Watch(done, t.Count)
				watch.Unlock()
			}
		}
	}
	for range min(t.Count, runtime.GOMAXPROCS(0)) {
		workers.Go(work)
	}
	workers.Wait()
	return t.gather(drawn, all, errs)
}

// draw returns the measures of every rig, in standard uncertainties from their values.
// Each rig has a source of its own, so that no order of the work changes it. Measures that
// hang together are drawn so by the factor of their correlation (JCGM 101:2008, 6.4.8).
func (t *Trials) draw() ([][]float64, error) {
	out := make([][]float64, t.Count)
	var lower *mat.TriDense
	if c := t.Family.Correlation; c != nil {
		var factor mat.Cholesky
		if !factor.Factorize(c) {
			return nil, fmt.Errorf("no measures hang together as the correlation says, expected a positive definite one")
		}
		lower = &mat.TriDense{}
		factor.LTo(lower)
	}
	for i := range out {
		source := rand.New(rand.NewPCG(t.Seed, uint64(i)))
		out[i] = make([]float64, len(t.Family.Measures))
		for j, m := range t.Family.Measures {
			if m.Even {
				out[i][j] = math.Sqrt(3) * (2*source.Float64() - 1)
			} else {
				out[i][j] = source.NormFloat64()
			}
		}
		if lower != nil {
			var together mat.VecDense
			together.MulVec(lower, mat.NewVecDense(len(out[i]), out[i]))
			out[i] = together.RawVector().Data
		}
	}
	return out, nil
}

func (t *Trials) values(drawn []float64) []float64 {
	out := t.Family.Values()
	for j, m := range t.Family.Measures {
		out[j] += m.Sigma * drawn[j]
	}
	return out
}

// gather turns figures by rig into figures of those that can be.
func (t *Trials) gather(drawn, all [][]float64, errs []error) (*Result, error) {
	r := &Result{Measures: t.Family.Measures, Together: t.Family.Correlation != nil, Drawn: make([][]float64, len(t.Family.Measures))}
	for i, err := range errs {
		if err != nil {
			r.Refused++
			if r.Why == nil {
				r.Why = err
			}
			continue
		}
		if r.Figures == nil {
			r.Figures = make([][]float64, len(all[i]))
		}
		for k, v := range all[i] {
			r.Figures[k] = append(r.Figures[k], v)
		}
		for j, v := range drawn[i] {
			r.Drawn[j] = append(r.Drawn[j], v)
		}
	}
	if possible := t.Count - r.Refused; float64(possible) < least*float64(t.Count) {
		return nil, fmt.Errorf("%d of %d rigs drawn cannot be, expected less uncertain measures; one of them: %w", r.Refused, t.Count, r.Why)
	}
	return r, nil
}
