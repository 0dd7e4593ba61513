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
	rel, ok := volume.Relate(contents, r.Sender, r.Low, r.High, r.Tank.Full)
	if !ok {
		return nil, ErrStill
	}
	return rel, nil
}

// Input returns the resistance at the terminals at so many litres.
func (r *Rig) Input(rel *volume.Relation, litres float64) float64 {
	return r.Wiring.Input(rel.Ohms(litres))
}
