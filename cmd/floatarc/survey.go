package main

import (
	"fmt"

	"floatarc/calibration"
	"floatarc/volume"
)

// A survey is the truth that plans are held against, sampled once.
type survey struct {
	*job
	rel            *volume.Relation
	below          float64            // share below which the needle is never to show too much
	curve          *calibration.Curve // at the attitude asked for
	level          *calibration.Curve // on level ground
	falling        *calibration.Curve // on falling fuel at the attitude; nil if nothing is promised
	promised, free *calibration.Search
	best           calibration.Best // promised, of as many points as the conditioner stores
}

func (j *job) survey(rel *volume.Relation, p *plan, below float64) (*survey, error) {
	v := &survey{job: j, rel: rel, below: below, curve: j.rig.Curve(rel), promised: p.search}
	v.level = v.curve
	if rel != j.rig.Level {
		v.level = j.rig.Curve(j.rig.Level)
	}
	if v.promised == nil {
		var err error
		if v.promised, err = j.rig.Search(below); err != nil {
			return nil, fmt.Errorf("%s: %w", j.file.File, err)
		}
	}
	if v.best = p.best; p.method == atMarks || p.rounded {
		var err error
		if v.best, err = v.promised.Best(j.rig.Conditioner.Places); err != nil {
			return nil, fmt.Errorf("%s: %w", j.file.File, err)
		}
	}
	v.free = v.promised
	if below > 0 {
		v.falling = v.promised.Falling(rel)
		v.free = v.promised.Unpromised()
	}
	return v, nil
}
