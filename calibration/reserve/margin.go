package reserve

import (
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

// Of returns how many litres more than promised the lamp leaves to be drawn in a rig that
// may differ from that of the promise, and with how many it lights on level ground, on
// falling fuel and with a nominal sender; below 0 the promise is broken.
func (m *Margin) Of(rig *calibration.Rig) (more, lights float64, err error) {
	p := *m.promise
	p.Rig = rig
	lit, err := m.again(&p, m.lights)
	if err != nil {
		return 0, 0, err
	}
	dry, err := m.again(&p, m.stranded)
	if err != nil {
		return 0, 0, err
	}
	more = lit.lit(float.Falling, p.lights(m.on, late)) - dry.Unusable - p.Reserve
	return more, p.LightsAt(m.on), nil
}

// again puts a rig at the attitude of contents of the promise's own tank; one that is the
// same is not cut again.
func (m *Margin) again(p *Promise, c *volume.Contents) (*stance, error) {
	if p.Rig.Tank == m.promise.Rig.Tank {
		return p.seen(c), nil
	}
	return p.stand(c.Attitude)
}
