package gauge

import "math"

// A Feed is what feeds a divider: the supply and what measures the voltage over
// the sender.
type Feed struct {
	Supply    float64 // V; 0 if not known
	Tolerance float64 // of the pull-up, ±, a share; 0 if not known
	Converter *Converter
}

// A Converter counts the voltage over the sender.
type Converter struct {
	Bits int
	Full float64 // share of the supply at which it is full: reference/supply; 1 where both are one
}

// Steps returns the number of counts, 2^bits.
func (c Converter) Steps() float64 { return math.Ldexp(1, c.Bits) }

// Count returns the whole count of a share of the supply: how many steps of
// Full/2^bits it has passed, at most 2^bits - 1.
func (c Converter) Count(share float64) int {
	return int(math.Max(0, math.Min(c.Steps()-1, math.Floor(share/c.Full*c.Steps()))))
}

// Share returns the share of the supply in the middle of a count.
func (c Converter) Share(count int) float64 { return (float64(count) + 0.5) / c.Steps() * c.Full }

// Limit returns the greatest resistance over which a divider's voltage stays below
// the reference; +Inf if it always does.
func (c Converter) Limit(d Divider) float64 {
	if c.Full >= 1 {
		return math.Inf(1)
	}
	return d.Ohms(c.Full)
}

// Span returns the share of the supply between the voltages over the least and
// the greatest resistance.
func (d Divider) Span(least, most float64) float64 { return d.X(most) - d.X(least) }

// BestPullUp returns the pull-up that spreads the voltages between two resistances
// above 0 the furthest: their geometric mean, at which d(most/(most+p) -
// least/(least+p))/dp is 0.
func BestPullUp(least, most float64) float64 { return math.Sqrt(least * most) }

// Amperes returns the current through the sender.
func (d Divider) Amperes(supply, ohms float64) float64 { return supply / (d.PullUp + ohms) }

// Watts returns the power in the sender.
func (d Divider) Watts(supply, ohms float64) float64 {
	i := d.Amperes(supply, ohms)
	return i * i * ohms
}

// MostWatts returns the greatest power in a sender that runs from one resistance
// to another: at the pull-up's own resistance if it lies between them.
func (d Divider) MostWatts(supply, least, most float64) float64 {
	return d.Watts(supply, math.Max(least, math.Min(most, d.PullUp)))
}
