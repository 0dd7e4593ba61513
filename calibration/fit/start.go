package fit

import (
	"math"

	"floatarc/calibration"
)

// startShare is the standard uncertainty, as a share of a full tank, of a start of which
// nobody knows more than what the first reading says.
const startShare = 0.15

// FindStart takes the start as unknown: about what the first reading says in a rig was in
// the tank before, and so uncertain that the log will tell it.
func (l *Log) FindStart(rig *calibration.Rig) {
	l.Start, l.StartSigma, l.Found = 0, startShare*rig.Tank.Full, true
	for i, r := range l.Rows {
		if !r.read() {
			continue
		}
		rel, err := rig.At(r.Attitude)
		if err != nil {
			rel = rig.Level
		}
		low, high := rel.Reach()
		litres := rig.LitresNear(rel, r.Input)
		switch { // a blind band: any of its quantities
		case litres <= low:
			litres, l.StartSigma = low/2, l.StartSigma+low/2
		case litres >= high:
			litres, l.StartSigma = (high+rig.Tank.Full)/2, l.StartSigma+(rig.Tank.Full-high)/2
		}
		l.Start = math.Max(0, litres-l.Litres(0, 0)[i])
		return
	}
}
