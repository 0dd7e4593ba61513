package calibration

import (
	"math"

	"floatarc/volume"
)

// swing is the share of the inputs in which the needle may swing from what a
// blind band asks of it to the truth, for a conditioner whose step is not known.
const swing = 0.005

// beside returns the input, ohm, one step of the conditioner from an end of its
// inputs towards the other.
func (r *Rig) beside(end, other float64) float64 {
	c := r.Conditioner
	if c.Step > 0 {
		return math.Max(0, end+math.Copysign(c.Step, other-end))
	}
	from, to := c.Law.X(end), c.Law.X(other)
	return c.Law.Ohms(from + swing*(to-from))
}

// asides returns the inputs, ohm, one step beside the ends of those told.
func (r *Rig) asides(told Told) (low, high float64) {
	from, to := r.InputAt(told.Low.Travel), r.InputAt(told.High.Travel)
	return r.beside(from, to), r.beside(to, from)
}

// away returns which samples lie in the live band and further than a step from a
// blind band: there the error is that of the blind band, by continuity.
func (r *Rig) away(rel *volume.Relation) func(Sample) bool {
	told := r.Told(rel)
	from, to := r.InputAt(told.Low.Travel), r.InputAt(told.High.Travel)
	sign := math.Copysign(1, to-from)
	rounding := 1e-9 * math.Abs(to-from)
	low, high := r.asides(told)
	if !told.Low.Blind {
		low = from
	}
	if !told.High.Blind {
		high = to
	}
	return func(s Sample) bool {
		return s.Live && sign*s.Input >= sign*low-rounding && sign*s.Input <= sign*high+rounding
	}
}
