package calibration

import (
	"errors"

	"floatarc/float"
	"floatarc/gauge"
	"floatarc/geometry"
	"floatarc/volume"
)

// A Rig is one tank, its sender, the wiring, the conditioner and the gauge that
// must tell the truth.
type Rig struct {
	Tank        *volume.Tank
	Sender      float.Sender
	Low, High   float64          // travel that the tank leaves free
	Level       *volume.Relation // the sender in the tank on level ground
	Wiring      gauge.Wiring
	Dial        *gauge.Dial
	Conditioner gauge.Conditioner
}

// ErrStill is returned for an attitude at which the sender follows the fuel
// nowhere.
var ErrStill = errors.New("the sender follows the fuel nowhere at this attitude")

// At returns the sender in the tank at an attitude.
func (r *Rig) At(a geometry.Attitude) (*volume.Relation, error) {
	if a == r.Level.Contents.Attitude {
		return r.Level, nil
	}
	contents, err := r.Tank.At(a)
	if err != nil {
		return nil, err
	}
	rel, ok := r.In(contents, float.Mean)
	if !ok {
		return nil, ErrStill
	}
	return rel, nil
}

// On returns the sender in the contents of a relation on rising or falling fuel; a
// sender without a dragging axle reads the same both ways. It reports false where
// friction holds the arm at every angle.
func (r *Rig) On(rel *volume.Relation, sense float.Sense) (*volume.Relation, bool) {
	if _, ok := r.Sender.(*float.Arm); !ok {
		return rel, true
	}
	return r.In(rel.Contents, sense)
}

// In returns the sender in contents of the tank on one way of the fuel. It reports false
// where the sender follows the fuel nowhere.
func (r *Rig) In(contents *volume.Contents, sense float.Sense) (*volume.Relation, bool) {
	sender := r.Sender
	if arm, ok := sender.(*float.Arm); ok {
		sender = arm.On(sense)
	}
	return volume.Relate(contents, sender, r.Low, r.High, r.Tank.Full)
}

// way returns the relation on one way of the fuel; the mean where friction holds the
// arm.
func (r *Rig) way(rel *volume.Relation, sense float.Sense) *volume.Relation {
	if on, ok := r.On(rel, sense); ok {
		return on
	}
	return rel
}

// Input returns the resistance at the terminals at so many litres.
func (r *Rig) Input(rel *volume.Relation, litres float64) float64 {
	return r.Wiring.Input(rel.Ohms(litres))
}

// InputAt returns the resistance at the terminals with the sender at a travel.
func (r *Rig) InputAt(travel float64) float64 {
	return r.Wiring.Input(r.Sender.Track().Ohms(travel))
}

// EvenAt returns the same where a sender's contacts, if it has any, are evened out.
func (r *Rig) EvenAt(travel float64) float64 {
	if c := r.Contacts(); c != nil {
		return r.Wiring.Input(c.Even(travel))
	}
	return r.InputAt(travel)
}

// TravelAt returns the travel of the sender at which the terminals show a resistance;
// beyond its resistances, that of the nearer end.
func (r *Rig) TravelAt(input float64) float64 {
	return r.Sender.Track().Travel(r.Wiring.Sender(input))
}

// Contacts returns the contacts of a sender whose reading jumps from one to the next;
// nil for one that runs smoothly.
func (r *Rig) Contacts() *float.Contacts {
	c, _ := r.Sender.Track().(*float.Contacts)
	return c
}

// LitresNear returns the litres that an input stands for; beyond the live band,
// those of its end. On a stem with contacts they are those half way to the next.
func (r *Rig) LitresNear(rel *volume.Relation, input float64) float64 {
	travel := r.TravelAt(input)
	if c := r.Contacts(); c != nil {
		travel += c.Winding().Width / 2
	}
	return rel.Litres(rel.Within(travel))
}
