package main

import (
	"math"

	"floatarc/geometry"
	"floatarc/plots"
)

// slopeSteps is in how many steps the tilts of an envelope are drawn.
const slopeSteps = 40

// reserve draws the lamp over the slopes of [use].
func (p *pictures) reserve() (picture, error) {
	lamp := p.lampOf()
	if lamp.err != nil {
		return nil, lamp.err
	}
	e, w := lamp.promise.Envelope, lamp.warning
	if e.Level() {
		return nil, p.job.file.Refuse("use.grade", "no slopes given, expected grade or side_slope, to draw the lamp over them")
	}
	along, extent, leans := "nose up", e.NoseUp, []float64{0, e.LeftUp, -e.LeftUp}
	turned := func(tilt, lean float64) geometry.Attitude { return geometry.Attitude{NoseUp: tilt, LeftUp: lean} }
	switch {
	case extent == 0:
		along, extent, leans = "left side up", e.LeftUp, []float64{0}
		turned = func(tilt, _ float64) geometry.Attitude { return geometry.Attitude{LeftUp: tilt} }
	case e.LeftUp == 0:
		leans = leans[:1]
	}
	var drawn []plots.Lean
	for _, at := range leans {
		l := plots.Lean{Lean: at}
		for i := range slopeSteps + 1 {
			tilt := extent * (2*float64(i)/slopeSteps - 1)
			row, err := lamp.promise.RowAt(w.Chosen, turned(tilt, at))
			if err != nil {
				return nil, err
			}
			l.Sides = append(l.Sides, plots.Side{Tilt: tilt, LightsAt: row.LightsAt, Unusable: row.Unusable})
		}
		drawn = append(drawn, l)
	}
	least := math.NaN()
	if lamp.refused == nil {
		least = w.Latest.Litres
	}
	return plots.Lamp(p.subject(), along, drawn, lamp.promise.Reserve, least, w.Unusable.Litres), nil
}
