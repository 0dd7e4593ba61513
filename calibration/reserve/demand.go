package reserve

import (
	"math"
	"sync"
)

// A Choice is an input at which to light the lamp.
type Choice struct {
	On     float64 // ohm at the terminals; NaN if there is none
	Travel float64 // of a nominal sender there
	// AtStop says that the float rests on its stop with more than is asked for, so
	// that the lamp lights the earlier.
	AtStop bool
}

// Possible tells whether there is such a lamp.
func (c Choice) Possible() bool { return !math.IsNaN(c.On) }

var noChoice = Choice{On: math.NaN(), Travel: math.NaN()}

// A demand is what the tank must hold, at each attitude, when the lamp lights there.
type demand struct {
	need   func(*stance) float64 // litres
	travel float64               // below which the lamp must be lit at the late end; +Inf if nothing holds
	worst  *stance               // that asks for it
	lack   float64               // litres more than its sender tells

	raising sync.Mutex
}

// raise raises the travel so that it holds at one more attitude. It is safe for
// concurrent use.
func (d *demand) raise(s *stance) {
	travel, lack := s.holds(d.need(s)), d.need(s)-s.tells()
	d.raising.Lock()
	defer d.raising.Unlock()
	if d.worst == nil || travel > d.travel || math.IsInf(travel, 1) && lack > d.lack+s.slack() {
		d.travel, d.worst, d.lack = travel, s, lack
	}
}

// lamp returns the lamp that is lit below a travel at the late end, but not one
// that must wait for a float to come to rest, at a travel at most: that reading never
// passes anything, so that the lamp lights one step before it.
func (p *Promise) lamp(travel, rest float64) Choice {
	if math.IsInf(travel, 0) || math.IsInf(rest, 0) {
		return noChoice
	}
	on := p.input(travel, late)
	stop := p.stepped(p.input(rest, late), 1)
	c := Choice{On: on, Travel: p.lights(on, nominal)}
	if at := p.lights(stop, nominal); at > c.Travel {
		c = Choice{On: stop, Travel: at, AtStop: true}
	}
	if p.lights(c.On, late) < travel-rounding*(p.Rig.High-p.Rig.Low) {
		return noChoice // a turn of the winding takes it beyond the track
	}
	return c
}
