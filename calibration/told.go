package calibration

import (
	"math"

	"floatarc/volume"
)

// A Told is the part of a relation over which the conditioner sees its input
// change. A conditioner with limits may see less than the sender's own travel, and
// nothing at all (Low above High).
type Told struct{ Low, High Border }

// A Border is an end of it.
type Border struct {
	Travel  float64
	Litres  float64 // in the tank
	Limited bool    // by the conditioner's limits, and not by the sender
	Blind   bool    // the dial goes on beyond it, where every quantity reads the same
}

// Told returns the part of a relation that the conditioner is told of.
func (r *Rig) Told(rel *volume.Relation) Told {
	t := r.borders(rel)
	slack := edge * r.Tank.Full
	t.Low.Blind = t.Low.Litres > r.Dial.Empty+slack
	t.High.Blind = t.High.Litres < r.Dial.Full-slack
	return t
}

// borders returns the ends of what the conditioner is told of.
func (r *Rig) borders(rel *volume.Relation) Told {
	var t Told
	t.Low.Travel, t.High.Travel = rel.Low, rel.High
	t.Low.Litres, t.High.Litres = rel.Reach()
	least, most := r.Conditioner.Limits()
	low, high := r.InputAt(rel.Low), r.InputAt(rel.High)
	if math.Min(low, high) >= least && math.Max(low, high) <= most {
		return t
	}
	if low > high {
		least, most = most, least
	}
	if from := r.TravelAt(least); from > rel.Low {
		t.Low = Border{Travel: from, Litres: rel.Litres(from), Limited: true}
	}
	if to := r.TravelAt(most); to < rel.High {
		t.High = Border{Travel: to, Litres: rel.Litres(to), Limited: true}
	}
	return t
}

// within returns a travel, or that of the border beyond which it lies.
func (t Told) within(travel float64) float64 {
	return math.Max(t.Low.Travel, math.Min(t.High.Travel, travel))
}

// At returns the border at an end.
func (t Told) At(end End) Border {
	if end == HighEnd {
		return t.High
	}
	return t.Low
}

// An End is that of what the conditioner is told of at which a point lies.
type End int

// A point lies at no end, or where fuel below, or above, reads the same.
const (
	NoEnd End = iota
	LowEnd
	HighEnd
)
