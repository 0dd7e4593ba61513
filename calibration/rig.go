package calibration

import (
	"errors"
	"math"

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

// On returns the sender in the contents of a relation on rising or falling fuel; a
// sender without a dragging axle reads the same both ways. It reports false where
// friction holds the arm at every angle.
func (r *Rig) On(rel *volume.Relation, sense float.Sense) (*volume.Relation, bool) {
	arm, ok := r.Sender.(*float.Arm)
	if !ok {
		return rel, true
	}
	return volume.Relate(rel.Contents, arm.On(sense), r.Low, r.High, r.Tank.Full)
}

// told returns the part of a relation over which the conditioner sees its input
// change: the travels at its ends, and the litres there. A conditioner with limits
// may see less than the sender's own travel, and nothing at all (low > high).
func (r *Rig) told(rel *volume.Relation) (travel, litres [2]float64) {
	travel = [2]float64{rel.Low, rel.High}
	litres[0], litres[1] = rel.Reach()
	least, most := r.Conditioner.Limits()
	track := r.Sender.Track()
	low, high := r.Wiring.Input(track.Ohms(rel.Low)), r.Wiring.Input(track.Ohms(rel.High))
	if math.Min(low, high) >= least && math.Max(low, high) <= most {
		return travel, litres
	}
	ends := [2]float64{least, most}
	if low > high {
		ends = [2]float64{most, least}
	}
	if from := track.Travel(r.Wiring.Sender(ends[0])); from > travel[0] {
		travel[0] = from
	}
	if to := track.Travel(r.Wiring.Sender(ends[1])); to < travel[1] {
		travel[1] = to
	}
	return travel, [2]float64{rel.Litres(travel[0]), rel.Litres(travel[1])}
}

// Input returns the resistance at the terminals at so many litres.
func (r *Rig) Input(rel *volume.Relation, litres float64) float64 {
	return r.Wiring.Input(rel.Ohms(litres))
}
