package main

import (
	"cmp"
	"fmt"
	"slices"

	"github.com/spf13/cobra"
	"gonum.org/v1/gonum/mat"

	"floatarc/calibration"
	"floatarc/calibration/trials"
	"floatarc/tanks"
)

// uncertainFlags ask how sure an answer is.
type uncertainFlags struct {
	asked, usual bool
	count        int
	seed         uint64
}

func (f *uncertainFlags) register(c *cobra.Command) {
	flags := c.Flags()
	flags.BoolVar(&f.asked, "uncertain", false, "how sure the answer is, by many rigs drawn from the uncertainties that the file states (\"230 ± 3 mm\")")
	flags.BoolVar(&f.usual, "usual", false, "with --uncertain: usual care for what people measure badly, where the file states nothing")
	flags.IntVar(&f.count, "rigs", 10000, "with --uncertain: how many `RIGS` are drawn")
	flags.Uint64Var(&f.seed, "seed", 1, "with --uncertain: another `NUMBER` draws others")
}

// mostRigs and leastRigs are how many may be drawn.
const (
	leastRigs = 200
	mostRigs  = 1000000
)

// check refuses flags that do not go together.
func (f *uncertainFlags) check(c *cobra.Command) error {
	for _, name := range []string{"usual", "rigs", "seed"} {
		if c.Flags().Changed(name) && !f.asked {
			return misusef("--%s, expected it with --uncertain", name)
		}
	}
	if f.count < leastRigs || f.count > mostRigs {
		return misusef("--rigs %d, expected %d to %d", f.count, leastRigs, mostRigs)
	}
	return nil
}

// toleranceName is the key of the tolerance of the sender's reading.
const toleranceName = "sender.resistance.tolerance"

// doubted returns what is drawn: what the file states an uncertainty of, and if asked for
// what people measure badly.
func (j *job) doubted(usual bool) []tanks.Measure {
	all := j.file.Stated()
	if usual {
		all = j.file.Doubts()
	}
	var out []tanks.Measure
	for _, m := range all {
		// What a tolerance allows moves both ends together, and is drawn by itself; the
		// file's wiring does not count where it was measured.
		if m.Usual && j.file.Sender.Tolerance > 0 && m.OfOhms() || j.rig.Wiring.Installed != nil && m.OfWiring() {
			continue
		}
		out = append(out, m)
	}
	return out
}

// drawnFamily returns the rigs that are drawn; with the tolerance of the sender's reading,
// unless its ohms were measured, by themselves or through the wiring, or a promise covers
// it already.
func (j *job) drawnFamily(usual, tolerance bool) (*calibration.Family, error) {
	measures := j.doubted(usual)
	f := j.family(measures)
	ends := false
	for _, m := range measures {
		ends = ends || m.OfOhms()
	}
	if tolerance && j.file.Sender.Tolerance > 0 && !ends && !j.throughSender {
		f = j.withTolerance(f)
	}
	if len(f.Measures) == 0 {
		return nil, fmt.Errorf("%s: no measure says how well it is known, expected some such as arm = \"230 ± 3 mm\"; or --usual, which takes usual care for them", j.file.File)
	}
	return f, nil
}

// withTolerance adds a sender whose ohms are all off by the same factor.
func (j *job) withTolerance(f *calibration.Family) *calibration.Family {
	n := len(f.Measures)
	var together *mat.SymDense
	if f.Correlation != nil {
		together = mat.NewSymDense(n+1, nil)
		together.SetSym(n, n, 1)
		for i := range n {
			for k := range i + 1 {
				together.SetSym(i, k, f.Correlation.At(i, k))
			}
		}
	}
	return &calibration.Family{
		Correlation: together,
		Measures:    append(f.Measures, calibration.Even(toleranceName, j.file.Sender.Tolerance)),
		Rig: func(values []float64) (*calibration.Rig, error) {
			rig, err := f.Rig(values[:n])
			if err == nil {
				rig.Wiring = rig.Wiring.Seeing(1 + values[n])
			}
			return rig, err
		},
	}
}

// draw draws rigs, with a bar on a terminal.
func (f *uncertainFlags) draw(family *calibration.Family, figures func(*calibration.Rig) ([]float64, error)) (*trials.Result, error) {
	t := &trials.Trials{Family: family, Count: f.count, Seed: f.seed}
	progress, finish := watch("drawing rigs")
	defer finish()
	t.Watch = progress
	return t.Run(figures)
}

// A causeRow is a measure and its share of what is uncertain.
type causeRow struct {
	Name  string `json:"name"`
	Value number `json:"value"`
	Sigma number `json:"sigma"`
	Unit  string `json:"unit"`
	Usual bool   `json:"usual"`
	Share number `json:"share"` // of the variance
}

// A bandRow holds 95 of 100 rigs.
type bandRow struct {
	Low  number `json:"low"`
	High number `json:"high"`
}

func bandOf(b trials.Band) bandRow { return bandRow{number(b.Low), number(b.High)} }

// causeRows returns the measures, the one that causes the most first.
func causeRows(r *trials.Result, shares []float64) []causeRow {
	out := []causeRow{}
	if shares == nil {
		return out
	}
	for i, m := range r.Measures {
		out = append(out, causeRow{m.Name, number(m.Value), number(m.Sigma), m.Unit, m.Usual, number(shares[i])})
	}
	slices.SortStableFunc(out, func(a, b causeRow) int { return cmp.Compare(b.Share, a.Share) })
	return out
}
