package reserve

import (
	"math"
	"slices"

	"floatarc/float"
	"floatarc/geometry"
)

// apart is the share of the inputs by which the lamp at least goes out later than it
// lights: joints and meters wander (common practice, no source).
const apart = 0.02

// An Out is where a lit lamp goes out again.
type Out struct {
	Off    float64 // ohm at the terminals
	Travel float64 // of a nominal sender there
	Litres float64 // in the tank then on level ground, rising
	// Limited says that a full tank could not put the lamp out if it were to bear
	// all of ordinary driving: it goes out half way to full.
	Limited bool
}

// Out returns where the lamp of a choice goes out, so that it stays lit while a
// vehicle in ordinary driving goes from any attitude of an envelope to any other:
// above all that the float, held high by friction, and a turn of the winding show with
// as much fuel as lights the lamp somewhere, the float being held low. It is at
// least a step of the conditioner above.
func (p *Promise) Out(c Choice, ordinary Envelope) (Out, error) {
	stances, err := p.stances(slices.Concat(ordinary.Grid(coarseness)...)...)
	if err != nil {
		return Out{}, err
	}
	litres := 0.0
	for _, s := range stances {
		litres = math.Max(litres, s.lit(float.Rising, c.Travel))
	}
	low, high := p.Rig.InputAt(p.Rig.Low), p.Rig.InputAt(p.Rig.High)
	travel := math.Max(p.lights(p.Rig.Beside(c.On, high), nominal), p.lights(c.On+apart*(high-low), nominal))
	for _, s := range stances {
		if rel := s.on(float.Falling); rel != nil {
			travel = math.Max(travel, rel.Travel(litres)+p.slip(early))
		}
	}
	level, err := p.stand(geometry.Attitude{})
	if err != nil {
		return Out{}, err
	}
	o := Out{Travel: travel}
	if rel := level.on(float.Rising); rel != nil {
		if full := rel.Travel(p.Rig.Tank.Full); travel >= full {
			o.Limited, o.Travel = true, (c.Travel+full)/2
		}
	}
	o.Off = p.input(o.Travel, nominal)
	o.Travel = p.lights(o.Off, nominal)
	o.Litres = level.lit(float.Rising, o.Travel)
	return o, nil
}
