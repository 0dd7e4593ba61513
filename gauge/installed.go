package gauge

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/stat"
)

// A Found is a resistance measured at the terminals, with the final wiring, while
// the sender shows a known one.
type Found struct{ Sender, Terminals float64 } // ohm

// An Installed is the wiring as it was found: input = Offset + Scale · sender. A
// wire and a joint have a scale of 1 and an offset above 0.
type Installed struct {
	Offset   float64 // ohm
	Scale    float64
	Residual float64 // the most by which a reading lies off the line, ohm
	Found    []Found
}

// Install returns the straight line through readings, by least squares. A single
// one tells the offset alone.
func Install(found []Found) (*Installed, error) {
	if len(found) == 0 {
		return nil, fmt.Errorf("no readings, expected 1 or more")
	}
	in := &Installed{Scale: 1, Found: found}
	var x, y []float64
	for i, f := range found {
		for _, other := range found[:i] {
			if math.Abs(f.Sender-other.Sender) <= 1e-6*(1+f.Sender) {
				return nil, fmt.Errorf("two readings with the sender at %.4g ohm, expected different places", f.Sender)
			}
		}
		x, y = append(x, f.Sender), append(y, f.Terminals)
	}
	if len(found) == 1 {
		in.Offset = y[0] - x[0]
	} else if in.Offset, in.Scale = stat.LinearRegression(x, y, nil, false); !(in.Scale > 0) {
		return nil, fmt.Errorf("the terminals read less where the sender reads more, expected both to rise: are the readings swapped?")
	}
	for _, f := range found {
		in.Residual = math.Max(in.Residual, math.Abs(in.Input(f.Sender)-f.Terminals))
	}
	return in, nil
}

// Input returns the resistance at the terminals for one at the sender.
func (in *Installed) Input(sender float64) float64 { return in.Offset + in.Scale*sender }

// Sender returns the resistance at the sender for one at the terminals.
func (in *Installed) Sender(input float64) float64 { return (input - in.Offset) / in.Scale }

// What an ohmmeter and a sender may differ by before something other than a wire
// is thought of (common practice, no source).
const (
	meterShare = 0.01
	meterOhms  = 0.5
)

// A Doubt is why readings do not fit a wire and a joint.
type Doubt string

// The doubts.
const (
	NoDoubt  Doubt = ""
	Less     Doubt = "less"    // the terminals read less than the sender alone
	Grows    Doubt = "grows"   // what the wiring adds grows with the resistance
	Shrinks  Doubt = "shrinks" // it shrinks: something lies in parallel
	Scatters Doubt = "scatters"
)

// Doubt judges the readings by what a meter can tell.
func (in *Installed) Doubt() Doubt {
	least, most := math.Inf(1), 0.0
	for _, f := range in.Found {
		least, most = math.Min(least, f.Sender), math.Max(most, f.Sender)
	}
	slack := meterOhms + meterShare*most
	grown := (in.Scale - 1) * (most - least)
	switch {
	case in.Residual > slack:
		return Scatters
	case grown > slack:
		return Grows
	case grown < -slack:
		return Shrinks
	case in.Input(least)-least < -meterOhms-meterShare*least:
		return Less
	}
	return NoDoubt
}
