package main

import (
	"fmt"
	"slices"

	"floatarc/calibration"
	"floatarc/tanks/quantity"
)

// pointsGrid is the table of pairs to store; under a divider it gives the voltage
// too, as a share of the supply.
func (j *job) pointsGrid(p *plan) *grid {
	sys := j.sys
	g := &grid{heads: []string{"mark", "store Ω", "needle\nat %", "in the tank\n" + sys.Volume.Symbol, "sender Ω"}, labels: true, notes: true}
	if p.method == free {
		g.heads[0] = "point"
	}
	onArm, needle, divider := j.file.Sender.Arm != nil, j.rig.Conditioner.Needle, j.file.Conditioner.Divider()
	if onArm {
		g.heads = append(g.heads, "arm °")
	}
	g.heads = append(g.heads, "")
	if needle != nil {
		g.heads = slices.Insert(g.heads, 3, "drive")
	}
	if divider != nil {
		g.heads = slices.Insert(g.heads, 2, j.dividerHeads()...)
	}
	for _, q := range p.points {
		row := []string{q.Label, quantity.Fixed(q.InputOhms, 1), quantity.Fixed(100*q.Position, 1), sys.Volume.Number(q.Litres), one(q.SenderOhms)}
		if onArm {
			row = append(row, one(q.Travel))
		}
		row = append(row, j.pointNote(p, q))
		if needle != nil {
			row = slices.Insert(row, 3, fmt.Sprintf("%.4g", needle.Drive(q.Position)))
		}
		if divider != nil {
			row = slices.Insert(row, 2, j.dividerCells(q.InputOhms)...)
		}
		g.add(row...)
	}
	return g
}

// dividerHeads name what a divider makes of an input: the share of the supply, or
// volts where the supply is known, and the count of a converter.
func (j *job) dividerHeads() []string {
	heads := []string{"= % of\nsupply"}
	if j.file.Conditioner.Feed.Supply > 0 {
		heads = []string{"= V"}
	}
	if j.file.Conditioner.Feed.Converter != nil {
		heads = append(heads, "= count")
	}
	return heads
}

func (j *job) dividerCells(input float64) []string {
	feed := j.file.Conditioner.Feed
	x := j.file.Conditioner.Divider().X(input)
	cells := []string{quantity.Fixed(100*x, 2)}
	if feed.Supply > 0 {
		cells = []string{quantity.Fixed(feed.Supply*x, 3)}
	}
	if feed.Converter != nil {
		cells = append(cells, fmt.Sprint(feed.Converter.Count(x)))
	}
	return cells
}

// pointNote tells where the needle stands, and where the sender does not move.
func (j *job) pointNote(p *plan, q calibration.Point) string {
	note := ""
	if p.method == free {
		note = j.place(q.Position)
	}
	if q.End == calibration.NoEnd {
		return note
	}
	border := j.rig.Told(j.rig.Level).At(q.End)
	way := map[calibration.End]string{calibration.LowEnd: "down", calibration.HighEnd: "up"}[q.End]
	if note != "" {
		note += "; "
	}
	return note + fmt.Sprintf("%s from %s %s", j.restsAt(border), j.sys.Volume.Text(border.Litres), way)
}

// restsAt says what keeps the reading at an end.
func (j *job) restsAt(b calibration.Border) string {
	if b.Limited {
		return "the conditioner takes no more"
	}
	return j.rests()
}
