package reserve

import (
	"math"

	"floatarc/float"
)

// An Out is where a lit lamp goes out again.
type Out struct {
	Off float64 // ohm at the terminals
	// Limited says that a full tank could not put the lamp out if it were to bear
	// all of ordinary driving: it goes out half way to full.
	Limited bool
}

// Out returns where the lamp of a choice goes out, so that it stays lit while a
// vehicle in ordinary driving goes from any attitude of an envelope to any other,
// whatever its sender's tolerance and winding: a step of the conditioner beyond all that
// the float, held high by friction, shows with as much fuel as lights the lamp
// somewhere, the float being held low. It is never nearer than a fiftieth of the inputs,
// and a full tank on level ground puts it out.
func (p *Promise) Out(c Choice, ordinary Envelope) (Out, error) {
	stances, err := p.wandering(c, ordinary)
	if err != nil {
		return Out{}, err
	}
	level, nearest := p.level(), p.apartFrom(c.On)
	off := nearest
	for _, tolerance := range p.tolerances(c.On) {
		off = p.fullest(off, p.bears(c.On, tolerance, stances))
	}
	o := Out{Off: off}
	furthest := p.outAtFull(level, early)
	if p.fuller(nearest, furthest) { // not with every sender, then
		furthest = p.outAtFull(level, nominal)
	}
	if p.fuller(off, furthest) {
		o.Limited, o.Off = true, (nearest+p.fullest(nearest, furthest))/2
		if p.Rig.Contacts() != nil {
			o.Off = nearest
		}
	}
	return o, nil
}

// wandering returns the attitudes of ordinary driving that matter: its landmarks, where
// the most fuel lights the lamp, and where the float shows the most with that.
func (p *Promise) wandering(c Choice, ordinary Envelope) ([]*stance, error) {
	q := *p
	q.Envelope, q.Watch = ordinary, nil
	var lit, shown found
	travel := p.lights(c.On, end{0, 1})
	if err := q.survey(coarseness, figure{func(s *stance) float64 { return -s.lit(float.Rising, travel) }, 2, &lit}); err != nil {
		return nil, err
	}
	err := q.survey(coarseness, figure{func(s *stance) float64 { return -s.stands(-lit.value) }, 2, &shown})
	if err != nil {
		return nil, err
	}
	return q.stances(append(ordinary.Landmarks(), lit.at, shown.at)...)
}

// stands returns the travel of the sender with so many litres, falling.
func (s *stance) stands(litres float64) float64 {
	rel := s.on(float.Falling)
	if rel == nil {
		return math.Inf(-1)
	}
	return rel.Travel(litres)
}

// tolerances returns the shares of the tolerance, from -1 to 1, that are looked at:
// evenly spread, and on a stem those at which a contact is only just lit.
func (p *Promise) tolerances(on float64) []float64 {
	if p.Tolerance == 0 {
		return []float64{0}
	}
	const spread = 4
	var out []float64
	for k := -spread; k <= spread; k++ {
		out = append(out, float64(k)/spread)
	}
	c := p.Rig.Contacts()
	if c == nil {
		return out
	}
	ohms := p.Rig.Wiring.Sender(on)
	for at := 0.0; !math.IsInf(at, 1); at = c.Above(at) {
		share := (ohms/c.Ohms(at) - 1) / p.Tolerance * (1 + 1e-9)
		if !p.Falls() {
			share = -share
		}
		if math.Abs(share) <= 1 {
			out = append(out, share)
		}
	}
	return out
}

// bears returns the input beyond which a sender of one tolerance shows nowhere what
// lights it somewhere, its turns being met early and then late.
func (p *Promise) bears(on, tolerance float64, stances []*stance) float64 {
	litres, travel := 0.0, math.Inf(-1)
	for _, s := range stances {
		litres = math.Max(litres, s.lit(float.Rising, p.lights(on, end{tolerance, 1})))
	}
	for _, s := range stances {
		travel = math.Max(travel, s.stands(litres))
	}
	if c := p.Rig.Contacts(); c != nil {
		return p.input(c.Above(travel), end{tolerance, -1}) // a float on a contact has come up to it
	}
	return p.stepped(p.input(travel, end{tolerance, -1}), 1)
}

// fullTravel returns the travel of the sender with a full tank on level ground, rising;
// NaN where it follows the fuel nowhere.
func (s *stance) fullTravel() float64 {
	rel := s.on(float.Rising)
	if rel == nil {
		return math.NaN()
	}
	travel := rel.Travel(s.Rig.Tank.Full)
	if c := s.Rig.Contacts(); c != nil { // only the contact that it has come up to counts
		travel = c.At(travel)
	}
	return travel
}

// outAtFull returns the furthest input at which a full tank on level ground puts out a
// lamp with a sender at an end of its tolerance and winding: a step of the conditioner
// before what it shows.
func (p *Promise) outAtFull(level *stance, e end) float64 {
	shown := p.input(level.fullTravel(), e)
	if p.Rig.Contacts() != nil {
		return shown
	}
	return p.stepped(shown, -1)
}
