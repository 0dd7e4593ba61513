package reserve

import (
	"floatarc/calibration"
	"floatarc/float"
)

// A Promise is what must hold when the lamp lights.
type Promise struct {
	Rig       *calibration.Rig
	Tolerance float64       // of the sender's reading, ±, a share
	Winding   float.Winding // of the sender; no steps for a smooth one
	Envelope  Envelope
	Reserve   float64 // litres that must be left to be drawn
	// Watch, if not nil, is told how many of the attitudes to look at are done.
	Watch func(done, of int)
}

// closeness is the share of a full tank to which the warning is solved for, a
// thousandth of what it is promised to.
const closeness = 1e-6
