package reserve

import (
	"errors"
	"math"
	"slices"

	"floatarc/float"
	"floatarc/geometry"
)

// A Warning is where to light the lamp, and what comes of it. Latest spots are the
// least with which it lights anywhere in the envelope, with the sender at the late
// end of its tolerance and winding, on falling fuel.
type Warning struct {
	Chosen, LevelOnly, Steady Choice // of the promise; of level ground alone; of a slope that never changes
	Latest                    Spot
	LevelOnlyLatest           Spot
	SteadyLatest              Spot
	Earliest                  Spot    // the most with which the lamp is lit, with the sender at the early end, on rising fuel
	Unusable, Least           Spot    // the most and the least that cannot be drawn
	LevelEarliest             float64 // the same on level ground, litres
	Sticks                    Stick
	Rows                      []Row // the landmarks of the envelope, the level first, and the worst attitudes
}

// A Stick is where in the envelope a sender that a full tank has lifted beyond a travel
// stays there as the fuel falls, an arm past the vertical or held by friction, so that
// the lamp never lights; the travel is +Inf if there is no such place.
type Stick struct {
	Attitude geometry.Attitude
	Travel   float64
}

// A Row is an attitude with the lamp lighting at the late end.
type Row struct {
	Attitude geometry.Attitude
	LightsAt float64 // litres
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
		level := *p
		level.Envelope, level.Watch = Envelope{}, nil
		alone, err := level.Solve()
		if impossible := (*Impossible)(nil); err != nil && !errors.As(err, &impossible) {
			return nil, err
		} else if err == nil {
			w.LevelOnly = alone.Chosen
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
	if p.Envelope.Level() {
		w.LevelOnly, w.LevelOnlyLatest = w.Chosen, w.Latest
		w.Steady, w.SteadyLatest = w.Chosen, w.Latest
	}
	if err := s.impossible(); err != nil {
		w.Chosen = noChoice
		w.Rows, _ = p.rows(w)
		return w, err
	}
	w.Rows, err = p.rows(w)
	return w, err
}

// rows tells the landmarks of the envelope and the worst attitudes of a warning; NaN
// for what no lamp does.
func (p *Promise) rows(w *Warning) ([]Row, error) {
	at := p.Envelope.Landmarks()
	for _, worst := range []geometry.Attitude{w.Unusable.Attitude, w.Latest.Attitude} {
		if !slices.Contains(at, worst) {
			at = append(at, worst)
		}
	}
	stances, err := p.stances(at...)
	if err != nil {
		return nil, err
	}
	var out []Row
	latest := p.latest(w.Chosen)
	w.LevelEarliest = -p.earliest(w.Chosen)(stances[0])
	for _, s := range stances {
		out = append(out, Row{Attitude: s.Attitude, LightsAt: latest(s), Unusable: s.Unusable})
	}
	if !w.Chosen.Possible() {
		for i := range out {
			out[i].LightsAt = math.NaN()
		}
	}
	return out, nil
}

// Level returns what is in the tank on level ground when a nominal sender lights the
// lamp of a choice, on falling fuel; NaN if there is no such lamp.
func (p *Promise) Level(c Choice) float64 {
	s, err := p.stand(geometry.Attitude{})
	if err != nil || !c.Possible() {
		return math.NaN()
	}
	return s.lit(float.Falling, c.Travel)
}

// MostUnusable returns where over the envelope the most litres cannot be drawn.
func (p *Promise) MostUnusable() (Spot, error) {
	spots, err := p.least(fineness, figure{stranded, 2})
	if err != nil {
		return Spot{}, err
	}
	return spots[0].negative().spot(), nil
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
	case !s.Chosen.Possible() || !s.goesOut(s.Chosen):
		e.Reason = Always
	default:
		return nil
	}
	return e
}

// goesOut tells whether a full tank on level ground puts out the lamp of a choice.
func (p *Promise) goesOut(c Choice) bool {
	level, err := p.stand(geometry.Attitude{})
	return err == nil && p.lights(p.apartFrom(c.On), nominal) <= level.fullTravel()
}
