package fault

import "math"

// A Circuit is what is known of a healthy one, from a rig or from readings.
type Circuit struct {
	// Sender returns the sender's ohms at a share of a full tank; nil if it is not known.
	Sender func(share float64) float64
	// GaugeEmpty and GaugeFull are the ohms at which the gauge stands at empty and at full;
	// NaN if they are not known.
	GaugeEmpty, GaugeFull float64
	Wire                  float64 // ohms of the wire and of good joints; 0 if not known
}

// Unknown returns a circuit of which nothing is known.
func Unknown() Circuit { return Circuit{nil, math.NaN(), math.NaN(), 0} }

// A scene is a circuit with readings: the ends of the sender and of the gauge, from
// wherever they are known best.
type scene struct {
	Circuit
	Readings
	empty, full float64 // of the sender; NaN if not known
}

func (c Circuit) with(r Readings) *scene {
	s := &scene{Circuit: c, Readings: r, empty: math.NaN(), full: math.NaN()}
	if c.Sender != nil {
		s.empty, s.full = c.Sender(0), c.Sender(1)
	}
	finite := func(v float64) bool { return took(v) && !math.IsInf(v, 0) }
	if finite(r.SenderEmpty) && finite(r.SenderFull) && math.Abs(r.SenderEmpty-r.SenderFull) > 5 {
		if c.Sender != nil && !alike(r.SenderEmpty, r.SenderFull, s.empty, s.full) {
			s.Sender = nil // it is another sender than the rig's
		}
		s.empty, s.full = r.SenderEmpty, r.SenderFull
	}
	if took(r.GaugeEmpty) && took(r.GaugeFull) {
		s.Circuit.GaugeEmpty, s.Circuit.GaugeFull = r.GaugeEmpty, r.GaugeFull
	}
	return s
}

// alike tells whether two ranges are the same, to a tenth of the wider.
func alike(e1, f1, e2, f2 float64) bool {
	span := math.Max(math.Abs(f1-e1), math.Abs(f2-e2))
	return math.Abs(e1-e2) < 0.1*span && math.Abs(f1-f2) < 0.1*span
}

// ranged tells whether both ends of the sender are known.
func (s *scene) ranged() bool { return took(s.empty) && took(s.full) }

// rises tells which way the gauge's ohms go with the fuel: 1 up, -1 down, 0 not known.
func (s *scene) rises() int {
	e, f := s.Circuit.GaugeEmpty, s.Circuit.GaugeFull
	switch {
	case !took(e) || !took(f):
		return 0
	case f > e:
		return 1
	}
	return -1
}

// at returns the sender's ohms at a share.
func (s *scene) at(share float64) float64 {
	if s.Sender != nil {
		return s.Sender(share)
	}
	return s.empty + share*(s.full-s.empty)
}
