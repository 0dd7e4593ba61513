package main

import (
	"fmt"

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
	dial := j.rig.Dial
	f := &fullsize.Face{
		Title: j.file.Name, Diameter: diameter, Sweep: sweep, Units: j.sys, Paper: paper,
		Litres: func(position float64) float64 { return dial.Litres(dial.ShareAt(position)) },
	}
	for _, m := range dial.Marks {
		f.Marks = append(f.Marks, fullsize.FaceMark{Label: m.Label, Position: m.Position})
	}
	page, err := fullsize.DialOverlay(f)
	if err != nil {
		return nil, fmt.Errorf("%s: %w", j.file.File, err)
	}
	return page, nil
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
