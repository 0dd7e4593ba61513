package main

import (
	"fmt"
	"math"

	"floatarc/calibration"
	"floatarc/gauge"
	"floatarc/plots/fullsize"
	"floatarc/tanks/quantity"
)

// face is the dial at its true size, to lay over the gauge.
func (p *pictures) face() (picture, error) {
	j := p.job
	paper, err := p.flags.size.paper.of(j.sys)
	if err != nil {
		return nil, err
	}
	diameter, sweep, err := p.flags.size.face(j.sweep())
	if err != nil {
		return nil, err
	}
	plan, err := j.plan(p.flags.plan)
	if err != nil {
		return nil, err
	}
	f := &fullsize.Face{
		Title: j.file.Name, Diameter: diameter, Sweep: sweep, Units: j.sys, Paper: paper, Litres: p.shownAt(plan.lines), Notes: p.faceNotes(plan),
	}
	for _, m := range j.rig.Dial.Marks {
		f.Marks = append(f.Marks, fullsize.FaceMark{Label: m.Label, Position: m.Position})
	}
	page, err := fullsize.DialOverlay(f)
	if err != nil {
		return nil, fmt.Errorf("%s: %w", j.file.File, err)
	}
	return page, nil
}

// faceNotes tell for what a face holds.
func (p *pictures) faceNotes(plan *plan) []string {
	points := map[string]string{atMarks: "points at the marks", free: "the best points"}[plan.method]
	notes := []string{"The litres hold for " + points + " in the conditioner. " + attitudeWords(p.rel.Contents.Attitude, p.job.file.Mount)}
	if p.job.blind() {
		notes = append(notes, "Where the sender rests on a stop the needle stands for many quantities: no litres are printed there.")
	}
	return notes
}

// blindShare is the share of the fuel between the marks from which a needle that stands still
// is said to tell no quantity.
const blindShare = 0.005

// shownAt returns what is in the tank when a needle that is driven by an indicator stands at a
// position; NaN where it never does, or stands there with many quantities.
func (p *pictures) shownAt(ind gauge.Indicator) func(position float64) float64 {
	var litres, shown []float64
	for _, at := range p.job.rig.Curve(p.rel, ind).Samples {
		litres, shown = append(litres, at.Litres), append(shown, ind.Show(at.Input))
	}
	blind := blindShare * (p.job.rig.Dial.Full - p.job.rig.Dial.Empty)
	return func(position float64) float64 {
		spans := calibration.Standing(litres, shown, position)
		if len(spans) == 0 {
			return math.NaN()
		}
		least, most := spans[0].Low, spans[len(spans)-1].High
		if most-least > blind {
			return math.NaN()
		}
		return (least + most) / 2
	}
}

// card is the arm at its true size: the sender held on it is its own resistance box.
func (p *pictures) card() (picture, error) {
	j := p.job
	arm := j.file.Sender.Arm
	if arm == nil {
		return nil, j.file.Refuse("sender.kind", "%q, expected \"arm\": only an arm can be held on a card", j.file.Sender.Kind)
	}
	paper, err := p.flags.size.paper.of(j.sys)
	if err != nil {
		return nil, err
	}
	low, high := arm.Stops()
	track := arm.Track()
	a := &fullsize.Arm{Title: j.file.Name, Length: arm.Length, Low: low, High: high, Units: j.sys, Paper: paper}
	add := func(label, note string, angle float64, stop bool) {
		a.Places = append(a.Places, fullsize.ArmPlace{Label: label, Angle: angle, Ohms: track.Ohms(angle), Note: note, Stop: stop})
	}
	add("low stop", "", low, true)
	for _, m := range j.rig.Dial.Marks {
		litres := j.rig.Dial.Litres(m.Share)
		note := "needle " + quantity.Fixed(100*m.Position, 0) + " %"
		if reading := j.rig.Reading(j.rig.Level, litres); reading.Blind {
			note += ", at rest in the tank"
		}
		add(m.Label, note, j.rig.Level.Travel(litres), false)
	}
	add("high stop", "", high, true)
	page, err := fullsize.ArmCard(a)
	if err != nil {
		return nil, fmt.Errorf("%s: %w", j.file.File, err)
	}
	return page, nil
}
