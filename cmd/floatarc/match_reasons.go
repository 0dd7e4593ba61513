package main

import (
	"fmt"
	"math"

	"floatarc/gauge"
	"floatarc/tanks/quantity"
)

// astray is how far, as a share of the dial, the needle must stand from an end mark
// before the sender's range is blamed for it.
const astray = 0.01

// reason says why a gauge does not meet its ends with a sender that shows so many ohms on
// empty and on full; "" where it does.
func (s *matchSheet) reason(m matched, empty, full float64) string {
	if m.reversed() {
		return reversedWords(empty, full)
	}
	low, high := math.Min(m.Empty, m.Full), math.Max(m.Empty, m.Full)
	ends, off := s.endWords(m, empty, full)
	if off < astray {
		return ""
	}
	switch m.obstacle {
	case gauge.NoSpan:
		return fmt.Sprintf("the terminals change by %s ohm from empty to full and this gauge wants %s; a part in series only shifts that, one in parallel only shrinks it: %s", ohms(s.most-s.least), ohms(high-low), ends)
	case gauge.NoRatio:
		if low == 0 {
			return fmt.Sprintf("no part brings %s ohm down to the 0 ohm that this gauge wants, short of a short circuit: %s", ohms(s.least), ends)
		}
		return fmt.Sprintf("parts that bring %s ohm down to the %s that this gauge wants leave at most %s of %s ohm at the other end, where it wants %s: %s",
			ohms(s.least), ohms(low), ohms(gauge.Left(s.least, s.most, low)), ohms(s.most), ohms(high), ends)
	}
	return ""
}

// reversedWords says why no parts turn a sense round.
func reversedWords(empty, full float64) string {
	way, wanted := "fall", "rise"
	if full > empty {
		way, wanted = wanted, way
	}
	return fmt.Sprintf("reversed: the sender's ohms %s as the tank fills, this gauge wants them to %s; more ohms in the sender are more ohms behind any part in series or parallel, so that no resistor turns it round", way, wanted)
}

// endWords says where the needle stands on empty and on full at best, and how far it is
// off there at most, as a share of the dial.
func (s *matchSheet) endWords(m matched, empty, full float64) (words string, off float64) {
	ind := gauge.Through{Network: m.best.Network, Gauge: m.Needle}
	marks := s.rig.Dial.Marks
	atEmpty, atFull := ind.Show(empty), ind.Show(full)
	low, high := math.Abs(atEmpty-marks[0].Position), math.Abs(atFull-marks[len(marks)-1].Position)
	best := "with the best parts"
	if m.best.Network.Count() == 0 {
		best = "no part helps, and"
	}
	switch {
	case low < astray:
		words = fmt.Sprintf("%s the needle stands at %s %% on full", best, percent(atFull))
	case high < astray:
		words = fmt.Sprintf("%s the needle stands at %s %% on empty", best, percent(atEmpty))
	default:
		words = fmt.Sprintf("%s the needle stands at %s %% on empty and at %s %% on full", best, percent(atEmpty), percent(atFull))
	}
	return words, math.Max(low, high)
}

// ohms writes resistances to three digits, or to whole ohms.
func ohms(v float64) string {
	if v >= 100 {
		return quantity.Fixed(v, 0)
	}
	return fmt.Sprintf("%.3g", v)
}

func percent(share float64) string { return quantity.Fixed(100*share, 0) }
