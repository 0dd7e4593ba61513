package fit

import (
	"errors"
	"math"
	"runtime"
	"slices"
	"sync"
	"sync/atomic"

	"gonum.org/v1/gonum/mat"

	"floatarc/calibration"
)

// A state is values of the unknowns, with the rig and the readings that they make.
type state struct {
	at     []float64 // in prior uncertainties
	values []float64
	rig    *calibration.Rig
	litres []float64 // at each row
	inputs []float64 // at each row
}

// errBelowEmpty is what stands in the way of a start below 0.
var errBelowEmpty = errors.New("less than nothing in the tank before the first row, expected 0 or more")

// state returns the readings of values.
func (u *unknowns) state(k *look, at []float64) (*state, error) {
	s := &state{at: at, values: u.values(at)}
	if u.start >= 0 && s.values[u.start] < 0 {
		return nil, errBelowEmpty
	}
	var err error
	if s.rig, err = u.rig(s.values); err != nil {
		return nil, err
	}
	s.litres = u.litres(s.values)
	s.inputs, err = k.inputs(s.rig, s.litres)
	return s, err
}

// Of a difference that stands for a derivative: the step in prior uncertainties, and in
// litres as a share of a full tank.
const (
	differing = 0.01
	pouring   = 1e-4
)

// A tangent is by how many ohms the reading at each row changes, about a state.
type tangent struct {
	at     []float64  // of the state
	slopes []float64  // for a litre more in the tank
	beside []float64  // what is besides not known of it, at an end of the live band
	design *mat.Dense // for a prior uncertainty more in each unknown
}

// tangent returns that of a state.
func (u *unknowns) tangent(k *look, s *state) (*tangent, error) {
	slopes, beside, err := k.settle(s.rig, s.litres)
	if err != nil {
		return nil, err
	}
	// Differences are small: what they are taken from must have been found as they are.
	k.forget()
	base := *s
	if base.inputs, err = k.inputs(s.rig, s.litres); err != nil {
		return nil, err
	}
	return &tangent{s.at, slopes, beside, u.design(k, &base, slopes)}, nil
}

// How far slopes serve: in prior uncertainties, which are small, and for the start, of
// which next to nothing may be known, as a share of a full tank.
const (
	straight      = 0.5
	straightStart = 0.01
)

// serves tells whether the slopes at a state hardly differ. What is found with slopes
// that are a few percent off is off by as much of what remains uncertain.
func (t *tangent) serves(u *unknowns, s *state) bool {
	if t == nil {
		return false
	}
	for j, x := range s.at {
		far := straight
		if j == u.start {
			far = straightStart * s.rig.Tank.Full / u.measures[j].Sigma
		}
		if math.Abs(x-t.at[j]) > far {
			return false
		}
	}
	return true
}

// design returns by how many ohms the reading at each row changes for a prior
// uncertainty more in each unknown.
func (u *unknowns) design(k *look, s *state, rates []float64) *mat.Dense {
	out := mat.NewDense(len(s.inputs), max(1, len(u.measures)), nil) // none counts as one that does nothing
	columns := make([][]float64, len(u.measures))
	var next atomic.Int64
	var workers sync.WaitGroup
	for range min(len(columns), runtime.GOMAXPROCS(0)) {
		own := k.fork()
		workers.Go(func() {
			for j := int(next.Add(1)) - 1; j < len(columns); j = int(next.Add(1)) - 1 {
				columns[j] = u.column(own, s, rates, j)
			}
		})
	}
	workers.Wait()
	for j, c := range columns {
		out.SetCol(j, c)
	}
	return out
}

// column returns that of one unknown; zeros for one that makes no rig either way.
func (u *unknowns) column(k *look, s *state, rates []float64, j int) []float64 {
	out := make([]float64, len(s.inputs))
	if j == u.start || j == u.can {
		values := slices.Clone(s.values)
		values[j] += u.measures[j].Sigma
		for i, l := range u.litres(values) { // litres are linear in both
			out[i] = rates[i] * (l - s.litres[i])
		}
		return out
	}
	for _, by := range []float64{differing, -differing} {
		at := slices.Clone(s.at)
		at[j] += by
		if moved, err := u.state(k, at); err == nil {
			for i := range out {
				out[i] = (moved.inputs[i] - s.inputs[i]) / by
			}
			break
		}
	}
	return out
}

// linear makes the log a system about the state, of the readings that count. Where the
// slopes and the weights are as they were, only how far the readings lie off is new.
func (d *descent) linear() error {
	if !d.tangent.serves(d.unknowns, d.state) {
		d.look.forget()
		d.system = nil
		var err error
		if d.tangent, err = d.unknowns.tangent(d.look, d.state); err != nil {
			return err
		}
	}
	if d.system != nil {
		d.system.off = d.offs(d.state)
		d.system.at = mat.NewVecDense(len(d.linearised.unknowns), slices.Clone(d.linearised.unknowns))
		for j, x := range d.state.at {
			d.system.at.SetVec(j, x)
		}
		return nil
	}
	rows := d.log.Rows
	l := linearised{poured: d.poured, unknowns: d.state.at}
	if len(l.unknowns) == 0 {
		l.unknowns = make([]float64, 1)
	}
	var counted []int
	for i, r := range rows {
		if d.counts(i) {
			counted = append(counted, i)
			l.off, l.inputs = append(l.off, r.Input-d.state.inputs[i]), append(l.inputs, math.Hypot(d.inputs[i], d.tangent.beside[i]))
		}
	}
	l.effect = mat.NewDense(len(counted), len(rows), nil)
	l.design = mat.NewDense(len(counted), len(l.unknowns), nil)
	for i, row := range counted {
		l.design.SetRow(i, d.tangent.design.RawRowView(row))
		for pour := range row + 1 {
			l.effect.Set(i, pour, d.tangent.slopes[row]*rows[pour].density()/rows[row].density())
		}
	}
	d.linearised = l
	var err error
	d.system, err = newSystem(l)
	return err
}
