package reserve

import (
	"fmt"

	"floatarc/geometry"
)

// A Reason is why no lamp keeps a promise.
type Reason string

// The reasons.
const (
	// Held: somewhere in the envelope the sender follows the fuel nowhere.
	Held Reason = "held"
	// Blind: with what the promise needs, the float is at its top already.
	Blind Reason = "blind"
	// Always: a full tank on level ground would not put the lamp out.
	Always Reason = "always"
)

// Impossible says that no lamp keeps the promise, and where.
type Impossible struct {
	Reason   Reason
	Attitude geometry.Attitude
	Tells    float64 // litres: the most that the float tells from more there
	Needs    float64 // litres that the lamp would have to light with there
}

func (e *Impossible) Error() string {
	where := fmt.Sprintf("nose up %.1f°, left up %.1f°", e.Attitude.NoseUp+0, e.Attitude.LeftUp+0)
	switch e.Reason {
	case Held:
		return fmt.Sprintf("no lamp keeps this promise: at %s the sender follows the fuel nowhere, expected one that moves on every slope", where)
	case Always:
		return fmt.Sprintf("no lamp keeps this promise: a full tank on level ground would not put it out, for it must light with %.4g L at %s", e.Needs, where)
	}
	return fmt.Sprintf("no lamp keeps this promise: at %s it must light with %.4g L in the tank, but there the float is at its top with %.4g L already", where, e.Needs, e.Tells)
}
