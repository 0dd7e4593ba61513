package main

import (
	"fmt"
	"slices"
	"strings"

	"gonum.org/v1/plot/vg"

	"floatarc/plots"
	"floatarc/plots/ink"
	"floatarc/plots/sheet"
	"floatarc/tanks/quantity"
)

// A blank is the first paper of a job: what to measure for a rig of a kind that nobody has
// measured yet.
type blank struct {
	kind string
	sys  quantity.System
}

// blankPages is how many sheets of paper it takes at most.
const blankPages = 2

// blankSheet returns the first paper for a kind, its sketch as large as there is room for on
// any size of paper, then with as many rows for an odd section.
func blankSheet(kind string, sys quantity.System) (*sheet.Document, error) {
	if !slices.Contains(newKinds, kind) {
		return nil, misusef("--blank %s, expected vehicle, boat or machine", kind)
	}
	b := blank{kind, sys}
	var d *sheet.Document
	for _, wide := range tankWidths {
		for rows := mostRows; rows >= leastRows; rows-- {
			d = b.document(wide, rows)
			if fits, err := fitsOn(d, blankPages); err != nil || fits {
				return d, err
			}
		}
	}
	return d, nil
}

// tankWidths are how wide the sketch of a tank may be on paper, the best first.
var tankWidths = []vg.Length{160 * vg.Millimeter, 150 * vg.Millimeter, 140 * vg.Millimeter, 130 * vg.Millimeter, 120 * vg.Millimeter, 110 * vg.Millimeter}

// Rows for an odd section, side by side.
const mostRows, leastRows = 5, 1

// fitsOn tells whether a document takes at most so many sheets of any paper.
func fitsOn(d *sheet.Document, sheets int) (bool, error) {
	d.Size = ink.Letter // the lower one
	n, err := d.PageCount()
	return n <= sheets, err
}

func (b blank) document(wide vg.Length, rows int) *sheet.Document {
	return &sheet.Document{
		Title:    "What to measure: " + b.kind,
		Subtitle: "Tape measure, ohmmeter, pencil. ± is how well you could measure: the value lies so near two times in three.",
		Footer:   "letters as in the file of floatarc new " + b.kind,
		Pages:    []sheet.Page{b.tank(wide), b.sender(rows)},
	}
}

// tankShapes are those of the kinds.
var tankShapes = map[string]plots.TankShape{"vehicle": plots.BoxTank, "boat": plots.VeeTank, "machine": plots.DrumTank}

// tank is the first page.
func (b blank) tank(wide vg.Length) sheet.Page {
	return sheet.Page{
		sheet.Paragraph{Small: true, Warn: true, Text: strings.Join(cautions, " ")},
		b.head(),
		sheet.Figure{Picture: plots.TankSketch(tankShapes[b.kind], letterIn(b.kind)), Width: wide},
		b.table("Where to hold the tape", func(m measure) bool {
			return !m.place() && (m.section == "mount" || strings.HasPrefix(m.section, "tank"))
		}),
		b.places(),
	}
}

// head is whose tank it is.
func (b blank) head() sheet.Fields {
	plate := "Plate or stamp"
	if tankShapes[b.kind] == plots.DrumTank {
		plate = "Heads: flat, dished"
	}
	return sheet.Fields{Columns: 3, Fields: []sheet.Field{
		{Label: "Date"}, {Label: "By"}, {Label: strings.ToUpper(b.kind[:1]) + b.kind[1:]}, {Label: "Fuel"}, {Label: "Tank's maker"}, {Label: plate},
	}}
}

// senderWide is how wide the sketch of a sender is on paper.
const senderWide = 106 * vg.Millimeter

// sender is the second page.
func (b blank) sender(rows int) sheet.Page {
	page := sheet.Page{
		sheet.Columns{
			Share: 0.58,
			Left:  []sheet.Block{sheet.Figure{Picture: plots.SenderSketch(letterIn(b.kind)), Width: senderWide}, sheet.Paragraph{Small: true, Text: b.readingWords()}},
			Right: []sheet.Block{b.readings()},
		},
		b.table("What", func(m measure) bool { return strings.HasPrefix(m.section, "sender") && !m.place() && !m.read() }),
		b.table("Wiring, gauge and use", func(m measure) bool { return m.part == 0 }),
	}
	page = append(page, b.section(rows)...)
	return append(page, sheet.Paragraph{Text: b.then()})
}

// then says what to do with the paper.
func (b blank) then() string {
	units := ""
	if b.sys.Name != quantity.Metric.Name {
		units = " --units " + b.sys.Name
	}
	return fmt.Sprintf("Then: floatarc new %s%s -o my-rig.toml, type the figures in, each beside its letter, floatarc check my-rig.toml.", b.kind, units)
}
