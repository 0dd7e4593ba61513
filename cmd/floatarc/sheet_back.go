package main

import (
	"math"

	"floatarc/plots/sheet"
	"floatarc/tanks/quantity"
)

// back is the second page: the wiring, the bench, the fill log.
func (w *workSheet) back(l layout) sheet.Page {
	var page sheet.Page
	if !l.wiringFirst {
		page = append(page, w.wiring()...)
	}
	page = append(page, sheet.Heading{Text: "On the bench: a decade box at the conditioner's terminals in place of the sender, its wire off"}, w.benchTable(l.checks),
		sheet.Paragraph{Small: true, Text: w.benchWords(l.checks)})
	return append(page, sheet.Heading{Text: "With a fuel can, on level ground, from a drained tank"}, w.fillTable(),
		sheet.Paragraph{Small: true, Text: w.fillWords()})
}

func (w *workSheet) benchTable(checks bool) sheet.Table {
	v := w.sys.Volume
	t := sheet.Table{Columns: []sheet.Column{
		{Kind: sheet.Tick}, {Head: "Setting"}, {Head: "Set", Units: "Ω", Align: sheet.Right}, {Head: "Needle at", Units: "%", Align: sheet.Right}, {Head: "±", Units: "%", Align: sheet.Right},
		{Head: "That is"}, {Head: "In tank", Units: v.Symbol, Align: sheet.Right}, {Head: "Going up", Units: "%", Kind: sheet.Blank}, {Head: "Going down", Units: "%", Kind: sheet.Blank},
	}}
	for _, r := range w.benchAnswer(w.rel, w.plan, terminals).Settings {
		if r.Midpoint && !checks {
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

// benchWords tell how to go about it, and where the checks are if the sheet has no room for them.
func (w *workSheet) benchWords(withChecks bool) string {
	settle := "30 s and more for a damped needle"
	if s := w.file.Gauge.Settle; s > 0 {
		settle = quantity.Fixed(s, 0) + " s for this needle"
	}
	checks := ""
	if !withChecks {
		checks = " The checks half way between the points: floatarc bench " + w.file.File + "."
	}
	litres := ""
	if w.tilted() {
		litres = "What is in the tank holds" + w.where() + ". "
	}
	return litres + "Engine running or the battery at charging voltage, the gauge's own earth as in use. Measure the decade box with the ohmmeter first. Wait " + settle +
		" and tap the glass before each reading. Up from the first line to the last, then down: what differs is the needle's own friction. A point that is off by more than ±: set its pair again. Points right and a check off: the gauge does not move evenly (gauge.needle)." + checks
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

// logColumns are the columns of a log in the units of the sheet.
func (w *workSheet) logColumns() string {
	added := map[string]string{quantity.US.Name: "us_gal_added", quantity.Imperial.Name: "imp_gal_added"}[w.sys.Name]
	if added == "" {
		added = "litres_added"
	}
	return added + ",ohms,needle"
}

// unitsFlag is what a command needs to answer in the units of the sheet.
func (w *workSheet) unitsFlag() string {
	if w.sys.Name == quantity.Metric.Name {
		return ""
	}
	return " --units " + w.sys.Name
}

func (w *workSheet) fillWords() string {
	return "Outdoors, engine off and cold; ohmmeter at the conditioner's terminals, battery disconnected, nothing else on the sender; the needle is looked at afterwards, with the conditioner back on its wires and the battery on. " +
		"Wait until the reading stands still. Of 100 readings 95 would pass; the change from the row before is known better, and shows a fault at the second can. Then a log.csv with the columns " + w.logColumns() + ": floatarc fit " + w.file.File + " log.csv --start drained" + w.unitsFlag() + "."
}
