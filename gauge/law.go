package gauge

import "math"

// A Law is how a conditioner sees its input: it runs straight lines in X, which
// rises with the ohms.
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

// Slope returns by how many ohms the resistance grows for a whole supply more, at a share
// of it below 1.
func (d Divider) Slope(x float64) float64 { return d.PullUp / ((1 - x) * (1 - x)) }

// Limited is a law of inputs that a conditioner takes only from Least to Most;
// what lies beyond looks to it like the limit.
type Limited struct {
	Law
	Least, Most float64 // ohm
}

// X returns the X of the input as the conditioner takes it.
func (l Limited) X(ohms float64) float64 { return l.Law.X(l.Clamp(ohms)) }

// Clamp returns the input as the conditioner takes it.
func (l Limited) Clamp(ohms float64) float64 { return math.Max(l.Least, math.Min(l.Most, ohms)) }
