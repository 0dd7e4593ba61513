package reserve

import (
	"math"
	"slices"

	"floatarc/float"
	"floatarc/volume"
)

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
// vehicle in ordinary driving goes from any attitude of an envelope to any other,
// whatever its sender's tolerance and winding: beyond all that the float, held high by
// friction, shows with as much fuel as lights the lamp somewhere, the float being held
// low. It is never nearer than a fiftieth of the inputs, and a full tank on level
// ground puts it out.
func (p *Promise) Out(c Choice, ordinary Envelope) (Out, error) {
	stances, err := p.stances(slices.Concat(ordinary.Grid(coarseness)...)...)
	if err != nil {
		return Out{}, err
	}
	level, nearest := p.level(), p.apartFrom(c.On)
	off := nearest
	for _, tolerance := range []float64{-1, 0, 1} {
		off = p.fullest(off, p.bears(c.On, tolerance, stances))
	}
	o := Out{Off: off}
	if furthest := p.outAtFull(level, nearest); p.fuller(off, furthest) {
		o.Limited, o.Off = true, (nearest+p.fullest(nearest, furthest))/2
		if p.Rig.Contacts() != nil {
			o.Off = nearest
		}
	}
	o.Travel = p.lights(o.Off, nominal)
	o.Litres = level.lit(float.Rising, o.Travel)
	return o, nil
}

// bears returns the input beyond which a sender of one tolerance shows nowhere what
// lights it somewhere, its turns being met early and then late.
func (p *Promise) bears(on, tolerance float64, stances []*stance) float64 {
	litres, travel := 0.0, math.Inf(-1)
	for _, s := range stances {
		litres = math.Max(litres, s.lit(float.Rising, p.lights(on, end{tolerance, 1})))
	}
	for _, s := range stances {
		if rel := s.on(float.Falling); rel != nil {
			travel = math.Max(travel, rel.Travel(litres))
		}
	}
	if c := p.Rig.Contacts(); c != nil {
		travel += c.Winding().Width / 2 // a float on a contact has come up to it
	}
	return p.input(travel, end{tolerance, -1})
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
		travel = c.Winding().Width * math.Floor(travel/c.Winding().Width+1e-9)
	}
	return travel
}

// outAtFull returns the furthest input at which a full tank on level ground puts out a
// lamp: with any sender of the tolerance where that is further than the nearest, or
// else with a nominal one.
func (p *Promise) outAtFull(level *stance, nearest float64) float64 {
	if any := p.input(level.fullTravel(), early); p.fuller(any, nearest) {
		return any
	}
	return p.input(level.fullTravel(), nominal)
}

// cycles is how many periods of the slosh a lamp waits for (common practice, no
// source).
const cycles = 5

// A Wait is how long a reading must last before the lamp follows it.
type Wait struct {
	Seconds float64
	Cycles  int // of the slosh
	volume.Slosh
}

// Wait returns how long the lamp of a choice waits: some periods of the slosh at the
// level at which it lights. It reports false where the tank has no shape.
func (p *Promise) Wait(c Choice) (Wait, bool) {
	level := p.Rig.Level.Contents
	slosh, ok := level.Slosh(level.Level(p.Level(c)))
	return Wait{Seconds: cycles * slosh.Period, Cycles: cycles, Slosh: slosh}, ok
}

// Settings returns the inputs that the conditioner can be set to in place of on and
// off, such that the lamp lights and goes out with as much fuel or more; NaN where the
// conditioner tells none, or none that a full tank on level ground passes.
func (p *Promise) Settings(on, off float64) (onSet, offSet float64) {
	box := p.Rig.Conditioner
	setting := box.SettingAbove
	if p.Falls() {
		setting = box.SettingBelow
	}
	onSet, offSet = setting(on), setting(off)
	if !p.fuller(offSet, onSet) || p.fuller(offSet, p.outAtFull(p.level(), onSet)) {
		offSet = math.NaN()
	}
	return onSet, offSet
}
