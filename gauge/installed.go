package gauge

import (
	"cmp"
	"fmt"
	"math"
	"slices"

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

// mostReading is the most that an ohmmeter tells from an open wire (common practice, no
// source).
const mostReading = 1e7

// Install returns the straight line through readings, by least squares. A single
// one tells the offset alone.
func Install(found []Found) (*Installed, error) {
	if len(found) == 0 {
		return nil, fmt.Errorf("no readings, expected 1 or more")
	}
	in := &Installed{Scale: 1, Found: found}
	var x, y []float64
	for i, f := range found {
		if f.Terminals > mostReading {
			return nil, fmt.Errorf("%.4g ohm at the terminals, expected at most %g: an open wire?", f.Terminals, float64(mostReading))
		}
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

// What an ohmmeter may be off by, a share and ohms (common practice, no source).
const (
	MeterShare = 0.01
	MeterOhms  = 0.5
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

// Ends returns the readings with the least and the most at the sender.
func (in *Installed) Ends() (least, most Found) {
	bySender := func(a, b Found) int { return cmp.Compare(a.Sender, b.Sender) }
	return slices.MinFunc(in.Found, bySender), slices.MaxFunc(in.Found, bySender)
}

// Doubt judges the readings by what a meter can tell.
func (in *Installed) Doubt() Doubt {
	lowest, highest := in.Ends()
	least, most := lowest.Sender, highest.Sender
	slack := MeterOhms + MeterShare*most
	grown := (in.Scale - 1) * (most - least)
	switch {
	case in.Residual > slack:
		return Scatters
	case grown > slack:
		return Grows
	case grown < -slack:
		return Shrinks
	case in.Input(least)-least < -MeterOhms-MeterShare*least:
		return Less
	}
	return NoDoubt
}
