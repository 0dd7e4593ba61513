package main

import (
	"fmt"
	"math"

	"gonum.org/v1/plot/vg"

	"floatarc/plots/ink"
	"floatarc/plots/sheet"
	"floatarc/tanks/quantity"
	"floatarc/volume"
)

// A workSheet is what the worksheet of a rig tells.
type workSheet struct {
	*job
	rel    *volume.Relation
	plan   *plan
	points *pointsSheet
	lamp   *lampSheet
	noLamp error // why there is none
	fill   *planAnswer
	paper  ink.Paper
	flags  sheetFlags
}

// workSheet computes all of it.
func (j *job) workSheet(rel *volume.Relation, p *plan, f sheetFlags, paper ink.Paper) (*workSheet, error) {
	w := &workSheet{job: j, rel: rel, plan: p, flags: f, paper: paper}
	var err error
	if w.points, err = j.pointsSheet(rel, p, f.plan); err != nil {
		return nil, err
	}
	w.points.warn(false)
	if w.lamp, w.noLamp = j.lampSheet(lampFlags{plan: f.plan, ordinary: halfOfIt}); w.noLamp == nil {
		w.noLamp = w.lamp.refusal()
	}
	can, err := j.canOf(f.can)
	if err != nil {
		return nil, err
	}
	w.fill, err = j.planLog(can, p, logFlags{fluid: "fuel"})
	return w, err
}

// fillRows is how many cans a fill log has at most where nobody says what a can holds.
const fillRows = 8

// canOf returns what a can holds: as given, or a round quantity in the units that people
// read of which a few fill the tank.
func (j *job) canOf(text string) (float64, error) {
	if text != "" {
		can, err := quantity.Volume.Parse(text)
		if err == nil && !(can.Value > 0) {
			err = fmt.Errorf("%q, expected more than 0", text)
		}
		if err != nil {
			return 0, misusef("--can: %v", err)
		}
		return can.Value, nil
	}
	one := 1 / j.sys.Volume.Of(1)
	for power := 0.001; ; power *= 10 {
		for _, step := range []float64{1, 2, 5} {
			if can := step * power * one; j.rig.Tank.Full/can <= fillRows {
				return can, nil
			}
		}
	}
}

// document puts the sheet together.
func (w *workSheet) document() (*sheet.Document, error) {
	tank, errors, err := w.figures()
	if err != nil {
		return nil, err
	}
	subtitle := w.file.Name + ". " + attitudeWords(w.rel.Contents.Attitude, w.file.Mount)
	return &sheet.Document{
		Title: "Calibration of the fuel gauge", Subtitle: subtitle, Footer: w.file.Name, Size: w.paper,
		Pages: []sheet.Page{w.front(tank, errors), w.back()},
	}, nil
}

func (w *workSheet) figures() (tank, errors sheet.Picture, err error) {
	p := &pictures{job: w.job, rel: w.rel, flags: plotFlags{plan: w.flags.plan, att: w.flags.att}}
	if tank, err = p.tank(); err != nil {
		return nil, nil, err
	}
	errors, err = p.errors()
	return tank, errors, err
}

// frontSizes are those of the pictures of the first page, so that the wiring still has its
// place below: how wide and how tall the tank may be at most, how wide the errors are.
func frontSizes(paper ink.Paper) (tankWide, tankTallest, errorsWide vg.Length) {
	if paper == ink.Letter { // wider, but not as tall
		return 86 * vg.Millimeter, 98 * vg.Millimeter, 80 * vg.Millimeter
	}
	return 86 * vg.Millimeter, 112 * vg.Millimeter, 92 * vg.Millimeter
}

// front is the first page: whose tank it is, what to store, how far the needle lies then,
// when the lamp lights, what the wiring adds.
func (w *workSheet) front(tank, errors sheet.Picture) sheet.Page {
	wide, tall := tank.Size()
	tankWide, tankTallest, errorsWide := frontSizes(w.paper)
	width := min(tankWide, wide*tankTallest/tall)
	left := []sheet.Block{sheet.Figure{Picture: tank, Width: width}}
	right := append([]sheet.Block{
		sheet.Heading{Text: "Points to store, " + w.methodWords()}, w.pointsTable(), sheet.Paragraph{Small: true, Text: w.errorWords()},
	}, w.mind()...)
	right = append(right, sheet.Figure{Picture: errors, Width: errorsWide})
	lamp := append([]sheet.Block{sheet.Heading{Text: "Low-fuel lamp"}}, w.lampBlocks()...)
	if w.leftLonger(tall * width / wide) {
		right = append(right, lamp...)
	} else {
		left = append(left, lamp...)
	}
	return sheet.Page{
		sheet.Fields{Columns: 3, Fields: []sheet.Field{{Label: "Date"}, {Label: "By"}, {Label: "Vehicle"}, {Label: "Hours or distance"}, {Label: "Conditioner"}, {Label: "Ohmmeter"}}},
		sheet.Columns{Share: 0.47, Left: left, Right: right},
		sheet.Heading{Text: "Wiring as installed: battery off, the meter's leads shorted and subtracted"}, w.wiringTable(),
		sheet.Paragraph{Small: true, Text: w.wiringWords()},
	}
}

// leftLonger tells whether the drawing of the tank leaves less room below it than the points
// and the error figure leave: roughly, the lines of warnings taken as three each.
func (w *workSheet) leftLonger(tank vg.Length) bool {
	const row, line, figure = 7.2 * vg.Millimeter, 13 * vg.Millimeter, 78 * vg.Millimeter
	right := row*vg.Length(len(w.plan.points)+3) + line*vg.Length(len(w.points.warnings)+1) + figure
	return tank+35*vg.Millimeter > right
}

func (w *workSheet) methodWords() string {
	if w.plan.method == free {
		return "where the needle lies least"
	}
	return "at the marks"
}

func (w *workSheet) pointsTable() sheet.Table {
	v := w.sys.Volume
	t := sheet.Table{Columns: []sheet.Column{
		{Kind: sheet.Tick}, {Head: "Mark"}, {Head: "Store", Units: "Ω", Align: sheet.Right}, {Head: "Needle", Units: "%", Align: sheet.Right},
		{Head: "In tank", Units: v.Symbol, Align: sheet.Right}, {Head: "Found", Units: "Ω", Kind: sheet.Blank},
	}}
	for _, p := range w.plan.points {
		t.Rows = append(t.Rows, sheet.Row{Cells: []string{"", p.Label, one(p.InputOhms), one(100 * p.Position), v.Number(p.Litres)}})
	}
	return t
}

// errorWords tell how far the needle lies with the points.
func (w *workSheet) errorWords() string {
	v, e := w.sys.Volume, w.points.errors
	words := fmt.Sprintf("The needle then lies at most %s %% of the dial (%s) off, where it %s.", quantity.Fixed(e.chosen().Percent, 1), v.Text(e.chosen().Litres), e.chosen().shows)
	if w.blind() {
		words += fmt.Sprintf(" Away from the stops: %s %%.", quantity.Fixed(e.chosen().AwayPercent, 1))
	}
	if e.straight != nil {
		words += fmt.Sprintf(" Wired straight to the gauge: %s %%.", quantity.Fixed(e.straight.Percent, 1))
	}
	return words
}

// mind are the warnings of the points.
func (w *workSheet) mind() []sheet.Block {
	var out []sheet.Block
	for _, x := range w.points.warnings {
		out = append(out, sheet.Paragraph{Small: true, Text: "! " + x.Text})
	}
	return out
}

// lampBlocks tell where to set the low-fuel lamp, or why there is none.
func (w *workSheet) lampBlocks() []sheet.Block {
	if w.noLamp != nil {
		return []sheet.Block{sheet.Paragraph{Small: true, Text: "! Not set: " + w.noLamp.Error()}}
	}
	s, v := w.lamp, w.sys.Volume
	words := s.lampWords() + fmt.Sprintf(" On level ground it lights with %s in the tank, of which %s can be drawn.", v.Text(float64(s.Warn)), v.Text(float64(s.WarnUsable)))
	if most := float64(s.ProofMost); !math.IsNaN(most) {
		words += fmt.Sprintf(" Proof: drained slowly on level ground it must light between %s and %s.", v.Text(most), v.Text(float64(s.ProofLeast)))
	}
	return []sheet.Block{sheet.Paragraph{Small: true, Text: words},
		sheet.Fields{Columns: 2, Fields: []sheet.Field{{Label: "Lit with", Units: v.Symbol}, {Label: "Out with", Units: v.Symbol}}}}
}
