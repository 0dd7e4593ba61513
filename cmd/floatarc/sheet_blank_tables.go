package main

import (
	"fmt"
	"strings"

	"floatarc/plots"
	"floatarc/plots/sheet"
)

// read tells whether it is read off an arm that is held somewhere: those have a table of
// their own.
func (m measure) read() bool {
	switch m.part {
	case plots.StopLow, plots.StopHigh, plots.OhmsLow, plots.OhmsHigh, plots.OhmsBetween:
		return true
	}
	return false
}

// keyHead stands above the keys.
const keyHead = "In the file"

// table has a row for each of some measures, below a head.
func (b blank) table(head string, which func(measure) bool) sheet.Table {
	t := sheet.Table{Columns: []sheet.Column{
		{Align: sheet.Centre}, {Head: head}, {Head: "Value", Kind: sheet.Blank}, {}, {Head: "±", Kind: sheet.Blank}, {Head: keyHead},
	}}
	for _, m := range measuresOf(b.kind) {
		if which(m) {
			t.Rows = append(t.Rows, sheet.Row{Cells: []string{m.letter, m.words, m.boxed(), m.in(b.kind, b.sys), "", m.path()}})
		}
	}
	return t
}

// boxed is what is printed in the box of a measure that has several values.
func (m measure) boxed() string {
	if m.key == "response" {
		return "E\u00a0\u00a0\u00a0\u00a0\u00a0\u00a0\u00a0\u00a0½\u00a0\u00a0\u00a0\u00a0\u00a0\u00a0\u00a0\u00a0F\u00a0\u00a0\u00a0\u00a0"
	}
	return ""
}

// places has a row for each place in the tank.
func (b blank) places() sheet.Table {
	t := sheet.Table{Columns: []sheet.Column{
		{Align: sheet.Centre}, {Head: "Place, from the origin"}, {Head: "x forward", Kind: sheet.Blank}, {Head: "y left", Kind: sheet.Blank}, {Head: "z up", Kind: sheet.Blank}, {}, {Head: "±", Kind: sheet.Blank}, {Head: keyHead},
	}}
	for _, m := range measuresOf(b.kind) {
		if m.place() {
			t.Rows = append(t.Rows, sheet.Row{Cells: []string{m.letter, m.words, m.letter + "x", m.letter + "y", m.letter + "z", m.in(b.kind, b.sys), "", m.path()}})
		}
	}
	return t
}

// inBetween is how many readings there are between the stops.
const inBetween = 4

// readings is for the ohmmeter: the angle of the arm, or the height of the float from which
// it follows, and the ohms there.
func (b blank) readings() sheet.Table {
	letter := letterIn(b.kind)
	t := sheet.Table{Columns: []sheet.Column{
		{Head: "Arm"}, {Head: "Angle", Units: "°", Kind: sheet.Blank}, {Head: "or float over axle", Units: b.tape(), Kind: sheet.Blank}, {Head: "Ohmmeter", Units: "Ω", Kind: sheet.Blank},
	}}
	row := func(where, angle, ohms string) {
		t.Rows = append(t.Rows, sheet.Row{Cells: []string{where, angle, "", ohms}})
	}
	row("low stop", letter(plots.StopLow), letter(plots.OhmsLow))
	for k := range inBetween {
		z := fmt.Sprintf("%s%d", letter(plots.OhmsBetween), k+1)
		row("between", z, z)
	}
	row("high stop", letter(plots.StopHigh), letter(plots.OhmsHigh))
	row("±", "", "")
	return t
}

// readingWords says how to take the readings, and where they go in the file.
func (b blank) readingWords() string {
	var keys []string
	for _, m := range measuresOf(b.kind) {
		if m.read() {
			keys = append(keys, m.letter+" "+m.path())
		}
	}
	return "Angles are those of the straight line from the axle to the float's centre, minus below level: a protractor, or sine = height of the float's centre over the axle / Q. " +
		keyHead + ": " + strings.Join(keys, ", ") + "."
}

// tape is the unit of a tape measure.
func (b blank) tape() string { return b.sys.Length.Symbol }

// section is for a tank that the sketch does not fit, as a template is measured: at each
// height the two sides of a base line.
func (b blank) section(rows int) []sheet.Block {
	in := " " + b.tape()
	t := sheet.Table{Columns: []sheet.Column{{Head: "up," + in, Kind: sheet.Blank}, {Head: "left," + in, Kind: sheet.Blank}, {Head: "right," + in, Kind: sheet.Blank}}}
	for range rows {
		t.Rows = append(t.Rows, sheet.Row{})
	}
	return []sheet.Block{
		sheet.Paragraph{Small: true, Text: "A tank of another section: at each height how far its sides lie from an upright base line. In the file: shape = \"outline\", offsets = [[up, left, right], …]"},
		sheet.Columns{Left: []sheet.Block{t}, Right: []sheet.Block{t}},
	}
}
