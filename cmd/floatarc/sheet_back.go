package main

import (
	"math"

	"floatarc/plots/ink"
	"floatarc/plots/sheet"
	"floatarc/tanks/quantity"
)

// back is the second page: the cautions, the bench, the fill log.
func (w *workSheet) back() sheet.Page {
	page := sheet.Page{sheet.Heading{Text: "Cautions"}, sheet.List{Items: cautions, Warn: true}}
	page = append(page, sheet.Heading{Text: "On the bench: a decade box at the conditioner's terminals in place of the sender, its wire off"}, w.benchTable(),
		sheet.Paragraph{Small: true, Text: w.benchWords()})
	page = append(page, sheet.Heading{Text: "With a fuel can, on level ground, from a drained tank"}, w.fillTable(),
		sheet.Paragraph{Small: true, Text: w.fillWords()})
	return page
}

func (w *workSheet) benchTable() sheet.Table {
	v := w.sys.Volume
	t := sheet.Table{Columns: []sheet.Column{
		{Kind: sheet.Tick}, {Head: "Setting"}, {Head: "Set", Units: "Ω", Align: sheet.Right}, {Head: "Needle at", Units: "%", Align: sheet.Right}, {Head: "±", Units: "%", Align: sheet.Right},
		{Head: "That is"}, {Head: "In tank", Units: v.Symbol, Align: sheet.Right}, {Head: "Going up", Units: "%", Kind: sheet.Blank}, {Head: "Going down", Units: "%", Kind: sheet.Blank},
	}}
	for _, r := range w.benchAnswer(w.rel, w.plan, terminals).Settings {
		if r.Midpoint && !w.checksFit() {
			continue
		}
		label, place := r.Label, r.Place
		if r.Midpoint {
			label, place = "check "+r.Label, ""
		}
		t.Rows = append(t.Rows, sheet.Row{Cells: []string{"", label, one(float64(r.Set)), one(100 * float64(r.Position)), one(float64(r.Tolerance)), place, v.Number(float64(r.Litres))}})
	}
	return t
}

// checksFit tells whether the sheet has room for the checks between points.
func (w *workSheet) checksFit() bool {
	most := 6
	if w.paper == ink.Letter {
		most = 5
	}
	return len(w.plan.points) <= most
}

func (w *workSheet) benchWords() string {
	settle := "30 s and more for a damped needle"
	if s := w.file.Gauge.Settle; s > 0 {
		settle = quantity.Fixed(s, 0) + " s for this needle"
	}
	checks := ""
	if !w.checksFit() {
		checks = " The checks half way between the points: floatarc bench " + w.file.File + "."
	}
	return "Engine running or the battery at charging voltage, the gauge's own earth as in use. Measure the decade box with the ohmmeter first. Wait " + settle +
		" and tap the glass before each reading. Up from the first line to the last, then down: what differs is the needle's own friction." + checks
}

func (w *workSheet) fillTable() sheet.Table {
	v := w.sys.Volume
	t := sheet.Table{Columns: []sheet.Column{
		{Kind: sheet.Tick}, {Head: "Poured", Units: v.Symbol, Align: sheet.Right}, {Head: "In tank", Units: v.Symbol, Align: sheet.Right}, {Head: "Meter", Units: "Ω", Align: sheet.Right},
		{Head: "passes", Units: "Ω", Align: sheet.Right}, {Head: "change", Units: "Ω", Align: sheet.Right}, {Head: "Needle", Units: "%", Align: sheet.Right},
		{Head: "Meter found", Units: "Ω", Kind: sheet.Blank}, {Head: "Needle seen", Kind: sheet.Blank},
	}}
	for _, r := range w.fill.Rows {
		change := ""
		if c := float64(r.Change); !math.IsNaN(c) {
			change = quantity.Signed(c, 1) + " ± " + one(float64(r.ChangeBy))
		}
		t.Rows = append(t.Rows, sheet.Row{Cells: []string{"", v.Number(float64(r.Added)), v.Number(float64(r.Litres)), one(float64(r.Input)),
			one(float64(r.Low)) + " – " + one(float64(r.High)), change, quantity.Fixed(100*float64(r.Position), 0)}})
	}
	return t
}

func (w *workSheet) fillWords() string {
	return "Outdoors, engine off and cold; ohmmeter at the conditioner's terminals, battery disconnected, nothing else on the sender; the needle is looked at afterwards, with the box back on. " +
		"Wait until the reading stands still. Of 100 readings 95 would pass; the change from the row before is known better, and shows a fault at the second can. Then: floatarc fit " + w.file.File + " log.csv."
}
