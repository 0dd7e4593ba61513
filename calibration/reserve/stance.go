package reserve

import (
	"fmt"
	"math"

	"floatarc/float"
	"floatarc/geometry"
	"floatarc/volume"
)

// A stance is the tank and the sender at one attitude. At one travel of the sender
// there is the least fuel in it on falling fuel, for which friction holds the float
// higher, and the most on rising fuel.
type stance struct {
	*Promise
	*volume.Contents

	related map[float.Sense]*volume.Relation
	known   map[reading]float64 // litres of travels that were asked for
}

// A reading is a travel on one way of the fuel.
type reading struct {
	sense  float.Sense
	travel float64
}

// stand puts the vehicle at an attitude.
func (p *Promise) stand(a geometry.Attitude) (*stance, error) {
	contents, err := p.Rig.Tank.At(a)
	if err != nil {
		return nil, err
	}
	if math.IsNaN(contents.Unusable) {
		return nil, fmt.Errorf("the unusable fuel is not known with the nose up by %.4g° and the left side by %.4g°, expected a draw point", a.NoseUp, a.LeftUp)
	}
	return p.at(contents), nil
}

// seen returns contents of the tank, however they came about, as this promise's pickup
// and sender find them.
func (p *Promise) seen(c *volume.Contents) *stance {
	contents := *c
	if pickup := p.Rig.Tank.Pickup; pickup != nil {
		contents.Unusable = pickup.Unusable(&contents)
	}
	return p.at(&contents)
}

func (p *Promise) at(c *volume.Contents) *stance {
	return &stance{Promise: p, Contents: c, related: map[float.Sense]*volume.Relation{}, known: map[reading]float64{}}
}

// level returns the tank on level ground.
func (p *Promise) level() *stance { return p.seen(p.Rig.Level.Contents) }

// stances puts the vehicle at several.
func (p *Promise) stances(at ...geometry.Attitude) ([]*stance, error) {
	out := make([]*stance, len(at))
	for i, a := range at {
		var err error
		if out[i], err = p.stand(a); err != nil {
			return nil, err
		}
	}
	return out, nil
}

// on returns the sender in the tank on one way of the fuel; nil where it follows
// the fuel nowhere.
func (s *stance) on(sense float.Sense) *volume.Relation {
	if rel, known := s.related[sense]; known {
		return rel
	}
	rel, ok := s.Rig.In(s.Contents, sense)
	if !ok {
		rel = nil
	}
	s.related[sense] = rel
	return rel
}

// rounding is the share of a sender's travel by which one may lie above its top and
// still count as there.
const rounding = 1e-9

// lit returns the litres below which a lamp is lit that is so below a travel. On
// falling fuel there are none where the sender does not come down to it, and on rising
// fuel it stays down with as much as it takes to lift it; all that the tank holds
// where it is never above.
func (s *stance) lit(sense float.Sense, travel float64) float64 {
	rel := s.on(sense)
	switch {
	case math.IsNaN(travel), rel == nil && sense == float.Falling:
		return 0
	case rel == nil, travel > rel.High+rounding*(s.Rig.High-s.Rig.Low):
		return s.Litres(math.Inf(1))
	case travel >= rel.Low:
		return s.litres(rel, reading{sense, math.Min(travel, rel.High)})
	case sense == float.Falling || s.lit(float.Falling, travel) == 0:
		return 0
	}
	return rel.Litres(rel.Low)
}

// litres returns those of a reading; several figures ask for the same.
func (s *stance) litres(rel *volume.Relation, r reading) float64 {
	litres, known := s.known[r]
	if !known {
		litres = rel.Litres(r.travel)
		s.known[r] = litres
	}
	return litres
}

// holds returns the travel below which the lamp must be lit so that it lights with
// so many litres on falling fuel; +Inf if the sender cannot tell them from more.
func (s *stance) holds(litres float64) float64 {
	rel := s.on(float.Falling)
	if rel == nil || litres >= s.tells() {
		return math.Inf(1)
	}
	return rel.Travel(litres)
}

// tells returns the most litres that the sender tells from more, on falling fuel.
func (s *stance) tells() float64 {
	rel := s.on(float.Falling)
	if rel == nil {
		return 0
	}
	_, most := rel.Reach()
	return most
}

// rest returns the travel at which the sender comes to rest on falling fuel; +Inf
// where it follows the fuel nowhere, falling or rising.
func (s *stance) rest() float64 {
	falling, rising := s.on(float.Falling), s.on(float.Rising)
	if falling == nil || rising == nil {
		return math.Inf(1)
	}
	return falling.Low
}
