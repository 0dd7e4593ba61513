package reserve

import (
	"math"

	"floatarc/float"
)

// An end of what a sender of a tolerance and a winding may show at one travel.
type end int

// At the late end the lamp lights with the least fuel, at the early end with the
// most; nominal is the sender as it is meant to be.
const (
	late    end = -1
	nominal end = 0
	early   end = 1
)

// falls tells whether the sender's ohms fall as the fuel rises.
func (p *Promise) falls() bool {
	t := p.Rig.Sender.Track()
	return t.Ohms(p.Rig.Low) > t.Ohms(p.Rig.High)
}

// factor returns what a sender at an end of its tolerance shows for an ohm of
// a nominal one.
func (p *Promise) factor(e end) float64 {
	if p.falls() {
		return 1 + float64(e)*p.Tolerance
	}
	return 1 - float64(e)*p.Tolerance
}

// slip returns by how much the travel at which a wound track shows a reading may
// lie further up: a whole turn either way, since nobody knows where in a turn its
// wire is met. The contacts of a stem are known.
func (p *Promise) slip(e end) float64 {
	if p.Rig.Contacts() != nil {
		return 0
	}
	return float64(e) * p.Winding.Width
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
	if p.falls() {
		sign = -1
	}
	switch {
	case sign*ohms < sign*track.Ohms(low):
		return math.Inf(-1)
	case sign*ohms > sign*track.Ohms(high):
		return math.Inf(1)
	}
	travel := track.Travel(ohms) + p.slip(e)
	if c := p.Rig.Contacts(); c != nil {
		return above(c, travel)
	}
	return travel
}

// above returns the travel at which a float leaves the contact at or below a
// travel, upwards; +Inf for the last.
func above(c *float.Contacts, travel float64) float64 {
	w := c.Winding()
	k := math.Floor(travel/w.Width*(1+1e-12) + 1e-9)
	if int(k) >= w.Steps {
		return math.Inf(1)
	}
	return (k + 1) * w.Width
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
	w := c.Winding()
	lit := math.Max(0, math.Ceil(travel/w.Width*(1-1e-12)-1e-9)-1) // left at (lit+1) pitches
	shown := c.Ohms(math.Min(lit, float64(w.Steps))*w.Width) * p.factor(e)
	next := math.Floor(c.Travel(shown)/w.Width+1e-9) + 1
	if int(next) > w.Steps {
		return shown
	}
	return (shown + c.Ohms(next*w.Width)) / 2
}
