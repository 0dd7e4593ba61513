package reserve

import (
	"math"

	"floatarc/calibration"
	"floatarc/float"
	"floatarc/geometry"
	"floatarc/volume"
)

// A Margin looks at a lamp at the two attitudes where its promise is the nearest to being
// broken: that at which it lights with the least, and that at which the most cannot be
// drawn. They are held fixed, so that thousands of rigs can be looked at.
type Margin struct {
	promise          *Promise
	on               float64 // ohm
	lights, stranded *volume.Contents
}

// Margin returns that of a lamp that lights at an input.
func (p *Promise) Margin(on float64, lights, stranded geometry.Attitude) (*Margin, error) {
	at, err := p.stances(lights, stranded)
	if err != nil {
		return nil, err
	}
	return &Margin{p, on, at[0].Contents, at[1].Contents}, nil
}

// A Spare is what a lamp leaves in a rig.
type Spare struct {
	More   float64 // litres more than promised; below 0 the promise is broken
	Lights float64 // litres in the tank on level ground when it lights, on falling fuel and with a nominal sender
	// On is the input, ohm, at which a lamp would leave just what is promised; infinite on the
	// side of more fuel where none does.
	On float64
}

// Of returns what the lamp leaves in a rig that may differ from that of the promise.
func (m *Margin) Of(rig *calibration.Rig) (Spare, error) {
	p := *m.promise
	p.Rig = rig
	lit, err := m.again(&p, m.lights)
	if err != nil {
		return Spare{}, err
	}
	dry, err := m.again(&p, m.stranded)
	if err != nil {
		return Spare{}, err
	}
	needs := dry.Unusable + p.Reserve
	s := Spare{More: lit.lit(float.Falling, p.lights(m.on, late)) - needs, Lights: p.LightsAt(m.on), On: math.Inf(1)}
	if travel := lit.holds(needs); !math.IsInf(travel, 1) {
		s.On = p.input(travel, late)
	} else if p.Falls() {
		s.On = math.Inf(-1)
	}
	return s, nil
}

// again puts a rig at the attitude of contents of the promise's own tank; one that is the
// same is not cut again.
func (m *Margin) again(p *Promise, c *volume.Contents) (*stance, error) {
	if p.Rig.Tank == m.promise.Rig.Tank {
		return p.seen(c), nil
	}
	return p.stand(c.Attitude)
}
