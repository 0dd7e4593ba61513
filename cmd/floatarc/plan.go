package main

import (
	"errors"
	"fmt"
	"slices"

	"github.com/spf13/cobra"

	"floatarc/calibration"
	"floatarc/gauge"
	"floatarc/tanks/quantity"
	"floatarc/volume"
)

// A plan is what the conditioner is to store.
type plan struct {
	method    string
	points    []calibration.Point
	lines     *gauge.Lines
	unreached []string // labels of marks that share a blind band with another
	spared    []string // labels of points for which there is no place
	search    *calibration.Search
	best      calibration.Best
	rounded   bool
}

// planFlags are the flags of the commands that plan points.
type planFlags struct {
	method    method
	neverOver share
	round     bool
	measured  readings
}

const (
	atMarks = "marks"
	free    = "best"
	quarter = 0.25
)

func (f *planFlags) register(c *cobra.Command) {
	f.registerMethod(c)
	registerMeasured(c, &f.measured)
}

// registerMeasured registers the wiring as it was found.
func registerMeasured(c *cobra.Command, r *readings) {
	c.Flags().Var(r, "measured", `the wiring as installed: ohms at the terminals with the sender at known places, "low=241, high=34.1": low or high (the arm as far as it goes in the tank), empty, half or full (fuel between the marks), a mark, litres, or the sender's own ohms (33ohm=34.1)`)
}

// registerMethod registers where to put the points.
func (f *planFlags) registerMethod(c *cobra.Command) {
	f.method, f.neverOver = atMarks, quarter
	c.Flags().Var(&f.method, "method", `where to put the points: "marks", at the printed marks of the dial, or "best", where the needle lies least`)
	c.Flags().Var(&f.neverOver, "never-over", `with --method best: below this share the needle never shows more than there is on falling fuel; 0 turns it off`)
}

func (f *planFlags) registerRound(c *cobra.Command) {
	c.Flags().BoolVar(&f.round, "round", false, "inputs on the conditioner's step or list, and with --method best positions that an eye can set: the best on that grid")
}

// method is a flag that takes one of the two ways.
type method string

func (m *method) Set(text string) error {
	if text != atMarks && text != free {
		return fmt.Errorf("expected %q or %q", atMarks, free)
	}
	*m = method(text)
	return nil
}

func (m *method) String() string { return string(*m) }
func (m *method) Type() string   { return "METHOD" }

// share is a flag that takes a share as people write it.
type share float64

func (s *share) Set(text string) error {
	q, err := quantity.Share.Parse(text)
	if err == nil && !(q.Value >= 0 && q.Value <= 1) {
		err = fmt.Errorf("%g, expected 0 to 1 (or a percentage)", q.Value)
	}
	*s = share(q.Value)
	return err
}

func (s *share) String() string { return fmt.Sprintf("%g", float64(*s)) }
func (s *share) Type() string   { return "SHARE" }

// readings is a flag that may not be given empty.
type readings struct {
	text  string
	given bool
}

func (r *readings) Set(text string) error {
	r.text, r.given = text, true
	return nil
}

func (r *readings) String() string { return r.text }
func (r *readings) Type() string   { return "READINGS" }

// loadPlan reads the rig of a command, puts its sender into the tank at an
// attitude, and plans its points.
func (o *options) loadPlan(file string, att attitude, f planFlags) (*job, *volume.Relation, *plan, error) {
	j, err := o.loadWired(file, f)
	if err != nil {
		return nil, nil, nil, err
	}
	rel, err := j.at(att)
	if err != nil {
		return nil, nil, nil, err
	}
	p, err := j.plan(f)
	return j, rel, p, err
}

// loadWired reads the rig of a command, with its wiring as it was measured.
func (o *options) loadWired(file string, f planFlags) (*job, error) {
	j, err := o.load(file)
	if err == nil && f.measured.given {
		err = j.install(f.measured.text)
	}
	return j, err
}

// plan plans the points of a job.
func (j *job) plan(f planFlags) (*plan, error) {
	p, err := j.planned(f)
	if err != nil {
		return nil, fmt.Errorf("%s: %w", j.file.File, err)
	}
	p.lines, err = j.lines(p.points)
	return p, err
}

// lines is the indicator of points.
func (j *job) lines(points []calibration.Point) (*gauge.Lines, error) {
	return j.rig.Conditioner.Lines(calibration.Pairs(points))
}

func (j *job) planned(f planFlags) (*plan, error) {
	if f.method == free {
		return j.free(f)
	}
	p, err := j.atMarks()
	if err == nil && f.round {
		p.rounded = true
		p.points, err = j.rig.RoundMarks(p.points)
	}
	return p, err
}

var errSame = errors.New("the sender shows one and the same resistance at every mark, expected two that differ")

// atMarks plans points at the printed marks, the best few of them where the
// conditioner has fewer places.
func (j *job) atMarks() (*plan, error) {
	all, unreached := j.rig.AtMarks()
	if len(all) < 2 {
		return nil, errSame
	}
	p := &plan{method: atMarks, points: j.rig.Choose(all, j.rig.Conditioner.Places)}
	for _, m := range unreached {
		p.unreached = append(p.unreached, m.Label)
	}
	for _, a := range all {
		if !slices.Contains(p.points, a) {
			p.spared = append(p.spared, a.Label)
		}
	}
	return p, nil
}

// free plans points that are free in input and in position.
func (j *job) free(f planFlags) (*plan, error) {
	s, err := j.rig.Search(float64(f.neverOver))
	if err != nil {
		return nil, err
	}
	p := &plan{method: free, search: s, rounded: f.round}
	if f.round {
		p.best, err = s.Rounded(j.rig.Conditioner.Places, j.file.Gauge.Settable)
	} else {
		p.best, err = s.Best(j.rig.Conditioner.Places)
	}
	p.points = p.best.Points
	return p, err
}
