package calibration

import (
	"math"

	"floatarc/float"
	"floatarc/gauge"
	"floatarc/geometry"
	"floatarc/volume"
)

// An Influence is how many litres more lie behind one and the same reading at the
// terminals when one thing is a little otherwise than the rig says, at the empty
// mark, half way and at the full mark, on level ground.
type Influence struct {
	Of                string // "earth", "nose", "left", "arm", "pivot", "draught", "wire"
	Empty, Half, Full float64
}

// Most returns the greatest of the three, without its sign.
func (i Influence) Most() float64 {
	return math.Max(math.Abs(i.Empty), math.Max(math.Abs(i.Half), math.Abs(i.Full)))
}

// A Cold and a hot wire, degC, between which its influence is told.
const (
	Cold = -20
	Hot  = 60
)

// Influences returns those of one ohm of earth, of one degree of nose up and of
// left up, of one millimetre of arm, of pivot height and of float draught, and of
// the wire from cold to hot, as far as the sender has them. At an end of the live
// band, where only one way of a change shows, it is told by the other.
func (r *Rig) Influences() []Influence {
	var out []Influence
	add := func(of string, vary func(by float64) (*Rig, *volume.Relation, bool)) {
		more, relMore, ok := vary(1)
		less, relLess, also := vary(-1)
		if !ok || !also {
			return
		}
		up, down := r.influence(more, relMore), r.influence(less, relLess)
		out = append(out, Influence{of, larger(up.Empty, -down.Empty), larger(up.Half, -down.Half), larger(up.Full, -down.Full)})
	}
	add("earth", func(by float64) (*Rig, *volume.Relation, bool) {
		return r.wired(r.Wiring.With(by)), r.Level, true
	})
	for _, tilt := range []struct {
		of string
		a  geometry.Attitude
	}{{"nose", geometry.Attitude{NoseUp: 1}}, {"left", geometry.Attitude{LeftUp: 1}}} {
		add(tilt.of, func(by float64) (*Rig, *volume.Relation, bool) {
			rel, err := r.At(geometry.Attitude{NoseUp: by * tilt.a.NoseUp, LeftUp: by * tilt.a.LeftUp})
			return r, rel, err == nil
		})
	}
	if movable, ok := r.Sender.(float.Movable); ok {
		for _, change := range []struct {
			of   string
			move func(by float64) float.Sender
		}{{"arm", movable.Longer}, {"pivot", movable.Raised}, {"draught", movable.Deeper}} {
			add(change.of, func(by float64) (*Rig, *volume.Relation, bool) {
				varied := *r
				if varied.Sender = change.move(by); varied.Sender == nil {
					return nil, nil, false
				}
				rel, ok := varied.In(r.Level.Contents, float.Mean)
				return &varied, rel, ok
			})
		}
	}
	at := func(celsius float64) gauge.Wiring {
		wire := r.Wiring.Wire
		wire.Temperature = celsius
		return r.Wiring.With(wire.Ohms() - r.Wiring.Wire.Ohms())
	}
	from, to := r.influence(r.wired(at(Cold)), r.Level), r.influence(r.wired(at(Hot)), r.Level)
	return append(out, Influence{"wire", to.Empty - from.Empty, to.Half - from.Half, to.Full - from.Full})
}

// wired returns the rig with another wiring.
func (r *Rig) wired(w gauge.Wiring) *Rig {
	v := *r
	v.Wiring = w
	return &v
}

// larger returns the number that is further from 0.
func larger(a, b float64) float64 {
	if math.Abs(b) > math.Abs(a) {
		return b
	}
	return a
}

// influence reads the three marks in a rig that differs.
func (r *Rig) influence(varied *Rig, rel *volume.Relation) Influence {
	read := func(rig *Rig, rel *volume.Relation, input float64) float64 {
		return rel.Litres(rel.Within(rig.TravelAt(input)))
	}
	more := func(litres float64) float64 {
		input := r.Input(r.Level, litres)
		return read(varied, rel, input) - read(r, r.Level, input)
	}
	empty, full := r.Dial.Empty, r.Dial.Full
	return Influence{Empty: more(empty), Half: more((empty + full) / 2), Full: more(full)}
}

// A Step is the litres by which the reading jumps from one turn of a winding, or
// one contact, to the next.
type Step struct {
	Litres float64
	At     float64 // litres in the tank where it lies
}

// Coarsest returns the largest step of a winding on level ground, within full.
func (r *Rig) Coarsest(w float.Winding) Step {
	var worst Step
	for i := range w.Steps {
		a := math.Max(r.Level.Low, w.Start+w.Width*float64(i))
		b := math.Min(r.Level.High, w.Start+w.Width*float64(i+1))
		if a >= b {
			continue
		}
		low, high := math.Min(r.Level.Litres(a), r.Tank.Full), math.Min(r.Level.Litres(b), r.Tank.Full)
		if high-low > worst.Litres {
			worst = Step{Litres: high - low, At: low}
		}
	}
	return worst
}

// StepAt returns the litres from one step of a winding to the next at so many
// litres; 0 in a blind band.
func (r *Rig) StepAt(w float.Winding, litres float64) float64 {
	t := r.Level.Travel(litres)
	low, high := math.Max(r.Level.Low, t-w.Width/2), math.Min(r.Level.High, t+w.Width/2)
	if t <= r.Level.Low || t >= r.Level.High || low >= high {
		return 0
	}
	return (r.Level.Litres(high) - r.Level.Litres(low)) * w.Width / (high - low)
}

// StepOhms returns the ohms from one step of a winding to the next at an input.
func (r *Rig) StepOhms(w float.Winding, input float64) float64 {
	at := r.TravelAt(input)
	return math.Abs(r.EvenAt(at+w.Width/2) - r.EvenAt(at-w.Width/2))
}

// Tolerance returns by how many litres the contents may differ at a reading when
// the sender's ohms are a share more or less than nominal, at so many litres.
func (r *Rig) Tolerance(share, litres float64) float64 {
	ohms := r.Level.Ohms(litres)
	track := r.Sender.Track()
	at := func(factor float64) float64 {
		travel := r.Level.Within(track.Travel(ohms / factor))
		return math.Min(r.Level.Litres(travel), r.Tank.Full)
	}
	nominal := at(1)
	return math.Max(math.Abs(at(1+share)-nominal), math.Abs(at(1-share)-nominal))
}

// Hysteresis returns the greatest difference, in litres, between rising and
// falling fuel at one reading, and the litres on the mean where it lies.
func (r *Rig) Hysteresis(rising, falling *volume.Relation) (most, at float64) {
	low, high := math.Max(rising.Low, falling.Low), math.Min(rising.High, falling.High)
	for i := range samplings + 1 {
		t := low + (high-low)*float64(i)/samplings
		if d := rising.Litres(t) - falling.Litres(t); d > most {
			most, at = d, r.Level.Litres(t)
		}
	}
	return most, at
}
