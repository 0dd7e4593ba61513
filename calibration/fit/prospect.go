package fit

import (
	"math"

	"gonum.org/v1/gonum/mat"

	"floatarc/calibration"
)

// A Prospect is how well the litres behind a reading are known along the live band, on
// level ground.
type Prospect struct {
	Litres []float64 // in the tank, rising
	Sigma  []float64 // standard uncertainty of the litres that a reading stands for there

	design  *mat.Dense // ohms by place, of a prior uncertainty more in each measure
	slopes  []float64  // ohms for a litre more
	known   *mat.SymDense
	widened float64
}

// prospects is how many places a prospect looks at, and margin the share of the live band
// that it leaves out at either end, where the float comes to its stop.
const (
	prospects = 40
	margin    = 0.02
)

// Before returns the prospect of a family without any log.
func Before(f *calibration.Family) (*Prospect, error) {
	known := mat.NewSymDense(len(f.Measures), nil)
	for i := range f.Measures {
		known.SetSym(i, i, 1)
	}
	return prospect(f, make([]float64, len(f.Measures)), known, 1)
}

// Prospect returns what remains uncertain after a fit.
func (o *Outcome) Prospect() (*Prospect, error) {
	f := o.descent.family
	n := len(f.Measures)
	if n == 0 {
		return prospect(f, nil, nil, 1)
	}
	return prospect(f, o.descent.state.at[:n], o.covariance.SliceSym(0, n).(*mat.SymDense), o.Widened)
}

func prospect(f *calibration.Family, at []float64, known *mat.SymDense, widened float64) (*Prospect, error) {
	l := &Log{}
	values := f.Values()
	for i, m := range f.Measures {
		values[i] += at[i] * m.Sigma
	}
	rig, err := f.Rig(values)
	if err != nil {
		return nil, err
	}
	p := &Prospect{known: known, widened: widened}
	low, high := rig.Level.Reach()
	low, high = math.Max(low, rig.Dial.Empty), math.Min(high, rig.Dial.Full)
	for i := range prospects {
		litres := low + (high-low)*(margin+(1-2*margin)*float64(i)/(prospects-1))
		before := 0.0
		if i > 0 {
			before = p.Litres[i-1]
		}
		p.Litres = append(p.Litres, litres)
		l.Rows = append(l.Rows, Row{Poured: litres - before})
	}
	u, k := newUnknowns(f, l), newLook(l.Rows)
	s, err := u.state(k, at)
	if err != nil {
		return nil, err
	}
	t, err := u.tangent(k, s)
	if err != nil {
		return nil, err
	}
	p.design, p.slopes = t.design, t.slopes
	p.Sigma = p.spread(known)
	return p, nil
}

// spread returns the standard uncertainty of the litres at each place.
func (p *Prospect) spread(known *mat.SymDense) []float64 {
	out := make([]float64, len(p.Litres))
	for i := range out {
		if p.slopes[i] != 0 && known != nil {
			row := p.design.RowView(i)
			out[i] = p.widened * math.Sqrt(math.Max(0, mat.Inner(row, known, row))) / math.Abs(p.slopes[i])
		}
	}
	return out
}

// measures returns how many the family has.
func (p *Prospect) measures() int {
	if p.known == nil {
		return 0
	}
	return p.known.SymmetricDim()
}

// Worst returns the greatest uncertainty, and the litres where it lies.
func (p *Prospect) Worst() (sigma, litres float64) { return p.worst(p.Sigma) }

func (p *Prospect) worst(spread []float64) (sigma, litres float64) {
	for i, s := range spread {
		if s > sigma {
			sigma, litres = s, p.Litres[i]
		}
	}
	return sigma, litres
}

// A Next is the one further fill point that tells the most.
type Next struct {
	Litres        float64 // in the tank
	Before, After float64 // worst standard uncertainty along the tank, litres
	At            float64 // litres in the tank, where it lies afterwards
}

// A further is a reading to come: what is uncertain of it, and of the litres in the tank
// then, together with the measures.
type further struct {
	meter  float64                      // ohm
	poured func(litres float64) float64 // of what is still to pour to get there
	// sum is the standard uncertainty of the litres of the last row, and with is their
	// covariance with each measure, in prior uncertainties of these.
	sum  float64
	with []float64
}

// Next returns at how many litres one further reading, before any log, would bring down
// the worst uncertainty the most, of a meter (ohm) and of litres that are as uncertain as
// told. It reports false if nothing is gained anywhere.
func (p *Prospect) Next(meter float64, poured func(litres float64) float64) (Next, bool) {
	return p.next(further{meter, poured, 0, make([]float64, p.measures())})
}

func (p *Prospect) next(f further) (Next, bool) {
	best := Next{}
	best.Before, _ = p.Worst()
	best.After = best.Before
	if p.known == nil {
		return best, false
	}
	n := p.known.SymmetricDim()
	for i, litres := range p.Litres {
		row, slope := p.design.RowView(i), p.slopes[i]
		// The reading hangs on the measures and, by the slope, on what is in the tank.
		var gain mat.VecDense
		gain.MulVec(p.known, row)
		variance := mat.Dot(row, &gain) + square(f.meter) + square(slope*f.poured(litres)) + square(slope*f.sum)
		for j := range n {
			gain.SetVec(j, gain.AtVec(j)+slope*f.with[j])
			variance += 2 * slope * f.with[j] * row.AtVec(j)
		}
		after := mat.NewSymDense(n, nil)
		after.SymRankOne(p.known, -1/variance, &gain)
		if worst, at := p.worst(p.spread(after)); worst < best.After {
			best.Litres, best.After, best.At = litres, worst, at
		}
	}
	return best, best.After < best.Before
}

// Next returns at how many litres one further reading would bring down the worst
// uncertainty that is left the most, when the log goes on: what is uncertain of its start,
// its can and its pours is so of the litres then, too. The reading is as good as the last
// one (ohm), and the pour to get there is uncertain as told. It reports false if nothing
// is gained anywhere.
func (o *Outcome) Next(p *Prospect, meter float64, poured func(litres float64) float64) (Next, bool) {
	if p.known == nil {
		return Next{}, false
	}
	d := o.descent
	own := d.system.inverse(all(max(1, len(d.measures))))
	n := len(d.family.Measures)
	// Had nothing been left at its prior; the share that a reading takes off is then that of
	// what is uncertain with it.
	full := *p
	full.known = mat.NewSymDense(n, nil)
	for i := range n {
		for j := range i + 1 {
			full.known.SetSym(i, j, own.At(i, j))
		}
	}
	full.Sigma = full.spread(full.known)
	f := further{meter: meter / p.widened, poured: func(l float64) float64 { return poured(l) / p.widened }}
	f.sum, f.with = d.inTheTank(own)
	next, ok := full.next(f)
	before, _ := p.Worst()
	if ok {
		next.After, next.Before = next.After/next.Before*before, before
	}
	return next, ok
}

// inTheTank returns the standard uncertainty of the litres of the last row for the log,
// and their covariance with each measure, in prior uncertainties: of start, can and pours.
func (d *descent) inTheTank(own *mat.Dense) (sigma float64, with []float64) {
	n, m := len(d.family.Measures), len(d.log.Rows)
	effect := mat.NewVecDense(own.RawMatrix().Rows, nil) // litres of the last row by unknown
	last := d.state.litres[m-1]
	if d.start >= 0 {
		effect.SetVec(d.start, d.measures[d.start].Sigma)
	}
	if d.can >= 0 {
		effect.SetVec(d.can, d.measures[d.can].Sigma*(last-d.log.Start))
	}
	// What the pours add up to: D 1, seen by the readings as Z D 1.
	weights := mat.NewVecDense(m, nil)
	variance := 0.0
	for k, s := range d.poured {
		weights.SetVec(k, s*s)
		variance += s * s
	}
	var seen, down, across mat.VecDense
	seen.MulVec(d.system.pours, weights)
	down.MulVec(d.system.design.T(), &seen)
	across.MulVec(own, &down) // less the covariance of the unknowns with the sum
	variance -= mat.Dot(&seen, &seen) - mat.Dot(&down, &across)
	var mixed mat.VecDense
	mixed.MulVec(own, effect)
	mixed.SubVec(&mixed, &across)
	variance += mat.Inner(effect, own, effect) - 2*mat.Dot(effect, &across)
	with = make([]float64, n)
	for j := range with {
		with[j] = mixed.AtVec(j)
	}
	return math.Sqrt(math.Max(0, variance)), with
}
