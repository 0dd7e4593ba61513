package fault

import "math"

// A Reading names one of the readings.
type Reading string

// The readings.
const (
	Needle     Reading = "needle"
	AtSender   Reading = "ohms at the sender"
	AtGauge    Reading = "ohms at the gauge's end"
	Range      Reading = "ranges of sender and gauge"
	Ends       Reading = "sender at empty and full"
	Earth      Reading = "ohms of the earth"
	EarthVolts Reading = "volts in the earth"
	Unplugged  Reading = "needle with the plug pulled"
	Earthed    Reading = "needle with the wire earthed"
	Fuel       Reading = "what is in the tank"
)

// likelihoods returns how likely each reading that was taken is with a cause.
func (s *scene) likelihoods(c Cause) map[Reading]float64 {
	out := map[Reading]float64{}
	if len(s.Needle) > 0 {
		out[Needle] = s.needle(c)
	}
	if took(s.AtSender) {
		out[AtSender] = blend(s.atSender(c, s.AtSender), ohmsAtAll(s.AtSender))
	}
	if took(s.AtGauge) {
		out[AtGauge] = blend(s.atGauge(c, s.AtGauge), ohmsAtAll(s.AtGauge))
	}
	if took(s.SenderEmpty) && took(s.SenderFull) {
		out[Ends] = s.ends(c)
	}
	if s.ranged() && s.rises() != 0 {
		out[Range] = s.ranges(c)
	}
	if took(s.Readings.Earth) {
		out[Earth] = blend(earth(c, s.Readings.Earth), ohmsAtAll(s.Readings.Earth))
	}
	if took(s.EarthVolts) {
		out[EarthVolts] = blend(earthVolts(c, math.Abs(s.EarthVolts)), 1./60)
	}
	if s.Readings.Unplugged != "" {
		out[Unplugged] = s.moves(c, s.Readings.Unplugged, true)
	}
	if s.Readings.Earthed != "" {
		out[Earthed] = s.moves(c, s.Readings.Earthed, false)
	}
	return out
}

// How well a sender's ohms are foreseen from a rough quantity, as a share of its range, and
// how well a meter and a sender's tolerance let them be read (common practice, no source).
const (
	guess      = 0.10
	meterOhms  = 1.0
	meterShare = 0.03
)

// sound is a sender in order: near what the fuel asks for, or anywhere in its range.
func (s *scene) sound(x float64) float64 {
	switch {
	case s.ranged() && took(s.Fuel):
		return around(x, s.at(s.Fuel), math.Hypot(meterOhms, guess*math.Abs(s.full-s.empty)), meterShare)
	case s.ranged(): // people look for faults with nearly empty tanks, and with full ones
		return (1-oftenEmpty-oftenFull)*within(x, s.empty, s.full, meterOhms, meterShare) +
			oftenEmpty*around(x, s.empty, 2*meterOhms, meterShare) + oftenFull*around(x, s.full, 2*meterOhms, meterShare)
	}
	return anywhere(x, 0.3, 450)
}

// oftenEmpty and oftenFull are how often a tank is nearly empty, or full, when nobody says what
// is in it (common practice, no source).
const oftenEmpty, oftenFull = 0.4, 0.1

// parted is an open circuit, or what damp still leads across it.
func parted(x float64) float64 {
	if math.IsInf(x, 1) {
		return 1
	}
	return 0.1 * anywhere(x, 2000, 1e6)
}

// atSender is how likely so many ohms across the sender are.
func (s *scene) atSender(c Cause, x float64) float64 {
	switch c {
	case OpenSender:
		return parted(x)
	case ShortSend:
		return around(x, 0.3, 1, 0)
	case Sunken:
		switch {
		case s.ranged() && took(s.Fuel): // as wide as for a sound one: near empty they are alike
			return around(x, s.empty, math.Hypot(meterOhms, guess*math.Abs(s.full-s.empty)), meterShare)
		case s.ranged():
			return around(x, s.empty, 2*meterOhms, meterShare)
		}
	case Stuck: // in between, or on one of its stops
		if s.ranged() {
			return 0.5*within(x, s.empty, s.full, meterOhms, meterShare) + 0.25*around(x, s.empty, 2*meterOhms, meterShare) + 0.25*around(x, s.full, 2*meterOhms, meterShare)
		}
	case Worn:
		if math.IsInf(x, 1) {
			return 0.15
		}
		return 0.55*s.sound(x) + 0.3*anywhere(x, 0.3, 5000)
	}
	return s.sound(x)
}

// usualWire is what a wire and good joints add where nobody says, ohm.
const usualWire = 0.6

// atGauge is how likely so many ohms from the gauge's end of the wire are, the sender
// plugged in.
func (s *scene) atGauge(c Cause, x float64) float64 {
	switch c {
	case OpenWire:
		return parted(x)
	case ShortWire:
		return around(x, 0.6, 1, 0)
	case BadEarth:
		if math.IsInf(x, 1) { // lost altogether, as on a tank of plastic
			return lostEarth
		}
	}
	wire := usualWire + s.Wire
	if took(s.AtSender) {
		return s.added(c, x, s.AtSender, wire)
	}
	// The sender itself was not measured: what lies beyond its range was added.
	switch c {
	case BadEarth, Joint:
		if s.ranged() {
			low, high := math.Min(s.empty, s.full), math.Max(s.empty, s.full)
			if took(s.Fuel) {
				return added(x, s.at(s.Fuel), math.Hypot(meterOhms, guess*(high-low)))
			}
			return 0.5*within(x, low, high, meterOhms, meterShare) + 0.5*anywhere(x, high, high+200)
		}
	case TwoGauges:
		if s.ranged() {
			return 0.5*s.sound(x) + 0.5*within(x, 0, math.Max(s.empty, s.full), meterOhms, meterShare)
		}
	}
	return s.atSender(c, math.Max(0, x-wire))
}

// Faults of a joint or an earth, ohm, by their logarithm (common practice, no source).
const leastFault, mostFault = 2.5, 150

// added is a reading that lies above a value, known within a standard deviation, by what
// a bad joint adds.
func added(x, value, sigma float64) float64 {
	const parts = 12
	sum := 0.0
	for k := range parts {
		fault := leastFault * math.Pow(mostFault/leastFault, (float64(k)+0.5)/parts)
		sum += around(x, value+fault, math.Hypot(sigma, 0.2*fault), 0.02)
	}
	return sum / parts
}

// added is how likely so many ohms at the gauge's end are, where the sender itself shows
// so many.
func (s *scene) added(c Cause, x, sender, wire float64) float64 {
	sigma := math.Hypot(0.5, 0.02*sender)
	switch {
	case math.IsInf(sender, 1):
		if math.IsInf(x, 1) {
			return 1
		}
		return 0.05 * anywhere(x, 0.3, 1e6)
	case c == BadEarth || c == Joint:
		return added(x, sender+wire, sigma)
	case c == TwoGauges: // another gauge's coil lies beside the sender
		if x < sender {
			return within(x, 0.3*sender, 0.97*sender, 0.5, 0.02)
		}
		return 0.15 * around(x, sender+wire, sigma, 0.01)
	case c == Worn:
		return 0.7*around(x, sender+wire, sigma, 0.01) + 0.3*anywhere(x, 0.3, 5000)
	}
	return around(x, sender+wire, sigma, 0.01)
}

// lostEarth is how often a bad earth is none at all (common practice, no source).
const lostEarth = 0.25

// earth is how likely so many ohms from the sender's body to the battery's minus are.
func earth(c Cause, x float64) float64 {
	if c == BadEarth {
		if math.IsInf(x, 1) {
			return lostEarth
		}
		return (1 - lostEarth) * anywhere(x, 1.2, 1e5)
	}
	return 2 * around(x, 0, 0.5, 0) // meters and leads: nothing below 0
}

// earthVolts is how likely so many volts between the same are, everything running.
func earthVolts(c Cause, x float64) float64 {
	switch c {
	case BadEarth:
		return 0.5*anywhere(x, 0.04, 60) + 0.5*2*around(x, 0, 0.08, 0)
	case Pump:
		return anywhere(x, 0.12, 6)
	}
	return 2 * around(x, 0, 0.04, 0)
}
