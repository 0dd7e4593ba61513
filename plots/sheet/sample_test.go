package sheet

import (
	"bytes"
	"fmt"
	"strings"
	"testing"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"floatarc/plots/ink"
)

// A drawing is a picture of a tank with one text in it.
type drawing struct {
	title, text string
	width       vg.Length
}

func (d drawing) Title() string                   { return d.title }
func (d drawing) Size() (width, height vg.Length) { return d.width, d.width * 0.6 }

func (d drawing) Paint(c vg.CanvasSizer) {
	w, h := c.Size()
	k := draw.NewCanvas(c, w, h)
	k.SetColor(ink.Fuel)
	box := vg.Rectangle{Min: vg.Point{X: 10, Y: 10}, Max: vg.Point{X: w - 10, Y: h / 2}}
	k.Fill(box.Path())
	k.SetColor(ink.Black)
	k.SetLineWidth(ink.Medium)
	box.Max.Y = h - 10
	k.Stroke(box.Path())
	k.SetLineDash(ink.Dashed, 0)
	k.StrokeLine2(draw.LineStyle{Color: ink.Vermilion, Width: ink.Thin, Dashes: ink.Dashed}, 10, h/2, w-10, h/3)
	k.FillText(draw.TextStyle{Color: ink.Black, Font: ink.Regular(ink.Head), Handler: ink.Handler()}, vg.Point{X: 20, Y: h/2 + 8}, d.text)
}

var side = drawing{"The tank from the left", "240 Ω, needle at ½", 120 * vg.Millimeter}

func pointRows(n int) []Row {
	var out []Row
	for i := range n {
		f := float64(i) / float64(max(1, n-1))
		out = append(out, Row{Cells: []string{fmt.Sprint(i + 1), fmt.Sprintf("%.1f", 240-206*f), fmt.Sprintf("%.1f", 100*f), fmt.Sprintf("%.1f", 52*f), "", ""}, Strong: f == 0.5})
	}
	return out
}

func points(n int) Table {
	return Table{
		Columns: []Column{
			{Head: "Point", Align: Right}, {Head: "Sender at\nthe terminals", Units: "ohm", Align: Right},
			{Head: "Needle", Units: "%", Align: Right}, {Head: "Fuel", Units: "L", Align: Right},
			{Head: "Measured", Units: "ohm", Kind: Blank}, {Head: "Set", Kind: Tick, Align: Centre},
		},
		Rows: pointRows(n),
	}
}

// sample has every block.
func sample(size ink.Paper) *Document {
	cautions := List{Warn: true, Items: []string{
		"No flame, no smoking, no ordinary lamp or drill near an open tank. Petrol vapour is heavier than air and lights from a spark far away.",
		"Disconnect the battery before you touch the wiring, and connect it last.",
		"Never put a bench supply across a sender in a tank.",
	}}
	who := Fields{Columns: 3, Fields: []Field{
		{Label: "Date"}, {Label: "Done by"}, {Label: "Meter"},
		{Label: "Rig", Value: "demo (invented)"}, {Label: "Air", Units: "°C"}, {Label: "Leads", Units: "ohm"},
	}}
	parts := Table{
		Columns: []Column{{Head: "Measure"}, {Head: "Where to hold the tape"}, {Head: "Is", Units: "mm", Align: Right}, {Head: "Found", Units: "mm", Kind: Blank}},
		Rows: []Row{
			{Cells: []string{"Arm", "from the middle of the pivot to the middle of the float, along the straight line between the two", "190"}},
			{Cells: []string{"Pivot", "below the underside of the flange", "62.5"}},
			{Cells: []string{"Float", "its diameter ± 0.5"}},
		},
	}
	steps := Table{
		Columns: []Column{{Kind: Tick}, {Head: "Step"}, {Head: "Remarks", Kind: Blank}},
		Rows: []Row{
			{Cells: []string{"", "Take the sender out and measure both ends with the ohmmeter."}},
			{Cells: []string{"", "Store the points, lowest resistance first."}},
			{Cells: []string{"ok", "Pour the first can.", "10 L"}},
		},
	}
	return &Document{
		Title: "Worksheet: demo tank", Subtitle: "52 L, sender 240 to 34 Ω, every figure invented", Footer: "prove it with a fuel can", Size: size,
		Pages: []Page{
			{
				cautions, who, Heading{"Points to store"}, points(9),
				Paragraph{Text: "Turn the box to each resistance, wait for the needle and write down what it shows.\nHalf a needle's width is good enough.", Small: true},
				Columns{Share: 0.45, Left: []Block{Figure{Picture: side, Caption: "Seen from the left, arm hanging."}}, Right: []Block{
					Heading{"After the work"},
					Fields{Fields: []Field{{Label: "Needle at empty", Units: "%"}, {Label: "Lamp lights at", Value: "6.4", Units: "L"}, {Label: "Signed"}}},
					Paragraph{Text: "Keep this sheet with the papers."},
				}},
			},
			{
				Heading{"Measures"}, parts, Heading{"Steps"}, steps,
				Paragraph{Text: "The sender is reversed: high resistance means a full tank.", Warn: true},
				List{Items: []string{"A spare gasket.", "Two cans of 10 L, earthed.\nMetal, not plastic."}},
				Figure{Picture: side, Width: 150 * vg.Millimeter, Caption: "The same, larger."},
			},
		},
	}
}

func html(t testing.TB, d *Document) string {
	t.Helper()
	var b strings.Builder
	if err := d.HTML(&b); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

func pdf(t testing.TB, d *Document) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := d.PDF(&b); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}
