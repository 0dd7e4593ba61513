package fit

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/floats"
	"gonum.org/v1/gonum/mat"

	"floatarc/calibration"
)

// A Prospect is how well the litres behind a reading are known along the live band, on
// level ground.
type Prospect struct {
	Litres []float64 // in the tank, rising
	Sigma  []float64 // standard uncertainty of the litres that a reading stands for there

	design     *mat.Dense                     // ohms by place, of a prior uncertainty more in each measure
	slopes     []float64                      // ohms for a litre more
	log        linearised                     // as it is so far
	inTank     func(litres float64) []float64 // of so many litres in the tank, those of a prior uncertainty more in each unknown; 0 for measures
	free, left []int                          // unknowns that move, and that do not
	widened    float64
}

// prospects is how many places a prospect looks at, and margin the share of the live band
// that it leaves out at either end, where the float comes to its stop.
const (
	prospects = 40
	margin    = 0.02
)

// Before returns the prospect of a family without any log.
func Before(f *calibration.Family) (*Prospect, error) {
	n := max(1, len(f.Measures))
	p := &Prospect{widened: 1, free: all(n), log: linearised{unknowns: make([]float64, n)}, inTank: func(float64) []float64 { return make([]float64, n) }}
	known := mat.NewSymDense(n, nil)
	for i := range len(f.Measures) {
		known.SetSym(i, i, 1)
	}
	return p, p.look(f, make([]float64, len(f.Measures)), known)
}

// Prospect returns what remains uncertain after a fit.
func (o *Outcome) Prospect() (*Prospect, error) {
	d := o.descent
	p := &Prospect{widened: o.Widened, free: d.free, left: o.left, log: d.linearised}
	p.inTank = func(litres float64) []float64 {
		out := make([]float64, max(1, len(d.measures)))
		if d.start >= 0 {
			out[d.start] = d.measures[d.start].Sigma
			litres -= d.state.values[d.start]
		} else {
			litres -= d.log.Start
		}
		if d.can >= 0 {
			out[d.can] = d.measures[d.can].Sigma * litres // all that the can poured, or took out
		}
		return out
	}
	return p, p.look(d.family, d.state.at[:len(d.family.Measures)], o.covariance)
}

// look looks along the tank of a rig with its measures at places in prior uncertainties,
// of which so much is known.
func (p *Prospect) look(f *calibration.Family, at []float64, known *mat.SymDense) error {
	l := &Log{}
	values := f.Values()
	for i, m := range f.Measures {
		values[i] += at[i] * m.Sigma
	}
	rig, err := f.Rig(values)
	if err != nil {
		return err
	}
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
		return err
	}
	t, err := u.tangent(k, s)
	if err != nil {
		return err
	}
	p.design, p.slopes = t.design, t.slopes
	p.Sigma = p.spread(known)
	return nil
}

// spread returns the standard uncertainty of the litres at each place, for a covariance of
// the unknowns, of which the measures come first.
func (p *Prospect) spread(known *mat.SymDense) []float64 {
	_, n := p.design.Dims()
	out := make([]float64, len(p.Litres))
	for i := range out {
		if p.slopes[i] != 0 {
			row := p.design.RowView(i)
			out[i] = math.Sqrt(math.Max(0, mat.Inner(row, known.SliceSym(0, n), row))) / math.Abs(p.slopes[i])
		}
	}
	return out
}

// Worst returns the greatest standard uncertainty along the tank, litres.
func (p *Prospect) Worst() float64 { return floats.Max(p.Sigma) }

// A Next is the one further fill point that tells the most.
type Next struct {
	Litres        float64 // in the tank
	Before, After float64 // worst standard uncertainty along the tank, litres
}

// Next returns at how many litres one further reading would bring down the worst
// uncertainty the most when the log, if there is one, goes on: what is uncertain of its
// start, its can and its pours is so of the litres then, too. The reading is uncertain as
// told (ohm), and so is what is still to pour to get there. It reports false if nothing is
// gained anywhere.
func (p *Prospect) Next(meter float64, poured func(litres float64) float64) (Next, bool) {
	best := Next{Before: p.Worst(), After: p.Worst()}
	for i, litres := range p.Litres {
		s, err := newSystem(p.further(i, meter, poured(litres)))
		if err != nil {
			continue // of a slope that is no number
		}
		if worst := floats.Max(p.spread(s.covariance(p.free, p.left, p.widened))); worst < best.After {
			best.Litres, best.After = litres, worst
		}
	}
	return best, best.After < best.Before
}

// further returns the log with one more row, at a place of the prospect.
func (p *Prospect) further(place int, meter, poured float64) linearised {
	n, m, unknowns := len(p.log.off), len(p.log.poured), len(p.log.unknowns)
	l := linearised{
		design: mat.NewDense(n+1, unknowns, nil), effect: mat.NewDense(n+1, m+1, nil), unknowns: p.log.unknowns,
		off: append(slices.Clone(p.log.off), 0), inputs: append(slices.Clone(p.log.inputs), meter), poured: append(slices.Clone(p.log.poured), poured),
	}
	if n > 0 {
		l.design.Slice(0, n, 0, unknowns).(*mat.Dense).Copy(p.log.design)
		l.effect.Slice(0, n, 0, m).(*mat.Dense).Copy(p.log.effect)
	}
	slope := p.slopes[place]
	_, measures := p.design.Dims()
	for j, more := range p.inTank(p.Litres[place]) {
		if more *= slope; j < measures {
			more += p.design.At(place, j)
		}
		l.design.Set(n, j, more)
	}
	for k := range m + 1 {
		l.effect.Set(n, k, slope)
	}
	return l
}
