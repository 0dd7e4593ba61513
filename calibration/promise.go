package calibration

import (
	"math"

	"floatarc/float"
	"floatarc/gauge"
	"floatarc/volume"
)

// A limit is what the needle may not exceed where the sender stands at a travel:
// what is in the tank when falling fuel brings it there.
type limit struct {
	rig     *Rig
	falling *volume.Relation // nil for no limit
	end     float64          // travel that falling fuel passes there
	travels []float64        // at which it bends
}

func (s *Search) limit(neverOver float64) limit {
	r := s.rig
	if neverOver <= 0 {
		return limit{}
	}
	falling := r.way(r.Level, float.Falling)
	s.falling = falling
	l := limit{rig: r, falling: falling, end: falling.Travel(r.Dial.Litres(math.Min(neverOver, 1)))}
	l.travels = []float64{falling.Low, falling.High, falling.Travel(r.Dial.Empty), l.end}
	return l
}

// at returns the greatest position at a travel, and just above it; +Inf for no
// limit. At rest on its low stop there may be as little as on the empty mark.
func (l limit) at(travel float64) (here, above float64) {
	here, above = math.Inf(1), math.Inf(1)
	if l.falling == nil || travel > l.end || travel > l.falling.High {
		return here, above
	}
	here = l.position(l.falling.Litres(math.Max(travel, l.falling.Low)))
	if travel < l.end {
		above = here
	}
	if travel <= l.falling.Low {
		here = l.position(l.rig.Dial.Empty)
	}
	if travel < l.falling.Low { // where falling fuel never brings the sender
		above = here
	}
	return here, above
}

// position returns where the needle must stand, or as low as it can go.
func (l limit) position(litres float64) float64 {
	least, _ := l.rig.Conditioner.Needle.Ends()
	return math.Max(least, l.rig.Dial.Position(l.rig.Dial.Share(litres)))
}

// Falling samples the truth on falling fuel at the attitude of a relation; on the
// mean where friction holds the arm.
func (s *Search) Falling(rel *volume.Relation) *Curve {
	if rel == s.rig.Level && s.falling != nil {
		return s.rig.Curve(s.falling)
	}
	return s.rig.Curve(s.rig.way(rel, float.Falling))
}

// Over returns by how much an indicator shows at most too much below a share, in
// percent of the dial; below 0 if it never does.
func (c *Curve) Over(ind gauge.Indicator, share float64) float64 {
	until := c.rig.Dial.Litres(math.Min(share, 1))
	most, _ := c.With(ind).peak(func(s Sample) float64 {
		if s.Litres > until {
			return math.Inf(-1)
		}
		off, _ := c.Off(ind, s)
		return 100 * off
	})
	return most
}
