package fit

import (
	"math"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/stat/distuv"

	"floatarc/calibration"
)

// An Outcome is a rig corrected by a log.
type Outcome struct {
	Parameters  []Parameter
	Correlation *mat.SymDense // of the parameters
	Rows        []Reading
	Values      []float64 // of the family's measures
	Rig         *calibration.Rig

	Square   float64 // chi-square
	Readings int     // that count
	Freedom  int     // degrees: the readings, less one for each pour and start that they alone tell
	Chance   float64 // of as large a chi-square if everything is as stated
	// Widened is the factor by which the uncertainties are wider than the stated ones make
	// them, since the readings scatter more; 1 where they do not.
	Widened float64
	// Stuck says that the search ended where it is not sure to be the likeliest.
	Stuck      bool
	RMS, Prior float64 // of the readings that count and are not blind: litres off, after and before

	descent    *descent
	covariance *mat.SymDense // in prior uncertainties
	left       []int
}

// A Parameter is an unknown before and after.
type Parameter struct {
	calibration.Measure
	After      float64
	AfterSigma float64
	Left       Reason
	With       string  // of Alike: the parameter that moved instead
	Moved      float64 // in prior uncertainties
}

// A Reason is why a parameter was left at its prior value.
type Reason string

// The reasons.
const (
	NotLeft Reason = ""
	Silent  Reason = "silent" // the log says nothing of it
	Alike   Reason = "alike"  // the log cannot tell it from another
)

// Of what a log says: the share of its prior uncertainty that a parameter must lose to
// count as told, and the correlation above which two are not told apart.
const (
	told  = 0.95
	apart = 0.95
)

// Scattering is the chance below which the readings scatter more than stated.
const Scattering = 0.01

// Run corrects the rig of a family by a log.
func Run(f *calibration.Family, l *Log) (*Outcome, error) {
	if err := l.Check(); err != nil {
		return nil, err
	}
	u := newUnknowns(f, l)
	d, err := newDescent(u)
	if err != nil {
		return nil, err
	}
	prior := d.state
	o := &Outcome{Rows: make([]Reading, len(l.Rows)), Widened: 1, descent: d}
	if err := o.clear(); err != nil {
		return nil, err
	}
	o.Parameters = make([]Parameter, len(u.measures))
	o.leave()
	if err := d.descend(); err != nil {
		return nil, err
	}
	o.Rig, o.Values = d.state.rig, d.state.values[:len(f.Measures)]
	o.judge()
	o.tell()
	return o, o.readings(l, prior.rig)
}

// leave finds what the log does not tell, or not apart, and leaves it at its prior.
func (o *Outcome) leave() {
	d := o.descent
	own := d.system.inverse(all(len(d.measures)))
	d.free, o.left = nil, nil
	for k := range d.measures {
		if own.At(k, k) > told*told {
			o.drop(k, Silent, "")
		} else {
			d.free = append(d.free, k)
		}
	}
	for {
		k, with := d.likest()
		if k < 0 {
			return
		}
		name := d.measures[d.free[with]].Name
		o.drop(d.free[k], Alike, name)
		d.free = append(d.free[:k:k], d.free[k+1:]...)
	}
}

func (o *Outcome) drop(unknown int, why Reason, with string) {
	o.left = append(o.left, unknown)
	o.Parameters[unknown].Left, o.Parameters[unknown].With = why, with
}

// likest returns, of the two free unknowns that are the least told apart, the one to
// leave and the other; -1 if all are told apart.
func (d *descent) likest() (leave, keep int) {
	if len(d.free) < 2 {
		return -1, -1
	}
	own := d.system.inverse(d.free)
	most := apart
	leave, keep = -1, -1
	for i := range d.free {
		for j := range i {
			c := math.Abs(own.At(i, j)) / math.Sqrt(own.At(i, i)*own.At(j, j))
			if c <= most {
				continue
			}
			most, leave, keep = c, i, j
			if d.rather(j, i, own) {
				leave, keep = j, i
			}
		}
	}
	return leave, keep
}

// rather tells whether of two free unknowns the first is rather left: never the start, of
// which nobody has a prior, the can before anything, or else the one that is told less.
func (d *descent) rather(i, j int, own *mat.Dense) bool {
	switch {
	case d.free[i] == d.start || d.free[j] == d.can:
		return false
	case d.free[j] == d.start || d.free[i] == d.can:
		return true
	}
	return own.At(i, i) > own.At(j, j)
}

// judge tells how well priors and readings go together, and widens the uncertainties
// where they do not (R. T. Birge, Physical Review 40, 207, 1932, from memory).
func (o *Outcome) judge() {
	d := o.descent
	o.Readings, _ = d.system.design.Dims()
	o.Square = d.system.surprise().square
	o.Freedom = o.Readings - len(d.vague)
	if d.log.Found {
		o.Freedom--
	}
	o.Freedom = max(1, o.Freedom)
	o.Chance = distuv.ChiSquared{K: float64(o.Freedom)}.Survival(o.Square)
	if o.Chance < Scattering {
		o.Widened = math.Sqrt(o.Square / float64(o.Freedom))
	}
	o.Stuck = d.stuck
	o.covariance = d.system.covariance(d.free, o.left, o.Widened)
}

// tell fills the parameters.
func (o *Outcome) tell() {
	d := o.descent
	p := len(d.measures)
	o.Correlation = mat.NewSymDense(max(1, p), nil)
	for i, m := range d.measures {
		t := &o.Parameters[i]
		t.Measure, t.After, t.Moved = m, d.state.values[i], d.state.at[i]
		t.AfterSigma = m.Sigma * math.Min(1, math.Sqrt(o.covariance.At(i, i)))
		for j := range i + 1 {
			o.Correlation.SetSym(i, j, o.covariance.At(i, j)/math.Sqrt(o.covariance.At(i, i)*o.covariance.At(j, j)))
		}
	}
}
