package calibration

import (
	"fmt"
	"math"

	"floatarc/volume"
)

// A Reading is one quantity told every way.
type Reading struct {
	Litres     float64
	Usable     float64 // NaN if not known at this attitude
	Share      float64
	Position   float64 // where the needle must stand
	Level      float64 // of the surface, mm
	Travel     float64
	SenderOhms float64
	InputOhms  float64
	Blind      bool // the sender rests on its stop and would read the same with more or less
}

// Reading tells a quantity every way.
func (r *Rig) Reading(rel *volume.Relation, litres float64) Reading {
	low, high := rel.Reach()
	travel := rel.Travel(litres)
	ohms := r.Sender.Track().Ohms(travel)
	share := r.Dial.Share(litres)
	return Reading{
		Litres: litres, Usable: litres - rel.Contents.Unusable, Share: share, Position: r.Dial.Position(share),
		Level: rel.Contents.Level(litres), Travel: travel, SenderOhms: ohms, InputOhms: r.Wiring.Input(ohms),
		Blind: !live(litres, low, high, edge*r.Tank.Full),
	}
}

// LitresAt returns the quantity at which the terminals show a resistance. At
// the resistance of either end of the live band, or as little beyond it as rounding
// to a tenth of an ohm makes, it is the end's; so near to that of a contact, it is the
// contact's.
func (r *Rig) LitresAt(rel *volume.Relation, input float64) (float64, error) {
	atLow, atHigh := r.InputAt(rel.Low), r.InputAt(rel.High)
	least, most := min(atLow, atHigh), max(atLow, atHigh)
	const slack = 0.05 + 1e-9 // ohm
	if input < least-slack || input > most+slack {
		return 0, fmt.Errorf("%.5g ohm, expected %.5g to %.5g ohm, all that the sender and its wiring can show here", input, least, most)
	}
	travel := r.TravelAt(input)
	if c := r.Contacts(); c != nil {
		if nearest := c.At(travel + c.Winding().Width/2); math.Abs(r.InputAt(nearest)-input) <= slack {
			travel = nearest
		}
	}
	return rel.Litres(rel.Within(travel)), nil
}
