package fit

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/mat"
)

// A system is the readings of a log, linear about some values of the unknowns. Unknowns
// are counted in their prior standard uncertainties from their prior values; readings
// are made independent, of unit variance, by the factor of their covariance (generalised
// least squares; T. Kariya and H. Kurata, Generalized Least Squares, 2004, from memory).
type system struct {
	design   *mat.Dense    // by reading and unknown
	off      *mat.VecDense // readings less what the values say
	at       *mat.VecDense // the values
	readings *mat.Dense    // what an ohm more in a reading does, by reading and reading
	pours    *mat.Dense    // what a litre more in a pour does, by reading and pour
}

// A linearised is what a system is made of, in ohms and litres.
type linearised struct {
	design   *mat.Dense // ohms by reading and unknown
	off      []float64  // ohms
	inputs   []float64  // standard uncertainty of each reading, ohm
	effect   *mat.Dense // ohms by reading, of a litre more in each pour
	poured   []float64  // standard uncertainty of each pour, litres
	unknowns []float64  // values of the unknowns
}

// newSystem makes the readings independent: the errors of pours add up from row to row.
func newSystem(l linearised) (*system, error) {
	n := len(l.off)
	spread := mat.DenseCopyOf(l.effect)
	spread.Apply(func(_, k int, v float64) float64 { return v * l.poured[k] }, spread)
	cov := mat.NewSymDense(n, nil)
	cov.SymOuterK(1, spread)
	for i, sigma := range l.inputs {
		if !(sigma > 0) {
			return nil, fmt.Errorf("a reading without an uncertainty, expected one above 0")
		}
		cov.SetSym(i, i, cov.At(i, i)+sigma*sigma)
	}
	var factor mat.Cholesky
	if !factor.Factorize(cov) {
		return nil, fmt.Errorf("the errors of the readings are not those of any log, expected finite ones")
	}
	var lower, inverse mat.TriDense
	factor.LTo(&lower)
	if err := inverse.InverseTri(&lower); err != nil {
		return nil, err
	}
	s := &system{
		design: &mat.Dense{}, off: &mat.VecDense{}, pours: &mat.Dense{},
		at: mat.NewVecDense(len(l.unknowns), l.unknowns), readings: mat.DenseCopyOf(&inverse),
	}
	s.design.Mul(&inverse, l.design)
	s.off.MulVec(&inverse, mat.NewVecDense(n, l.off))
	s.pours.Mul(&inverse, l.effect)
	return s, nil
}

// columns returns some columns of a matrix.
func columns(m *mat.Dense, which []int) *mat.Dense {
	n, _ := m.Dims()
	out := mat.NewDense(n, max(1, len(which)), nil) // none counts as one that does nothing
	for j, k := range which {
		for i := range n {
			out.Set(i, j, m.At(i, k))
		}
	}
	return out
}

// step returns by how much to change the free unknowns, the others being left at their
// prior, so that readings and priors together are the likeliest.
func (s *system) step(free []int) (*mat.VecDense, error) {
	qr, n := s.stacked(free)
	rows, _ := qr.Dims()
	right := mat.NewVecDense(rows, nil)
	for i := range n {
		right.SetVec(i, s.off.AtVec(i))
	}
	for j, k := range free {
		right.SetVec(n+j, -s.at.AtVec(k))
	}
	var step mat.VecDense
	err := qr.SolveVecTo(&step, false, right)
	return &step, err
}

// stacked returns the factors of the readings above the priors, and how many readings
// there are.
func (s *system) stacked(free []int) (*mat.QR, int) {
	a := columns(s.design, free)
	n, p := a.Dims()
	whole := mat.NewDense(n+p, p, nil)
	whole.Slice(0, n, 0, p).(*mat.Dense).Copy(a)
	for j := range p {
		whole.Set(n+j, j, 1)
	}
	var qr mat.QR
	qr.Factorize(whole)
	return &qr, n
}

// inverse returns the covariance of the free unknowns where the others are known.
func (s *system) inverse(free []int) *mat.Dense {
	qr, _ := s.stacked(free)
	var r mat.Dense
	qr.RTo(&r)
	_, p := r.Dims()
	upper := mat.NewTriDense(p, mat.Upper, nil)
	for i := range p {
		for j := i; j < p; j++ {
			upper.SetTri(i, j, r.At(i, j))
		}
	}
	var back mat.TriDense
	_ = back.InverseTri(upper) // its diagonal is 1 or more, so that it cannot fail
	var out mat.Dense
	out.Mul(&back, back.T())
	return &out
}

// covariance returns that of all unknowns where some are free and the others are left at
// their prior, of which they have the uncertainty. What is left adds to what is
// uncertain of the free ones (a filter with considered parameters: S. F. Schmidt, Advances
// in Control Systems 3, 293, 1966, from memory). What readings and priors make of the free
// ones is widened by a factor.
func (s *system) covariance(free, left []int, widened float64) *mat.SymDense {
	out := mat.NewSymDense(max(1, len(free)+len(left)), nil)
	for _, k := range left {
		out.SetSym(k, k, 1)
	}
	if len(free) == 0 {
		return out
	}
	own := s.inverse(free)
	var gain, mixed mat.Dense
	if len(left) > 0 {
		mixed.Mul(columns(s.design, free).T(), columns(s.design, left))
		gain.Mul(own, &mixed)
	}
	for i, a := range free {
		for j, b := range free[:i+1] {
			v := widened * widened * own.At(i, j)
			for k := range left {
				v += gain.At(i, k) * gain.At(j, k)
			}
			out.SetSym(a, b, v)
		}
		for k, c := range left {
			out.SetSym(a, c, -gain.At(i, k))
		}
	}
	return out
}

// all returns the numbers below n.
func all(n int) []int {
	out := make([]int, n)
	for i := range out {
		out[i] = i
	}
	return out
}

// A surprise is how little readings, and single readings and pours, go with the priors.
type surprise struct {
	square   float64   // chi-square of as many degrees of freedom as there are readings
	readings []float64 // of each reading, in standard uncertainties: what it would be off by
	pours    []float64
}

// surprise holds the readings against all that the priors allow, whatever is left at
// them: the squared distance (P. C. Mahalanobis, 1936), and by how many standard
// uncertainties each reading or pour would have to be off by itself (W. Baarda, A Testing
// Procedure for Use in Geodetic Networks, 1968; both from memory).
func (s *system) surprise() surprise {
	n, p := s.design.Dims()
	own := s.inverse(all(p))
	calm := func(m mat.Matrix) *mat.Dense { // takes off what the unknowns can explain
		var down, up, out mat.Dense
		down.Mul(s.design.T(), m)
		up.Mul(own, &down)
		out.Mul(s.design, &up)
		out.Sub(m, &out)
		return &out
	}
	prior := mat.NewVecDense(n, nil)
	prior.MulVec(s.design, s.at)
	prior.AddVec(prior, s.off)
	left := calm(prior)
	out := surprise{square: mat.Dot(prior, left.ColView(0))}
	ratios := func(m *mat.Dense) []float64 {
		_, count := m.Dims()
		calmed := calm(m)
		ratio := make([]float64, count)
		for k := range count {
			if size := mat.Dot(m.ColView(k), calmed.ColView(k)); size > 1e-12 {
				ratio[k] = mat.Dot(m.ColView(k), left.ColView(0)) / math.Sqrt(size)
			}
		}
		return ratio
	}
	out.readings, out.pours = ratios(s.readings), ratios(s.pours)
	return out
}

// correction returns what each pour is off by for the log, litres, its standard
// uncertainty given.
func (s *system) correction(poured []float64) []float64 {
	var out mat.VecDense
	out.MulVec(s.pours.T(), s.off)
	for k, sigma := range poured {
		out.SetVec(k, out.AtVec(k)*sigma*sigma)
	}
	return out.RawVector().Data
}
