package fit

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/mat"
)

// A descent is on its way to the likeliest values.
type descent struct {
	*unknowns
	look   *look
	inputs []float64 // standard uncertainty of each reading, ohm; +Inf for one that does not count
	poured []float64 // of each pour, litres
	vague  []int     // pours of which nothing is known
	free   []int     // the unknowns that move; the others are left at their prior

	state   *state   // where it is
	tangent *tangent // about that, or near it
	system  *system  // about that

	linearised linearised // of which it is made
	stuck      bool       // it ended where it is not sure to be the likeliest
}

// Of the descent: the most steps; the shortest part of a step that is tried; the step, in
// prior uncertainties, below which it ends; and where no part of a step helps, that below
// which this is good enough, and that above which it counts as stuck.
const (
	mostSteps = 25
	shortest  = 1. / 64
	closeness = 1e-3
	nearly    = 0.01
	loosely   = 0.1
)

// newDescent starts from the prior values, with all unknowns free.
func newDescent(u *unknowns) (*descent, error) {
	d := &descent{unknowns: u, look: newLook(u.log.Rows), free: all(len(u.measures))}
	for i, r := range u.log.Rows {
		input, poured := r.InputSigma, r.PouredSigma
		if !r.read() {
			input = math.Inf(1)
		}
		d.inputs, d.poured = append(d.inputs, input), append(d.poured, poured)
		if r.Spilled {
			d.vague = append(d.vague, i)
		}
	}
	start := 0.0
	if u.start >= 0 {
		start = u.measures[u.start].Sigma
	}
	if err := d.blur(start, make([]float64, len(u.measures))); err != nil {
		return d, err
	}
	for _, i := range d.vague {
		d.forget(i)
	}
	return d, nil
}

// unknownPour is what may have gone in by a pour of which nothing is known, as a share of
// a full tank.
const unknownPour = 0.25

// forget takes a pour as one of which nothing is known.
func (d *descent) forget(row int) {
	d.poured[row] = math.Max(math.Abs(d.log.Rows[row].Poured), unknownPour*d.state.rig.Tank.Full)
	d.system = nil
	if !slices.Contains(d.vague, row) {
		d.vague = append(d.vague, row)
	}
}

// widest is the share of a full tank up to which what is not known of the litres evens out
// the ends of the live band.
const widest = 0.02

// blur takes what is not known of the start, litres, and looks anew at a state.
func (d *descent) blur(start float64, at []float64) error {
	rig, err := d.unknowns.rig(d.values(at))
	if err != nil {
		return err
	}
	d.look.blurred(start, d.poured, widest*rig.Tank.Full)
	d.tangent = nil
	d.state, err = d.unknowns.state(d.look, at)
	return err
}

// leave returns to their prior the unknowns that are not free.
func (d *descent) leave() error {
	at := make([]float64, len(d.measures))
	for _, k := range d.free {
		at[k] = d.state.at[k]
	}
	if slices.Equal(at, d.state.at) {
		return nil
	}
	var err error
	d.state, err = d.unknowns.state(d.look, at)
	return err
}

// settle descends, and once more with what is then known of the start.
func (d *descent) settle() error {
	err := d.descend()
	if err != nil || d.start < 0 {
		return err
	}
	own := d.system.inverse(all(len(d.measures)))
	if err := d.blur(d.measures[d.start].Sigma*math.Sqrt(own.At(d.start, d.start)), d.state.at); err != nil {
		return err
	}
	return d.descend()
}

// Of pours of which nothing is known: how often they are found anew, and to which share of
// a full tank.
const (
	mostFindings = 8
	found        = 1e-3
)

// descend goes to the likeliest values of the free unknowns and of the pours of which
// nothing is known: these take the readings to another part of the tank.
func (d *descent) descend() error {
	for range mostFindings {
		if err := d.descendTo(); err != nil {
			return err
		}
		correction := d.system.correction(d.poured)
		most := 0.0
		for _, k := range d.vague {
			most = math.Max(most, math.Abs(correction[k]))
		}
		if most <= found*d.state.rig.Tank.Full {
			return nil
		}
		for _, k := range d.vague {
			d.log.Rows[k].Poured += correction[k]
		}
		d.tangent = nil
		var err error
		if d.state, err = d.unknowns.state(d.look, d.state.at); err != nil {
			return err
		}
	}
	return nil
}

// descendTo does so for pours as they are by damped Gauss-Newton steps, each halved until
// it brings readings and priors nearer.
func (d *descent) descendTo() error {
	d.stuck = false
	if err := d.leave(); err != nil {
		return err
	}
	for range mostSteps {
		if err := d.linear(); err != nil {
			return err
		}
		step, err := d.system.step(d.free)
		if err != nil {
			return err
		}
		size := mat.Norm(step, math.Inf(1))
		if len(d.free) == 0 || size < closeness {
			return nil
		}
		taken, possible := d.part(step, d.free)
		if !possible { // something stands at the end of what it can be: on without it
			free := d.unblocked(step)
			if len(free) == 0 || len(free) == len(d.free) {
				d.stuck = size > loosely
				return nil
			}
			if step, err = d.system.step(free); err != nil {
				return err
			}
			if size = mat.Norm(step, math.Inf(1)); size < closeness {
				return nil
			}
			taken, _ = d.part(step, free)
		}
		if taken {
			continue
		}
		if size < nearly || slices.Equal(d.tangent.at, d.state.at) {
			d.stuck = size > loosely
			return nil
		}
		d.tangent = nil // the slopes are from elsewhere: once more with its own
	}
	d.stuck = true
	return nil
}

// part goes the largest part of a step of some unknowns that helps, and tells whether any
// part makes a rig that can be.
func (d *descent) part(step *mat.VecDense, of []int) (taken, possible bool) {
	now := d.misfit(d.system.off, d.state.at)
	for part := 1.; part >= shortest; part /= 2 {
		at := slices.Clone(d.state.at)
		for j, k := range of {
			at[k] += part * step.AtVec(j)
		}
		next, err := d.unknowns.state(d.look, at)
		if err != nil {
			continue
		}
		possible = true
		if d.misfit(d.offs(next), next.at) < now {
			d.state = next
			return true, true
		}
	}
	return false, possible
}

// unblocked returns the free unknowns that by themselves can go the shortest part of a
// step.
func (d *descent) unblocked(step *mat.VecDense) []int {
	var out []int
	for j, k := range d.free {
		at := slices.Clone(d.state.at)
		at[k] += shortest * step.AtVec(j)
		if _, err := d.unknowns.state(d.look, at); err == nil {
			out = append(out, k)
		}
	}
	return out
}

// misfit returns how unlikely readings and values are, twice the negative logarithm.
func (d *descent) misfit(off *mat.VecDense, at []float64) float64 {
	sum := mat.Dot(off, off)
	for _, x := range at {
		sum += x * x
	}
	return sum
}

// offs returns by how much the readings lie off a state, made independent.
func (d *descent) offs(s *state) *mat.VecDense {
	var off []float64
	for i, r := range d.log.Rows {
		if d.counts(i) {
			off = append(off, r.Input-s.inputs[i])
		}
	}
	var out mat.VecDense
	out.MulVec(d.system.readings, mat.NewVecDense(len(off), off))
	return &out
}

// counts tells whether the reading of a row counts.
func (d *descent) counts(row int) bool { return !math.IsInf(d.inputs[row], 1) }
