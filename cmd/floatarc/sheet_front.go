package main

import (
	"fmt"
	"math"
	"strings"

	"gonum.org/v1/plot/vg"

	"floatarc/geometry"
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

// A layout is how large things are on the sheet, and where they stand.
type layout struct {
	tankTallest, errorsWide vg.Length
	lampRight               bool // below the errors; else below the tank
	wiringFirst             bool // on the first page; else on the second
	checks                  bool // on the bench, between the points
}

// layouts are tried in turn until the sheet takes two pages: the largest first.
func layouts() []layout {
	var out []layout
	for _, checks := range []bool{true, false} {
		for _, size := range []vg.Length{112, 100, 88, 76} {
			for _, places := range [][2]bool{{false, false}, {true, false}, {false, true}, {true, true}} {
				out = append(out, layout{size * vg.Millimeter, max(70, size-16) * vg.Millimeter, places[0], places[1], checks})
			}
		}
	}
	return out
}

// sides is how many pages a worksheet has, if it can.
const sides = 2

// document puts the sheet together: in the first layout with which it takes two pages, or
// in the one with which it takes the fewest.
func (w *workSheet) document() (*sheet.Document, error) {
	tank, errors, err := w.figures()
	if err != nil {
		return nil, err
	}
	var best *sheet.Document
	fewest := math.MaxInt
	for _, l := range layouts() {
		d := &sheet.Document{
			Title: "Calibration of the fuel gauge", Subtitle: w.file.Name + ". " + w.stands(), Footer: w.file.Name, Size: w.paper,
			Pages: []sheet.Page{w.front(tank, errors, l), w.back(l)},
		}
		n, err := d.PageCount()
		if err != nil {
			return nil, err
		}
		if n < fewest {
			best, fewest = d, n
		}
		if n <= sides {
			break
		}
	}
	return best, nil
}

// stands tells how the vehicle stands.
func (w *workSheet) stands() string {
	return attitudeWords(w.rel.Contents.Attitude, w.file.Mount)
}

// tilted tells whether it stands otherwise than level.
func (w *workSheet) tilted() bool { return w.rel.Contents.Attitude != (geometry.Attitude{}) }

func (w *workSheet) figures() (tank, errors sheet.Picture, err error) {
	p := &pictures{job: w.job, rel: w.rel, flags: plotFlags{plan: w.flags.plan, att: w.flags.att, uncertain: w.flags.uncertain}, lamp: &lampFound{err: w.noLamp}}
	if w.lamp != nil {
		p.lamp = w.lamp.lampFound
	}
	if tank, err = p.tank(); err != nil {
		return nil, nil, err
	}
	errors, err = p.errors()
	return tank, errors, err
}

// tankWide is how wide the drawing of the tank is at most.
const tankWide = 86 * vg.Millimeter

// front is the first page: what is dangerous, whose tank it is, what to store, how far the
// needle lies then, when the lamp lights.
func (w *workSheet) front(tank, errors sheet.Picture, l layout) sheet.Page {
	wide, tall := tank.Size()
	left := []sheet.Block{sheet.Figure{Picture: tank, Width: min(tankWide, wide*l.tankTallest/tall)}}
	right := append([]sheet.Block{
		sheet.Heading{Text: "Points to store, " + w.methodWords()}, w.pointsTable(), sheet.Paragraph{Small: true, Text: w.errorWords()},
	}, w.mind()...)
	right = append(right, sheet.Figure{Picture: errors, Width: l.errorsWide})
	lamp := append([]sheet.Block{sheet.Heading{Text: "Low-fuel lamp"}}, w.lampBlocks()...)
	if l.lampRight {
		right = append(right, lamp...)
	} else {
		left = append(left, lamp...)
	}
	page := sheet.Page{
		sheet.Paragraph{Small: true, Warn: true, Text: strings.Join(cautions, " ")},
		sheet.Fields{Columns: 3, Fields: []sheet.Field{{Label: "Date"}, {Label: "By"}, {Label: "Fitted to"}, {Label: "Hours or distance"}, {Label: "Conditioner"}, {Label: "Ohmmeter"}}},
		sheet.Columns{Share: 0.47, Left: left, Right: right},
	}
	if l.wiringFirst {
		page = append(page, w.wiring()...)
	}
	return page
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
		{Head: "In tank", Units: w.levelUnits(), Align: sheet.Right}, {Head: "Found", Units: "Ω", Kind: sheet.Blank},
	}}
	for _, p := range w.plan.points {
		t.Rows = append(t.Rows, sheet.Row{Cells: []string{"", p.Label, one(p.InputOhms), one(100 * p.Position), v.Number(p.Litres)}})
	}
	return t
}

// levelUnits are those of litres on level ground, which is said where other columns are of
// another attitude.
func (w *workSheet) levelUnits() string {
	if w.tilted() {
		return w.sys.Volume.Symbol + ", level"
	}
	return w.sys.Volume.Symbol
}

// errorWords tell how far the needle lies with the points.
func (w *workSheet) errorWords() string {
	v, e := w.sys.Volume, w.points.errors
	words := fmt.Sprintf("The needle then lies at most %s %% of the dial (%s) off%s. At worst it %s.", quantity.Fixed(e.chosen().Percent, 1), v.Text(e.chosen().Litres), w.where(), e.chosen().shows)
	if w.blind() {
		words += fmt.Sprintf(" Away from the stops: %s %%.", quantity.Fixed(e.chosen().AwayPercent, 1))
	}
	if over := e.chosen().over; e.below > 0 && over > shownTooMuch {
		words += fmt.Sprintf(" Below %s it shows up to %s %% too much", shareWords(e.below), quantity.Fixed(over, 1))
		if w.plan.method == atMarks {
			words += " (--method best does not, on level ground)"
		}
		words += "."
	}
	if e.straight != nil {
		words += fmt.Sprintf(" Wired straight to the gauge: %s %%.", quantity.Fixed(e.straight.Percent, 1))
	}
	return words + " Found: what the decade box is set to when the needle stands on the mark."
}

// where tells at which attitude something holds, unless it is level ground.
func (w *workSheet) where() string {
	if !w.tilted() {
		return ""
	}
	a := w.rel.Contents.Attitude
	return " with " + tiltsWords(a.NoseUp, a.LeftUp)
}

// shownTooMuch is how much a needle may show too much near empty without a word, percent of
// the dial.
const shownTooMuch = 0.5

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
	words := s.lampWords() + fmt.Sprintf(" On level ground it lights with %s in the tank, of which %s can be drawn, and goes out with %s.", v.Text(float64(s.Warn)), v.Text(float64(s.WarnUsable)), known(float64(s.OffLitres), v.Text))
	if most := float64(s.ProofMost); !math.IsNaN(most) {
		words += fmt.Sprintf(" Proof: drained slowly on level ground it must light between %s and %s.", v.Text(most), v.Text(float64(s.ProofLeast)))
	}
	return []sheet.Block{sheet.Paragraph{Small: true, Text: words},
		sheet.Fields{Columns: 2, Fields: []sheet.Field{{Label: "Lit with", Units: v.Symbol}, {Label: "Out with", Units: v.Symbol}}}}
}
