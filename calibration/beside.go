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

// away returns which inputs lie in the live band and further than a step from a
// blind band: there the error is that of the blind band, by continuity.
func (r *Rig) away(rel *volume.Relation) func(Sample) bool {
	travel, reach := r.told(rel)
	slack := edge * r.Tank.Full
	inputs := [2]float64{r.inputAt(travel[0]), r.inputAt(travel[1])}
	sign := math.Copysign(1, inputs[1]-inputs[0])
	low, high := sign*inputs[0], sign*inputs[1]
	if reach[0] > r.Dial.Empty+slack {
		low = sign * r.beside(inputs[0], inputs[1])
	}
	if reach[1] < r.Dial.Full-slack {
		high = sign * r.beside(inputs[1], inputs[0])
	}
	return func(s Sample) bool { return s.Live && sign*s.Input >= low && sign*s.Input <= high }
}
