package calibration

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/interp"

	"floatarc/gauge"
)

// A Glance is what a rig comes to on level ground, seen in so few samples that thousands
// of rigs can be: the quantities between samples are taken along straight lines.
type Glance struct {
	Litres []float64   // that each of the inputs stands for
	Places []float64   // position of the needle that is right with them
	Errors [][]float64 // needle error by indicator and share, percent of the dial
	Worst  []float64   // of each indicator from the empty to the full mark, without its sign
}

// glances is the number of even steps of the travel at which a glance samples.
const glances = 32

// Glance returns what inputs stand for, and the needle error of indicators at shares of
// the fuel between the marks.
func (r *Rig) Glance(inputs, shares []float64, indicators ...gauge.Indicator) (*Glance, error) {
	rel := r.Level
	travels := make([]float64, 0, glances+1+len(inputs))
	for i := range glances + 1 {
		travels = append(travels, rel.Low+(rel.High-rel.Low)*float64(i)/glances)
	}
	bends := slices.Clone(inputs)
	for _, ind := range indicators {
		bends = append(bends, ind.Knots()...)
	}
	for _, input := range bends {
		travels = append(travels, rel.Within(r.TravelAt(input)))
	}
	travels = append(travels, r.Sender.Track().Knots(rel.Low, rel.High)...)
	slices.Sort(travels)
	var at, litres []float64 // both rising
	for _, t := range travels {
		if q := rel.Litres(t); len(at) == 0 || t > at[len(at)-1] && q > litres[len(litres)-1] {
			at, litres = append(at, t), append(litres, q)
		}
	}
	var travel interp.PiecewiseLinear
	if len(at) < 2 {
		return nil, ErrFlat
	}
	if err := travel.Fit(litres, at); err != nil {
		return nil, err
	}
	g := &Glance{}
	for _, input := range inputs {
		litres := r.LitresNear(rel, input)
		g.Litres, g.Places = append(g.Litres, litres), append(g.Places, r.Dial.Position(r.Dial.Share(litres)))
	}
	off := func(ind gauge.Indicator, q float64) float64 {
		return 100 * (ind.Show(r.InputAt(travel.Predict(q))) - r.Dial.Position(r.Dial.Share(q)))
	}
	for _, ind := range indicators {
		errors := make([]float64, len(shares))
		for i, s := range shares {
			errors[i] = off(ind, r.Dial.Litres(s))
		}
		worst := 0.0
		for _, q := range append([]float64{r.Dial.Empty, r.Dial.Full}, litres...) {
			if q >= r.Dial.Empty && q <= r.Dial.Full {
				worst = math.Max(worst, math.Abs(off(ind, q)))
			}
		}
		g.Errors, g.Worst = append(g.Errors, errors), append(g.Worst, worst)
	}
	return g, nil
}
