package reserve

import (
	"math"

	"floatarc/float"
)

// An end is what a sender of a tolerance and a winding may show: its ohms off by the
// tolerance, its travel by a turn of the winding, towards less fuel (-1), towards more
// (1) or not at all.
type end struct{ tolerance, winding float64 }

// At the late end the lamp lights with the least fuel, at the early end with the
// most; nominal is the sender as it is meant to be.
var (
	late    = end{-1, -1}
	nominal = end{}
	early   = end{1, 1}
)

// Falls tells whether the ohms at the terminals fall as the fuel rises, so that the
// lamp is lit above its input.
func (p *Promise) Falls() bool { return p.Rig.InputAt(p.Rig.Low) > p.Rig.InputAt(p.Rig.High) }

// fuller tells whether one input stands for more fuel than another.
func (p *Promise) fuller(a, b float64) bool {
	if p.Falls() {
		return a < b
	}
	return a > b
}

// fullest returns the input of two that stands for more fuel.
func (p *Promise) fullest(a, b float64) float64 {
	if p.fuller(b, a) {
		return b
	}
	return a
}

// factor returns what a sender at an end of its tolerance shows for an ohm of
// a nominal one.
func (p *Promise) factor(e end) float64 {
	if p.Falls() {
		return 1 + e.tolerance*p.Tolerance
	}
	return 1 - e.tolerance*p.Tolerance
}

// slip returns by how much the travel at which a wound track shows a reading may
// lie further up: a whole turn either way, since nobody knows where in a turn its
// wire is met. The contacts of a stem are known.
func (p *Promise) slip(e end) float64 {
	if p.Rig.Contacts() != nil {
		return 0
	}
	return e.winding * p.Winding.Width
}

// lights returns the travel below which a lamp that lights at an input is lit, of a
// sender at an end of its tolerance and winding; -Inf if it never is, +Inf if it
// always is; NaN for no input.
func (p *Promise) lights(on float64, e end) float64 {
	if math.IsNaN(on) {
		return on
	}
	ohms := p.Rig.Wiring.Sender(on) / p.factor(e)
	low, high := p.Rig.Sender.Stops()
	track := p.Rig.Sender.Track()
	sign := 1.0
	if p.Falls() {
		sign = -1
	}
	switch {
	case sign*ohms < sign*track.Ohms(low):
		return math.Inf(-1)
	case sign*ohms > sign*track.Ohms(high):
		return math.Inf(1)
	}
	if c := p.Rig.Contacts(); c != nil {
		return c.Above(track.Travel(ohms))
	}
	return track.Travel(ohms) + p.slip(e)
}

// input returns the input at which a lamp must light to be lit below a travel with
// a sender at an end of its tolerance and winding.
func (p *Promise) input(travel float64, e end) float64 {
	if c := p.Rig.Contacts(); c != nil {
		return p.Rig.Wiring.Input(p.between(c, travel, e))
	}
	return p.Rig.Wiring.Input(p.Rig.Sender.Track().Ohms(travel-p.slip(e)) * p.factor(e))
}

// between returns the sender's ohms at which a lamp is lit on the contact that the
// float must have come down to, shown by a sender at one end, and not yet on the next
// one up that a nominal sender shows: half way between the two.
func (p *Promise) between(c *float.Contacts, travel float64, e end) float64 {
	shown := c.Ohms(c.Below(travel)) * p.factor(e)
	next := c.Above(c.Travel(shown))
	if math.IsInf(next, 1) {
		return shown
	}
	return (shown + c.Ohms(next)) / 2
}

// unknownStep is the share of the inputs by which a threshold can be moved where the
// conditioner tells no step.
const unknownStep = 0.005

// stepped returns the input one step of the conditioner further towards full, or with
// steps of -1 towards empty.
func (p *Promise) stepped(input, steps float64) float64 {
	low, high := p.Rig.InputAt(p.Rig.Low), p.Rig.InputAt(p.Rig.High)
	if step := p.Rig.Conditioner.Step; step > 0 {
		return input + steps*math.Copysign(step, high-low)
	}
	return input + steps*unknownStep*(high-low)
}

// apart is the share of the inputs by which a lamp at least goes out later than it
// lights: joints and meters wander (common practice, no source).
const apart = 0.02

// apartFrom returns the input at which a lamp that lights at another may go out at
// the earliest: a step of the conditioner and a fiftieth of the inputs further towards
// full, or on a stem a contact.
func (p *Promise) apartFrom(on float64) float64 {
	if c := p.Rig.Contacts(); c != nil {
		return p.input(c.Above(p.lights(on, nominal)), nominal)
	}
	low, high := p.Rig.InputAt(p.Rig.Low), p.Rig.InputAt(p.Rig.High)
	return p.fullest(p.stepped(on, 1), on+apart*(high-low))
}
