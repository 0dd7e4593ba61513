package reserve

import (
	"math"
	"slices"

	"floatarc/float"
	"floatarc/geometry"
)

// A Warning is where to light the lamp, and what comes of it. Latest spots are the
// least with which it lights anywhere in the envelope, with the sender at the late
// end of its tolerance and winding, on falling fuel.
type Warning struct {
	Chosen    Choice // of the promise
	LevelOnly Choice // of level ground alone
	Steady    Choice // of a slope that never changes

	Latest, LevelOnlyLatest, SteadyLatest Spot

	Earliest        Spot // the most with which the lamp is lit, with the sender at the early end, on rising fuel
	Unusable, Least Spot // the most and the least that cannot be drawn
	Sticks          Stick
	Rows            []Row // the landmarks of the envelope, the level first, and the worst attitudes
}

// A Stick is where in the envelope an arm that a full tank has lifted beyond an angle
// stays there as the fuel falls, past the vertical or held by friction, so that the
// lamp never lights; the angle is +Inf if there is no such place.
type Stick struct {
	Attitude geometry.Attitude
	Angle    float64 // degrees
}

// A Row is what there is at one attitude with the lamp lighting at the late end, in
// litres; NaN for what no lamp does.
type Row struct {
	Attitude geometry.Attitude
	LightsAt float64
	Unusable float64
}

// Usable returns the litres that can be drawn there when the lamp lights.
func (r Row) Usable() float64 { return r.LightsAt - r.Unusable }

// Solve finds the least warning that keeps the promise: wherever in the envelope
// the lamp lights, the litres are left to be drawn wherever else in it they are
// needed. Where no lamp keeps it the error is an [Impossible], and the warning
// holds what else was found.
func (p *Promise) Solve() (*Warning, error) {
	w := &Warning{LevelOnly: noChoice}
	if !p.Envelope.Level() {
		var err error
		if w.LevelOnly, err = p.levelOnly(); err != nil {
			return nil, err
		}
	}
	marks, err := p.stances(p.Envelope.Landmarks()...)
	if err != nil {
		return nil, err
	}
	s := newSearch(p, w, marks)
	for _, n := range []int{coarseness, fineness} {
		if err := s.hold(n); err != nil {
			return nil, err
		}
		if p.Envelope.Level() {
			break
		}
	}
	if err := s.outermost(); err != nil {
		return nil, err
	}
	refusal := s.impossible()
	if refusal != nil {
		w.Chosen = noChoice
	}
	if !p.goesOut(w.Steady) {
		w.Steady = noChoice
	}
	if p.Envelope.Level() {
		w.LevelOnly, w.LevelOnlyLatest, w.Steady, w.SteadyLatest = w.Chosen, w.Latest, w.Chosen, w.Latest
	}
	if err := s.tell(); err != nil {
		return nil, err
	}
	return w, refusal
}

// levelOnly returns the lamp of a promise for level ground alone, if there is one.
func (p *Promise) levelOnly() (Choice, error) {
	level := *p
	level.Envelope, level.Watch = Envelope{}, nil
	w, err := level.Solve()
	if w == nil {
		return noChoice, err
	}
	return w.Chosen, nil
}

// tell fills the rows: the landmarks of the envelope, from which the search started, and
// the worst attitudes.
func (s *search) tell() error {
	stances := s.marks
	for _, worst := range []geometry.Attitude{s.Unusable.Attitude, s.Latest.Attitude} {
		if slices.ContainsFunc(stances, func(m *stance) bool { return m.Attitude == worst }) {
			continue
		}
		m, err := s.stand(worst)
		if err != nil {
			return err
		}
		stances = append(stances, m)
	}
	latest := s.latest(s.Chosen)
	for _, m := range stances {
		row := Row{Attitude: m.Attitude, LightsAt: math.NaN(), Unusable: m.Unusable}
		if s.Chosen.Possible() {
			row.LightsAt = latest(m)
		}
		s.Rows = append(s.Rows, row)
	}
	return nil
}

// RowAt returns what there is at an attitude with a lamp of a choice.
func (p *Promise) RowAt(c Choice, a geometry.Attitude) (Row, error) {
	s, err := p.stand(a)
	if err != nil {
		return Row{}, err
	}
	row := Row{Attitude: a, LightsAt: math.NaN(), Unusable: s.Unusable}
	if c.Possible() {
		row.LightsAt = p.latest(c)(s)
	}
	return row, nil
}

// Level returns what is in the tank on level ground when a nominal sender lights the
// lamp of a choice, on falling fuel; NaN if there is no such lamp.
func (p *Promise) Level(c Choice) float64 { return p.LightsAt(c.On) }

// LightsAt returns the same of a lamp that lights at an input.
func (p *Promise) LightsAt(on float64) float64 { return p.onLevel(float.Falling, on, nominal) }

// OutAt returns what is in the tank on level ground when a nominal sender puts out a lamp
// at an input, on rising fuel; NaN for no input.
func (p *Promise) OutAt(off float64) float64 { return p.onLevel(float.Rising, off, nominal) }

// LightsBetween returns the least and the most litres in the tank on level ground with
// which a lamp that lights at an input may light on falling fuel: at the late and at the
// early end of the sender.
func (p *Promise) LightsBetween(on float64) (least, most float64) {
	return p.onLevel(float.Falling, on, late), p.onLevel(float.Falling, on, early)
}

// onLevel returns the litres on level ground up to which a lamp is lit.
func (p *Promise) onLevel(sense float.Sense, on float64, e end) float64 {
	if math.IsNaN(on) {
		return on
	}
	return p.level().lit(sense, p.lights(on, e))
}

// MostUnusable returns where over the envelope the most litres cannot be drawn.
func (p *Promise) MostUnusable() (Spot, error) {
	var unusable found
	err := p.survey(fineness, figure{stranded, 2, &unusable})
	return unusable.negative().spot(), err
}

// impossible tells why no lamp keeps the promise, if none does. The lamp must go out
// again, a little later than it lights, with a full tank on level ground.
func (s *search) impossible() error {
	worst := s.chosen.worst
	e := &Impossible{Attitude: worst.Attitude, Needs: s.chosen.need(worst), Tells: worst.tells()}
	switch {
	case math.IsInf(s.rest, 1):
		e.Reason, e.Attitude = Held, s.restAt
	case math.IsInf(s.chosen.travel, 1):
		e.Reason = Blind
	case !s.goesOut(s.Chosen):
		e.Reason = Always
	default:
		return nil
	}
	return e
}

// goesOut tells whether a full tank on level ground puts out the lamp of a choice.
func (p *Promise) goesOut(c Choice) bool {
	if !c.Possible() {
		return false
	}
	nearest := p.apartFrom(c.On)
	return !p.fuller(nearest, p.outAtFull(p.level(), nominal)) && !math.IsInf(p.lights(nearest, nominal), 1)
}
