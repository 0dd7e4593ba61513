package fit

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/mat"
)

// norris is the data set Norris of the Statistical Reference Datasets of NIST, linear
// regression, lower level of difficulty: y, x. Data and certified values from memory.
var norris = [][2]float64{
	{0.1, 0.2}, {338.8, 337.4}, {118.1, 118.2}, {888.0, 884.6}, {9.2, 10.1}, {228.1, 226.5}, {668.5, 666.3}, {998.5, 996.3}, {449.1, 448.6},
	{778.9, 777.0}, {559.2, 558.2}, {0.3, 0.4}, {0.1, 0.6}, {778.1, 775.5}, {668.8, 666.9}, {339.3, 338.0}, {448.9, 447.5}, {10.8, 11.6},
	{557.7, 556.0}, {228.3, 228.1}, {998.0, 995.8}, {888.8, 887.6}, {119.6, 120.2}, {0.3, 0.3}, {0.6, 0.3}, {557.6, 556.8}, {339.3, 339.1},
	{888.0, 887.2}, {998.5, 999.0}, {778.9, 779.0}, {10.2, 11.1}, {117.6, 118.3}, {228.9, 229.2}, {668.4, 669.1}, {449.2, 448.9}, {0.2, 0.5},
}

// TestNorris holds the linear algebra of the fit against certified values. The priors
// are made so wide that they weigh nothing at nine digits.
func TestNorris(t *testing.T) {
	const prior = 1e5
	n := len(norris)
	l := linearised{design: mat.NewDense(n, 2, nil), effect: mat.NewDense(n, 1, nil), poured: []float64{0}, unknowns: make([]float64, 2)}
	for i, row := range norris {
		l.design.SetRow(i, []float64{prior, prior * row[1]})
		l.off, l.inputs = append(l.off, row[0]), append(l.inputs, 1)
	}
	s, err := newSystem(l)
	if err != nil {
		t.Fatal(err)
	}
	step, err := s.step(all(2))
	if err != nil {
		t.Fatal(err)
	}
	// Certified: B0, B1, their standard deviations and that of the residuals.
	b0, b1 := -0.262323073774029, 1.00211681802045
	sd0, sd1, residual := 0.232818234301152, 0.429796848199937e-03, 0.884796396144373
	near := func(what string, got, want, close float64) {
		if math.Abs(got/want-1) > close {
			t.Errorf("%s: %.15g, certified %.15g", what, got, want)
		}
	}
	near("B0", prior*step.AtVec(0), b0, 1e-8) // the prior pulls by (sd0/prior)²
	near("B1", prior*step.AtVec(1), b1, 1e-10)
	s.at = mat.NewVecDense(2, []float64{step.AtVec(0), step.AtVec(1)})
	sum := 0.0
	for _, row := range norris {
		off := row[0] - prior*(step.AtVec(0)+step.AtVec(1)*row[1])
		sum += off * off
	}
	near("residual standard deviation", math.Sqrt(sum/float64(n-2)), residual, 1e-10)
	c := s.covariance(all(2), nil, 1) // of readings with a standard deviation of 1
	near("standard deviation of B0", residual*prior*math.Sqrt(c.At(0, 0)), sd0, 1e-8)
	near("standard deviation of B1", residual*prior*math.Sqrt(c.At(1, 1)), sd1, 1e-8)
}
