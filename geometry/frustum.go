package geometry

import "math"

// Frustum returns the inside of a cone cut off at both ends. Its axis is w; it
// stands between w = 0, where it has the diameter low, and w = length, where it
// has the diameter high (mm, one of the two may be 0), centred on u = v = 0. A
// wall above 0 makes the sizes outside sizes: the side moves inward at right
// angles to itself, the ends along the axis.
func Frustum(low, high, length, wall float64) (Solid, error) {
	if err := positive("length", length); err != nil {
		return nil, err
	}
	for _, d := range []struct {
		name  string
		value float64
	}{{"low_diameter", low}, {"high_diameter", high}} {
		if !(d.value >= 0) || d.value > largest {
			return nil, wrong(d.name, "%g mm, expected a diameter of 0 or more and below %g mm", d.value, float64(largest))
		}
	}
	if low == 0 && high == 0 {
		return nil, wrong("high_diameter", "0 mm at both ends, expected a diameter above 0 at one of them")
	}
	if err := wallFits(wall, "length", length); err != nil {
		return nil, err
	}
	slope := (high - low) / 2 / length
	radius := func(w float64) float64 { return low/2 + slope*w - wall*math.Hypot(1, slope) }
	from, to := wall, length-wall
	// Where the side meets the axis before the end, the inside ends in a tip.
	if tip := from - radius(from)/slope; radius(from) < 0 && slope > 0 {
		from = tip
	}
	if tip := to - radius(to)/slope; radius(to) < 0 && slope < 0 {
		to = tip
	}
	if !(from < to) || radius((from+to)/2) <= 0 {
		return nil, wrong("wall", "%g mm leaves nothing of the cone, expected a thinner wall", wall)
	}
	return newRevolved(straight(from, math.Max(0, radius(from)), to, math.Max(0, radius(to)))), nil
}
