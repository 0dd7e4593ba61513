package fault

import (
	"math"

	"floatarc/gauge"
)

// needleRow is how often a needle does what with a cause, by the symptoms that matter;
// what is left is shared by the others (common practice, no source).
type needleRow map[Symptom]float64

// muddle is how often people describe a needle otherwise than it moves.
const muddle = 0.06

// needle is how likely the symptoms are.
func (s *scene) needle(c Cause) float64 {
	row := s.needleRow(c)
	named := 0.0
	for _, p := range row {
		named += p
	}
	rest := math.Max(0, 1-named) / float64(len(Symptoms)-len(row))
	out := 1.0
	for _, seen := range s.Needle {
		p, known := row[seen]
		if !known {
			p = rest
		}
		out *= (1-muddle)*p + muddle/float64(len(Symptoms))
	}
	return out
}

// needleRow returns what a needle does with a cause in this circuit.
func (s *scene) needleRow(c Cause) needleRow {
	switch c {
	case None:
		return s.soundNeedle()
	case OpenWire, OpenSender:
		return s.oneSide(1, 0.92)
	case ShortWire, ShortSend:
		return s.oneSide(-1, 0.92)
	case WrongRange:
		return s.wrongRange()
	case Reversed:
		return s.reversed()
	case BadEarth:
		return merged(s.moreOhms(), needleRow{Drifts: 0.3, Jumps: 0.08}, 0.62)
	case Joint:
		return merged(s.moreOhms(), needleRow{Jumps: 0.2, Drifts: 0.04}, 0.76)
	case Sunken:
		return needleRow{AlwaysEmpty: 0.82, StaysPut: 0.1, RightEmpty: 0.04}
	case Stuck:
		return needleRow{StaysPut: 0.66, AlwaysFull: 0.15, AlwaysEmpty: 0.15}
	case Worn:
		return needleRow{Jumps: 0.8, StaysPut: 0.12}
	case TwoGauges:
		return s.twoGauges()
	case Pump:
		return needleRow{Drifts: 0.85, Jumps: 0.05}
	}
	return needleRow{AlwaysEmpty: 0.85, StaysPut: 0.1} // without supply a needle rests on its spring
}

// soundNeedle stands where the fuel does: at an end of its sweep with a tank that is empty, or
// full, which people then call "always".
func (s *scene) soundNeedle() needleRow {
	switch {
	case took(s.Fuel) && s.Fuel < atAnEnd:
		return needleRow{Right: 0.55, AlwaysEmpty: 0.35}
	case took(s.Fuel) && s.Fuel > 1-atAnEnd:
		return needleRow{Right: 0.55, AlwaysFull: 0.35}
	}
	return needleRow{Right: 0.9}
}

// atAnEnd is the share of a tank within which it counts as empty, or as full.
const atAnEnd = 0.15

// usualCoil is that of a gauge, ohm, and usualBattery the volts that feed it (common
// practice, no source).
const usualCoil, usualBattery = 90, 12.6

// twoGauges works the needle out where the ranges are known: a second coil feeds the same
// sender, and both gauges see more than there is.
func (s *scene) twoGauges() needleRow {
	if !s.ranged() || s.rises() == 0 {
		return merged(s.moreOhms(), needleRow{}, 0.95)
	}
	seen := func(ohms float64) float64 {
		return gauge.Loop{Battery: usualBattery, Coil: usualCoil, Second: usualCoil, Sender: ohms}.Seen()
	}
	low, high := s.shows(seen(s.empty)), s.shows(seen(s.full))
	if low < nearby && high > 1-nearby { // right at both ends, and far off between
		return needleRow{RightFull: 0.45, RightEmpty: 0.45}
	}
	return s.between(low, high)
}

// oneSide is a needle that stands on the side of many ohms (1) or of none (-1).
func (s *scene) oneSide(ohms int, p float64) needleRow {
	switch ohms * s.rises() {
	case 1:
		return needleRow{AlwaysFull: p, AlwaysEmpty: 0.02}
	case -1:
		return needleRow{AlwaysEmpty: p, AlwaysFull: 0.02}
	}
	return needleRow{AlwaysFull: p / 2, AlwaysEmpty: p / 2}
}

// moreOhms is what ohms in the way do: they count most where the sender has few of its own,
// and many of them hold the needle on the side of many.
func (s *scene) moreOhms() needleRow {
	switch s.rises() {
	case 1: // few at empty
		return needleRow{RightFull: 0.7, AlwaysFull: 0.22}
	case -1: // few at full
		return needleRow{RightEmpty: 0.7, AlwaysEmpty: 0.22}
	}
	return needleRow{RightFull: 0.36, RightEmpty: 0.36, AlwaysFull: 0.1, AlwaysEmpty: 0.1}
}

// nearby is how near to a mark, as a share of the dial, a needle counts as on it.
const nearby = 0.12

// shows returns where the needle stands with so many ohms on the gauge.
func (s *scene) shows(ohms float64) float64 {
	e, f := s.Circuit.GaugeEmpty, s.Circuit.GaugeFull
	return math.Max(0, math.Min(1, (ohms-e)/(f-e)))
}

// straight returns where the needle stands with the sender at empty and at full, wired
// straight; both ranges must be known.
func (s *scene) straight() (atEmpty, atFull float64) {
	return s.shows(s.empty), s.shows(s.full)
}

// wrongRange works the needle out where both ranges are known.
func (s *scene) wrongRange() needleRow {
	if !s.ranged() || s.rises() == 0 {
		return needleRow{RightFull: 0.28, RightEmpty: 0.28, AlwaysFull: 0.16, AlwaysEmpty: 0.16}
	}
	return s.between(s.straight())
}

// between is what people call a needle that stands at one place with an empty and at another
// with a full tank.
func (s *scene) between(low, high float64) needleRow {
	switch {
	case low > 1-nearby:
		return needleRow{AlwaysFull: 0.85}
	case high < nearby:
		return needleRow{AlwaysEmpty: 0.85}
	case low < nearby && high > 1-nearby:
		return needleRow{Right: 0.4, RightFull: 0.25, RightEmpty: 0.25}
	case low < nearby:
		return needleRow{RightEmpty: 0.8, AlwaysEmpty: 0.1}
	case high > 1-nearby:
		return needleRow{RightFull: 0.8, AlwaysFull: 0.1}
	}
	return needleRow{RightFull: 0.25, RightEmpty: 0.25, StaysPut: 0.1}
}

// reversed is the same of a sender that runs the other way.
func (s *scene) reversed() needleRow {
	if s.ranged() && s.rises() != 0 {
		switch low, high := s.straight(); {
		case low > 1-nearby && high > 1-nearby:
			return needleRow{AlwaysFull: 0.85}
		case low < nearby && high < nearby:
			return needleRow{AlwaysEmpty: 0.85}
		}
	}
	return needleRow{Backwards: 0.85, AlwaysFull: 0.05, AlwaysEmpty: 0.05}
}

// merged adds a share of one row to another.
func merged(a, b needleRow, share float64) needleRow {
	out := needleRow{}
	for k, p := range a {
		out[k] += share * p
	}
	for k, p := range b {
		out[k] += p
	}
	return out
}
