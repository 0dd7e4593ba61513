package main

import (
	"errors"
	"fmt"

	"floatarc/calibration"
	"floatarc/float"
	"floatarc/gauge"
	"floatarc/geometry"
	"floatarc/plots"
	"floatarc/volume"
)

// seenApart is the share of a full tank by which rising and falling fuel must differ to be seen
// apart.
const seenApart = 0.015

func (p *pictures) curve() (picture, error) {
	var rising, falling *volume.Relation
	if p.job.dragged() {
		up, okUp := p.job.rig.On(p.rel, float.Rising)
		down, okDown := p.job.rig.On(p.rel, float.Falling)
		if okUp && okDown {
			if most, _ := p.job.rig.Hysteresis(up, down); most > seenApart*p.job.rig.Tank.Full {
				rising, falling = up, down
			}
		}
	}
	drawn, err := plots.Travel(p.subject(), p.rel, rising, falling)
	if errors.Is(err, plots.ErrNoTravel) {
		return nil, p.job.file.Refuse("sender.kind", "%v", err)
	}
	return drawn, err
}

func (p *pictures) points() (picture, error) {
	plan, err := p.job.plan(p.flags.plan)
	if err != nil {
		return nil, err
	}
	return plots.Inputs(p.subject(), p.rel, plan.points, plan.lines), nil
}

func (p *pictures) ohm() (picture, error) { return plots.Grain(p.subject(), p.rel), nil }

// needle is what drives the needle, each way; the points are planned once.
func (p *pictures) needle() (plots.Needle, error) {
	if p.drive != nil {
		return *p.drive, nil
	}
	var n plots.Needle
	j := p.job
	if direct := j.file.Gauge.Response; direct != nil {
		n.Straight = direct
	}
	if stored := j.storedLines(); stored != nil {
		n.Stored = stored
	}
	for _, f := range []struct {
		method method
		into   *gauge.Indicator
	}{{atMarks, &n.Marks}, {free, &n.Best}} {
		flags := p.flags.plan
		flags.method = f.method
		plan, err := j.plan(flags)
		if err != nil {
			return n, err
		}
		*f.into = plan.lines
	}
	n.NeverOver = float64(p.flags.plan.neverOver)
	p.drive = &n
	return n, nil
}

// dial draws what the needle means; at its true size it is a face to lay over the gauge.
func (p *pictures) dial() (picture, error) {
	if p.flags.size.scale == trueSize {
		return p.face()
	}
	n, err := p.needle()
	if err != nil {
		return nil, err
	}
	return plots.Dial(p.subject(), p.rel, n), nil
}

func (p *pictures) errors() (picture, error) {
	n, err := p.needle()
	if err != nil {
		return nil, err
	}
	spread, err := p.spread()
	if err != nil {
		return nil, err
	}
	return plots.Errors(p.subject(), p.rel, n, spread), nil
}

// spreadSteps is in how many steps of the share the spread of needles is drawn.
const spreadSteps = 40

// spread draws rigs about the points of the method asked for; none unless asked.
func (p *pictures) spread() ([]plots.Spread, error) {
	if !p.flags.uncertain.asked {
		return nil, nil
	}
	if p.rel.Contents.Attitude != (geometry.Attitude{}) {
		return nil, misusef("plot: --uncertain at an attitude, expected level ground")
	}
	plan, err := p.job.plan(p.flags.plan)
	if err != nil {
		return nil, err
	}
	family, err := p.job.drawnFamily(p.flags.uncertain.usual, true)
	if err != nil {
		return nil, err
	}
	var shares []float64
	for i := range spreadSteps + 1 {
		shares = append(shares, float64(i)/spreadSteps)
	}
	r, err := p.flags.uncertain.draw(family, func(rig *calibration.Rig) ([]float64, error) {
		g, err := rig.Glance(nil, shares, plan.lines)
		if err != nil {
			return nil, err
		}
		return g.Errors[0], nil
	})
	if err != nil {
		return nil, fmt.Errorf("%s: %w", p.job.file.File, err)
	}
	var out []plots.Spread
	for i, s := range shares {
		b := r.Band(i)
		out = append(out, plots.Spread{Litres: p.job.rig.Dial.Litres(s), Low: b.Low, High: b.High})
	}
	return out, nil
}
