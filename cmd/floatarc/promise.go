package main

import (
	"floatarc/calibration/reserve"
	"floatarc/tanks"
	"floatarc/volume"
)

// envelope returns the slopes of [use], with its accelerations.
func (j *job) envelope() reserve.Envelope { return envelopeOf(j.file.Use) }

func envelopeOf(u tanks.Use) reserve.Envelope {
	return reserve.Envelope{NoseUp: u.Grade, LeftUp: u.SideSlope}.Accelerated(u.Along, u.Across)
}

// smaller returns a use with a share of its slopes and accelerations.
func smaller(u tanks.Use, share float64) tanks.Use {
	slopes := reserve.Envelope{NoseUp: u.Grade, LeftUp: u.SideSlope}.Scaled(share)
	u.Grade, u.SideSlope, u.Along, u.Across = slopes.NoseUp, slopes.LeftUp, share*u.Along, share*u.Across
	return u
}

// lampPromise returns what [use] promises of the lamp. It refuses what cannot be known
// of the rig.
func (j *job) lampPromise() (*reserve.Promise, error) {
	e := j.envelope()
	switch measured, isMeasured := j.rig.Tank.Pickup.(volume.Measured); {
	case j.rig.Tank.Pickup == nil:
		return nil, j.file.Refuse("tank.pickup", "not given, expected pickup.at, the draw point such as [300, 160, 8], or on level ground pickup.unusable, drained and measured")
	case e.Level():
	case j.rig.Tank.LevelOnly != "":
		return nil, j.file.Refuse(j.slopeKey(), "given, but %s, so that nothing is known of it tilted, expected grade = 0 and side_slope = 0 (a promise for level ground alone)", j.rig.Tank.LevelOnly)
	case isMeasured:
		return nil, j.file.Refuse("tank.pickup.unusable", "%g L, measured on level ground, but [use] names slopes, expected pickup.at = [x, y, z] instead, the draw point", float64(measured))
	}
	litres, err := j.file.Reserve()
	if err != nil {
		return nil, err
	}
	return &reserve.Promise{
		Rig: j.rig, Tolerance: j.file.Sender.Tolerance, Winding: j.file.Sender.Winding(), Envelope: e, Reserve: litres,
	}, nil
}

// slopeKey names a key of [use] that tilts the vehicle.
func (j *job) slopeKey() string {
	switch u := j.file.Use; {
	case u.Grade > 0:
		return "use.grade"
	case u.SideSlope > 0:
		return "use.side_slope"
	case u.Along > 0:
		return "use.acceleration"
	}
	return "use.cornering"
}
