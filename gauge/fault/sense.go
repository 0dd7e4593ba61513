package fault

import "math"

// apart is by how much of the gauge's range the ends of a sender must lie off before the
// range is called wrong.
const apart = 0.12

// mismatch compares the sender's range with the gauge's: whether it runs the same way, and
// by how much of the gauge's range an end lies off.
func (s *scene) mismatch() (same bool, off float64) {
	e, f := s.Circuit.GaugeEmpty, s.Circuit.GaugeFull
	span := math.Abs(f - e)
	off = math.Max(math.Abs(s.empty-e), math.Abs(s.full-f)) / span
	return (s.full > s.empty) == (f > e), off
}

// ranges is how likely two such ranges are.
func (s *scene) ranges(c Cause) float64 {
	same, off := s.mismatch()
	switch {
	case c == Reversed && !same, c == WrongRange && same && off >= apart:
		return 0.95
	case c == WrongRange && same: // a little off, as senders are
		return 0.05
	case c == Reversed || c == WrongRange:
		return 0.004
	case same && off < apart:
		return 0.95
	case same:
		return 0.05
	}
	return 0.01
}

// ends is how likely the sender's own readings at its ends are.
func (s *scene) ends(c Cause) float64 {
	e, f := s.SenderEmpty, s.SenderFull
	open, shorted := math.IsInf(e, 1) && math.IsInf(f, 1), e < 3 && f < 3
	anyOpen := math.IsInf(e, 1) || math.IsInf(f, 1)
	still := !anyOpen && math.Abs(e-f) < 0.1*math.Max(20, math.Max(e, f))
	pick := func(likely bool, yes, no float64) float64 {
		if likely {
			return yes
		}
		return no
	}
	switch c {
	case OpenSender:
		return pick(open, 0.85, 0.05)
	case ShortSend:
		return pick(shorted, 0.85, 0.05)
	case Stuck:
		return pick(still && !shorted, 0.35, pick(!anyOpen && !shorted, 0.6, 0.01))
	case Worn:
		return pick(anyOpen && !open, 0.2, pick(!open && !shorted && !still, 0.75, 0.02))
	}
	return pick(!anyOpen && !shorted && !still, 0.95, 0.01)
}

// moves is how likely a needle goes where it was seen to go when the sender's plug is
// pulled, or its wire is held to earth.
func (s *scene) moves(c Cause, seen Move, unplugged bool) float64 {
	stays := 0.04
	switch c {
	case OpenWire, NoFeed:
		stays = 0.93
	case OpenSender:
		if unplugged { // it stands there already
			stays = 0.93
		}
	case ShortWire:
		stays = 0.93
	case ShortSend:
		if !unplugged {
			stays = 0.93
		}
	}
	side := s.rises() // many ohms
	if !unplugged {
		side = -side
	}
	right := map[int]Move{1: ToFull, -1: ToEmpty}[side]
	stays = math.Max(stays, s.stands(c, right))
	switch {
	case seen == Stays:
		return stays
	case side == 0:
		return (1 - stays) / 2
	case seen == right:
		return 0.95 * (1 - stays)
	}
	return 0.05 * (1 - stays)
}

// stands is how likely the needle stands already where it would go.
func (s *scene) stands(c Cause, to Move) float64 {
	row := s.needleRow(c)
	at := map[Move]float64{ToFull: row[AlwaysFull], ToEmpty: row[AlwaysEmpty]}[to]
	switch {
	case s.rises() != 0 && took(s.AtSender) && !math.IsInf(s.AtSender, 1): // as that sender asks for
		place := s.shows(s.AtSender)
		if place < nearby && to == ToEmpty || place > 1-nearby && to == ToFull {
			at = math.Max(at, 0.95)
		}
	case took(s.Fuel) && s.Fuel < atAnEnd && to == ToEmpty, took(s.Fuel) && s.Fuel > 1-atAnEnd && to == ToFull:
		at = math.Max(at, 0.5)
	}
	return 0.95 * at
}
