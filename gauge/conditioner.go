package gauge

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"gonum.org/v1/gonum/interp"
)

// A Pair is one stored calibration point.
type Pair struct {
	Input    float64 // ohm
	Position float64 // on the dial
}

// ByInput orders pairs by their input.
func ByInput(a, b Pair) int { return cmp.Compare(a.Input, b.Input) }

// A Conditioner stores pairs and runs straight lines between them.
type Conditioner struct {
	Places int // how many pairs it stores
	Law    Law
	Stored []Pair    // what it holds today; nil if not known
	Step   float64   // smallest change of an input setting, ohm; 0 if not known
	Inputs []float64 // the only inputs that can be chosen, ohm, rising; nil for any
	Needle *Needle   // of the gauge it drives; nil for one that is linear in its drive
	Feed   Feed      // of a divider
}

// Divider returns the divider whose voltage the conditioner sees; nil for one that
// runs straight lines in ohms.
func (c Conditioner) Divider() *Divider {
	law := c.Law
	if l, ok := law.(Limited); ok {
		law = l.Law
	}
	if d, ok := law.(Divider); ok {
		return &d
	}
	return nil
}

// Limits returns the inputs between which the conditioner tells one from another.
func (c Conditioner) Limits() (least, most float64) {
	if l, ok := c.Law.(Limited); ok {
		return l.Least, l.Most
	}
	return 0, math.Inf(1)
}

// Lines returns the indicator of pairs that the conditioner stores.
func (c Conditioner) Lines(pairs []Pair) (*Lines, error) { return newLines(c.Law, c.Needle, pairs) }

// An Indicator turns an input into the position its needle shows.
type Indicator interface {
	Show(input float64) float64

	// Knots returns the inputs at which the indication bends, in ohms.
	Knots() []float64
}

// Lines is an indicator that runs straight lines between pairs under a law, and
// outside them holds the end value.
type Lines struct {
	law    Law
	needle *Needle
	knots  []float64
	lines  interp.PiecewiseLinear
	only   float64 // the drive of a single pair
	single bool
}

// NewLines returns the indicator of one or more pairs in any order. It refuses
// two pairs with the same input.
func NewLines(law Law, pairs []Pair) (*Lines, error) { return newLines(law, nil, pairs) }

func newLines(law Law, needle *Needle, pairs []Pair) (*Lines, error) {
	if len(pairs) == 0 {
		return nil, fmt.Errorf("no pairs, expected 1 or more")
	}
	if law == nil {
		law = Resistance{}
	}
	sorted := slices.SortedFunc(slices.Values(pairs), ByInput)
	l := &Lines{law: law, needle: needle, only: needle.Drive(sorted[0].Position), single: len(pairs) == 1}
	var xs, ys []float64
	for i, p := range sorted {
		x := law.X(p.Input)
		switch {
		case i > 0 && p.Input == sorted[i-1].Input:
			return nil, fmt.Errorf("two pairs with the input %g ohm, expected different inputs", p.Input)
		case i > 0 && x <= xs[i-1]:
			return nil, fmt.Errorf("the inputs %g and %g ohm look the same to the conditioner, expected inputs that it tells apart", sorted[i-1].Input, p.Input)
		}
		l.knots, xs, ys = append(l.knots, p.Input), append(xs, x), append(ys, needle.Drive(p.Position))
	}
	l.knots = append(l.knots, bends(law, needle, xs, ys)...)
	if limits, ok := law.(Limited); ok {
		l.knots = append(l.knots, limits.Least)
		if !math.IsInf(limits.Most, 1) {
			l.knots = append(l.knots, limits.Most)
		}
	}
	if l.single {
		return l, nil
	}
	return l, l.lines.Fit(xs, ys)
}

// bends returns the inputs between pairs at which the needle's own bends lie.
func bends(law Law, needle *Needle, xs, ys []float64) []float64 {
	var out []float64
	for i := 1; i < len(xs); i++ {
		for _, d := range needle.Bends() {
			if t := (d - ys[i-1]) / (ys[i] - ys[i-1]); t > 0 && t < 1 {
				out = append(out, law.Ohms(xs[i-1]+t*(xs[i]-xs[i-1])))
			}
		}
	}
	return out
}

// Show implements [Indicator].
func (l *Lines) Show(input float64) float64 { return l.needle.Position(l.Drive(input)) }

// Drive returns what the conditioner gives to the gauge: the position that the
// needle shows, for a gauge that is linear in its drive.
func (l *Lines) Drive(input float64) float64 {
	if l.single {
		return l.only
	}
	return l.lines.Predict(l.law.X(input))
}

// Knots implements [Indicator].
func (l *Lines) Knots() []float64 { return l.knots }
