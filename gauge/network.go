package gauge

import "math"

// A Network is at most one part in the sender's wire and one to earth, both at the
// gauge's end of that wire. With R for what the wire shows there, sender, wire and return
// path together, the gauge sees
//
//	(R + Series) ∥ Parallel    with the parallel part across the gauge's terminals
//	(R ∥ Parallel) + Series    with it on the sender's side of the series part
//
// Both rise with R, and by no more than R does (see [Network.Seen]).
type Network struct {
	Series   float64 // ohm; 0 for none
	Parallel float64 // ohm; 0 for none
	AtSender bool    // the parallel part is on the sender's side of the series part
}

// Count returns of how many parts the network is made.
func (n Network) Count() int {
	count := 0
	for _, r := range []float64{n.Series, n.Parallel} {
		if r > 0 {
			count++
		}
	}
	return count
}

// Seen returns the ohms that the gauge sees where the wire shows so many. Its slope is
// (Parallel/(Parallel + R))², or the same with R + Series in place of R: above 0, so
// that no such parts turn a sense round, and at most 1, so that none widens a span.
func (n Network) Seen(ohms float64) float64 {
	if n.AtSender {
		return joined(ohms, n.Parallel) + n.Series
	}
	return joined(ohms+n.Series, n.Parallel)
}

// Shown returns the ohms of the wire at which the gauge sees so many; NaN if there are
// none.
func (n Network) Shown(seen float64) float64 {
	ohms := 0.0
	if n.AtSender {
		ohms = without(seen-n.Series, n.Parallel)
	} else {
		ohms = without(seen, n.Parallel) - n.Series
	}
	if !(ohms >= 0) || math.IsInf(ohms, 1) {
		return math.NaN()
	}
	return ohms
}

// joined returns two resistances in parallel; the first alone, if the other is none.
func joined(ohms, other float64) float64 {
	if other == 0 {
		return ohms
	}
	return ohms * other / (ohms + other)
}

// without returns what gives so many ohms with another in parallel; +Inf or less than 0 if
// nothing does.
func without(ohms, other float64) float64 {
	if other == 0 {
		return ohms
	}
	return ohms * other / (other - ohms)
}

// MostWatts returns the greatest power in each part, W, with so many volts across the
// gauge's terminals, over a wire that shows from least to most ohms. The current through
// the series part is greatest at the least, the volts over the parallel one at the most.
func (n Network) MostWatts(volts, least, most float64) (series, parallel float64) {
	if n.Series > 0 {
		rest := least
		if n.AtSender {
			rest = joined(least, n.Parallel)
		}
		i := volts / (n.Series + rest)
		series = i * i * n.Series
	}
	if n.Parallel > 0 {
		over := volts
		if n.AtSender {
			over *= 1 - n.Series/n.Seen(most)
		}
		parallel = over * over / n.Parallel
	}
	return series, parallel
}

// Through is a gauge behind a network.
type Through struct {
	Network
	Gauge Indicator
}

// Show implements [Indicator].
func (t Through) Show(input float64) float64 { return t.Gauge.Show(t.Seen(input)) }

// Knots implements [Indicator].
func (t Through) Knots() []float64 {
	var out []float64
	for _, seen := range t.Gauge.Knots() {
		if ohms := t.Shown(seen); !math.IsNaN(ohms) {
			out = append(out, ohms)
		}
	}
	return out
}
