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

// Next returns at how many litres one further reading would bring down the worst
// uncertainty the most, of a meter (ohm) and litres that are as uncertain as told. It
// reports false if nothing is gained anywhere.
func (p *Prospect) Next(meter, poured float64) (Next, bool) {
	best := Next{}
	best.Before, _ = p.Worst()
	best.After = best.Before
	if p.known == nil {
		return best, false
	}
	for i, litres := range p.Litres {
		row := p.design.RowView(i)
		noise := math.Pow(math.Hypot(meter, poured*p.slopes[i])/p.widened, 2)
		var gain mat.VecDense
		gain.MulVec(p.known, row)
		after := mat.NewSymDense(gain.Len(), nil)
		after.SymRankOne(p.known, -1/(mat.Dot(row, &gain)+noise), &gain)
		if worst, at := p.worst(p.spread(after)); worst < best.After {
			best.Litres, best.After, best.At = litres, worst, at
		}
	}
	return best, best.After < best.Before
}
