package gauge

import (
	"cmp"
	"fmt"
	"slices"

	"gonum.org/v1/gonum/interp"
)

// A Law is how a conditioner sees its input: it runs straight lines in X.
type Law interface {
	X(ohms float64) float64
	Ohms(x float64) float64
}

// Resistance is the law of a conditioner that runs straight lines in ohms.
type Resistance struct{}

// X returns the resistance itself.
func (Resistance) X(ohms float64) float64 { return ohms }

// Ohms returns x itself.
func (Resistance) Ohms(x float64) float64 { return x }

// Divider is the law of a conditioner that runs straight lines in the voltage
// over the sender, fed through a pull-up resistor: x = R/(R + pull-up).
type Divider struct {
	PullUp float64 // ohm, above 0
}

// X returns the share of the supply that stands over the sender.
func (d Divider) X(ohms float64) float64 { return ohms / (ohms + d.PullUp) }

// Ohms returns the resistance at a share of the supply below 1.
func (d Divider) Ohms(x float64) float64 { return d.PullUp * x / (1 - x) }

// A Pair is one stored calibration point.
type Pair struct {
	Input    float64 // ohm
	Position float64 // on the dial
}

// A Conditioner stores pairs and runs straight lines between them.
type Conditioner struct {
	Places int // how many pairs it stores
	Law    Law
	Stored []Pair // what it holds today; nil if not known
}

// An Indicator turns an input into the position its needle shows.
type Indicator interface {
	Show(input float64) float64

	// Knots returns the inputs at which the indication bends, in ohms.
	Knots() []float64
}

// Lines is an indicator that runs straight lines between pairs under a law, and
// outside them holds the end value.
type Lines struct {
	law   Law
	knots []float64
	lines interp.PiecewiseLinear
	only  float64 // the position of a single pair
}

// NewLines returns the indicator of one or more pairs in any order. It refuses
// two pairs with the same input.
func NewLines(law Law, pairs []Pair) (*Lines, error) {
	if len(pairs) == 0 {
		return nil, fmt.Errorf("no pairs, expected 1 or more")
	}
	sorted := slices.SortedFunc(slices.Values(pairs), func(a, b Pair) int { return cmp.Compare(a.Input, b.Input) })
	l := &Lines{law: law, only: sorted[0].Position}
	var xs, ys []float64
	for i, p := range sorted {
		if i > 0 && p.Input == sorted[i-1].Input {
			return nil, fmt.Errorf("two pairs with the input %g ohm, expected different inputs", p.Input)
		}
		l.knots, xs, ys = append(l.knots, p.Input), append(xs, law.X(p.Input)), append(ys, p.Position)
	}
	if len(pairs) == 1 {
		return l, nil
	}
	return l, l.lines.Fit(xs, ys)
}

// Show implements [Indicator].
func (l *Lines) Show(input float64) float64 {
	if len(l.knots) == 1 {
		return l.only
	}
	return l.lines.Predict(l.law.X(input))
}

// Knots implements [Indicator].
func (l *Lines) Knots() []float64 { return l.knots }
