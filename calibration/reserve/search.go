package reserve

import (
	"fmt"
	"math"
	"slices"

	"floatarc/float"
	"floatarc/geometry"
)

// A search looks for a warning. A lamp that lights at a higher travel lights with
// more fuel at every attitude, so that it is found from below: the travel is raised
// until the worst attitude holds, and the worst attitude is looked for again.
type search struct {
	*Promise
	*Warning
	marks          []*stance // the attitudes that it starts from
	chosen, steady demand
	rest           float64 // the highest travel at which the sender comes to rest
	restAt         geometry.Attitude
}

// newSearch starts from some attitudes of the envelope.
func newSearch(p *Promise, w *Warning, from []*stance) *search {
	s := &search{Promise: p, Warning: w, marks: from, rest: math.Inf(-1)}
	s.chosen.need = func(*stance) float64 { return w.Unusable.Litres + p.Reserve }
	s.steady.need = func(at *stance) float64 { return at.Unusable + p.Reserve }
	for _, m := range from {
		s.note(Spot{m.Attitude, m.Unusable}, found{m.Attitude, m.rest()})
	}
	for _, m := range from {
		s.chosen.raise(m)
		s.steady.raise(m)
	}
	s.choose()
	return s
}

// note takes the most unusable litres, and the highest travel of rest, of what is
// looked at; it tells whether either is news.
func (s *search) note(unusable Spot, rest found) bool {
	news := false
	if unusable.Litres > s.Unusable.Litres+s.slack() {
		s.Unusable, news = unusable, true
	}
	if rest.value > s.rest+closeness*(s.Rig.High-s.Rig.Low) {
		s.rest, s.restAt, news = rest.value, rest.at, true
	}
	return news
}

// slack is what is too little to raise a demand for, litres.
func (p *Promise) slack() float64 { return closeness * p.Rig.Tank.Full }

// rounds is how often what is needed may grow, and how often the worst attitude is
// looked for anew once it does not.
const rounds = 12

// hold raises the demands until they hold on an n by n grid of attitudes and
// between them. What holds at one travel holds at every higher one, so that it is
// looked at again only where what is needed has grown.
func (s *search) hold(n int) error {
	var unusable, least, rest, latest, earliest, levelOnly, steady, sticks found
	once, twice := 1, 2 // from how many hollows what matters less, and what matters most, is looked for
	if n < fineness {
		once, twice = 0, 1
	}
	for round := 0; ; round++ {
		s.choose()
		err := s.survey(n,
			figure{stranded, twice, &unusable}, figure{left, 0, &least}, figure{resting, once, &rest}, figure{sticking, 0, &sticks},
			figure{s.short(s.Chosen, &s.chosen), twice, nil}, figure{s.short(s.Steady, &s.steady), once, nil},
			figure{s.latest(s.Chosen), 0, &latest}, figure{s.earliest(s.Chosen), once, &earliest},
			figure{s.latest(s.LevelOnly), once, &levelOnly}, figure{s.latest(s.Steady), 0, &steady})
		if err != nil {
			return err
		}
		if !s.note(unusable.negative().spot(), rest.negative()) {
			break
		}
		if round == rounds {
			return errUnsettled
		}
		s.chosen.raise(s.chosen.worst)
	}
	s.Latest, s.Earliest = latest.spot(), earliest.negative().spot()
	s.Least, s.LevelOnlyLatest, s.SteadyLatest = least.spot(), levelOnly.spot(), steady.spot()
	s.Sticks = Stick{sticks.at, sticks.value}
	return s.settle(1 / float64(n-1))
}

// errUnsettled is what should never be: each round raises what is needed by more than a
// rounding.
var errUnsettled = fmt.Errorf("the worst slope moved %d times and is not found, expected a tank in which it stands", rounds)

// settle looks about the worst attitude for what a lamp that was raised may leave
// short beside it.
func (s *search) settle(step float64) error {
	for range rounds {
		before := s.chosen.travel
		s.choose()
		s.descend(s.chosen.worst.Attitude, step, s.short(s.Chosen, &s.chosen))
		if s.chosen.travel == before {
			return nil
		}
	}
	return errUnsettled
}

// choose takes the lamps of the demands.
func (s *search) choose() {
	s.Chosen, s.Steady = s.lamp(s.chosen.travel, s.rest), s.lamp(s.steady.travel, s.rest)
}

// outermost tells the least and the most fuel with which the chosen lamp lights, at
// the attitudes that the search started from and at those where they were found before
// it was raised for the last time.
func (s *search) outermost() error {
	found, err := s.stances(s.Latest.Attitude, s.Earliest.Attitude)
	if err != nil {
		return err
	}
	latest, earliest := s.latest(s.Chosen), s.earliest(s.Chosen)
	s.Latest, s.Earliest = Spot{Litres: math.Inf(1)}, Spot{}
	for _, m := range slices.Concat(s.marks, found, []*stance{s.chosen.worst}) {
		if l := latest(m); l < s.Latest.Litres-s.slack() {
			s.Latest = Spot{m.Attitude, l}
		}
		if l := -earliest(m); l > s.Earliest.Litres+s.slack() {
			s.Earliest = Spot{m.Attitude, l}
		}
	}
	return nil
}

// The figures of which the least is looked for; those of which the most matters
// have their sign turned.
func left(s *stance) float64     { return s.Unusable }
func stranded(s *stance) float64 { return -s.Unusable }
func resting(s *stance) float64  { return -s.rest() }

// sticking is the angle beyond which an arm that a full tank has lifted to its top does
// not come down again; +Inf if it always does.
func sticking(s *stance) float64 {
	arm, ok := s.Rig.Sender.(*float.Arm)
	if !ok || s.tells() >= s.Rig.Tank.Full {
		return math.Inf(1)
	}
	angle := arm.Drops(s.Up)
	if s.Rig.High <= angle {
		return math.Inf(1)
	}
	return angle
}

// latest is the least litres with which the lamp of a choice lights.
func (p *Promise) latest(c Choice) func(*stance) float64 {
	travel := p.lights(c.On, late)
	return func(s *stance) float64 { return s.lit(float.Falling, travel) }
}

// short is how much more that is than what a demand needs; where it is less, the
// demand is raised.
func (s *search) short(c Choice, d *demand) func(*stance) float64 {
	latest := s.latest(c)
	return func(at *stance) float64 {
		more := latest(at) - d.need(at)
		if more < -s.slack() {
			d.raise(at)
		}
		return more
	}
}

// earliest is the most litres with which the lamp is lit, its sign turned.
func (p *Promise) earliest(c Choice) func(*stance) float64 {
	travel := p.lights(c.On, early)
	return func(s *stance) float64 { return -s.lit(float.Rising, travel) }
}
