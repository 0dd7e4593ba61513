package main

import (
	"errors"
	"fmt"
	"io"
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r3"

	"floatarc/calibration/reserve"
	"floatarc/geometry"
	"floatarc/plots"
	"floatarc/tanks"
	"floatarc/volume"
)

// pictures draws those of one rig, and computes what several of them show only once.
type pictures struct {
	job   *job
	flags plotFlags
	rel   *volume.Relation // at the attitude asked for
	lamp  *lampFound
	drive *plots.Needle // what drives the needle, once it is planned
}

// A lampFound is the low-fuel lamp of the rig, or why there is none.
type lampFound struct {
	promise *reserve.Promise
	warning *reserve.Warning
	refused *reserve.Impossible // no lamp keeps the promise
	err     error               // nothing is known of one
}

func (o *options) pictures(file string, f plotFlags) (*pictures, error) {
	j, err := o.loadWired(file, f.plan)
	if err != nil {
		return nil, err
	}
	rel, err := j.at(f.att)
	return &pictures{job: j, flags: f, rel: rel}, err
}

func (p *pictures) subject() plots.Subject {
	s := plots.Subject{Name: p.job.file.Name, Rig: p.job.rig, Units: p.job.sys, ByLitres: p.job.file.Sender.Poured}
	if a := p.rel.Contents.Attitude; a != (geometry.Attitude{}) {
		s.Stands = attitudeWords(a, p.job.file.Mount)
	}
	return s
}

// lampOf finds the lamp, once.
func (p *pictures) lampOf() *lampFound {
	if p.lamp != nil {
		return p.lamp
	}
	progress, finish := watch("slopes")
	defer finish()
	p.lamp = p.job.findLamp(progress)
	return p.lamp
}

// findLamp finds the lamp of [use]; progress, if any, tells how far it is.
func (j *job) findLamp(progress func(done, of int)) *lampFound {
	var l lampFound
	if l.promise, l.err = j.lampPromise(); l.err != nil {
		return &l
	}
	l.promise.Watch = progress
	var err error
	if l.warning, err = l.promise.Solve(); err != nil && !errors.As(err, &l.refused) {
		l.err = err
	}
	return &l
}

func (p *pictures) tank() (picture, error) {
	var pickup *r3.Vec
	if at, known := p.job.rig.Tank.Pickup.(volume.DrawPoint); known {
		pickup = (*r3.Vec)(&at)
	}
	return plots.Tank(p.subject(), p.rel, plots.Fittings{Bodies: p.job.file.Tank.Shape.Bodies, Pickup: pickup, Walled: walled(p.job.file.Tank.Bodies), Slopes: p.slopes()}), nil
}

// walled tells whether the file gives outside sizes.
func walled(bodies []tanks.Body) bool {
	return slices.ContainsFunc(bodies, func(b tanks.Body) bool { return b.Wall > 0 })
}

// slopes are the surfaces at the worst attitudes; none where nothing is known of them.
func (p *pictures) slopes() []plots.Slope {
	lamp := p.lampOf()
	if lamp.err != nil || lamp.promise.Envelope.Level() {
		return nil
	}
	w, v := lamp.warning, p.job.sys.Volume
	out := []plots.Slope{{
		Attitude: w.Unusable.Attitude, Litres: w.Unusable.Litres, Dead: true,
		Label: fmt.Sprintf("out of the draw tube's reach at worst, %s: %s", v.Text(w.Unusable.Litres), slopeWords(w.Unusable.Attitude)),
	}}
	if lamp.refused == nil && !math.IsNaN(w.Latest.Litres) {
		out = append(out, plots.Slope{
			Attitude: w.Latest.Attitude, Litres: w.Latest.Litres,
			Label: fmt.Sprintf("surface where the lamp lights last, with %s: %s", v.Text(w.Latest.Litres), slopeWords(w.Latest.Attitude)),
		})
	}
	return out
}

func (a plotAnswer) write(w io.Writer) {
	for _, f := range a.Files {
		fmt.Fprintln(w, f.File)
	}
}
