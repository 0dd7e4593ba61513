package fullsize

import (
	"math"

	"floatarc/plots/ink"
	"floatarc/tanks/quantity"
)

// An armTable lists every place with the drop of the float centre, which serves where the arm
// is longer than the page.
type armTable struct {
	words  []string // over it
	heads  [][]string
	rows   [][][]string // the lines of each cell
	widths []float64
	width  float64
}

// Sizes of the table, mm.
const (
	rowStep    = 4.6
	moreStep   = 3.6 // further lines of a cell
	columnGap  = 4.0
	nameColumn = 38.0 // at most
	noteColumn = 18.0 // at least
)

// The letters of the table.
var (
	tableWords = regular(8).in(ink.Grey)
	tableHead  = strong(8)
	tableCell  = regular(8.5)
)

var armHeads = []string{"arm at", "sender alone", "angle", "float centre", ""}

// tableOf sets the table in a width; heads take two lines where the last column needs the room.
func (c *card) tableOf(width float64) armTable {
	t := armTable{width: width, words: tableWords.wrapped(c.scaleWords(), width)}
	var cells [][]string
	for _, p := range c.Places {
		cells = append(cells, []string{p.Label, quantity.Fixed(p.Ohms, 1) + " Ω", ink.Minus(quantity.Fixed(p.Angle, 1)) + "°", c.dropWords(p), p.Note})
	}
	if notes := t.columns(cells, func(head string) float64 { return tableHead.width(head) }); notes > t.notes() {
		t.columns(cells, longestWord)
	}
	for i, head := range armHeads {
		t.heads = append(t.heads, tableHead.wrapped(head, t.widths[i]+0.01))
	}
	for _, row := range cells {
		var lines [][]string
		for i, cell := range row {
			if i == len(row)-1 {
				lines = append(lines, few(tableCell.wrapped(cell, t.widths[i]), 3))
			} else {
				lines = append(lines, []string{tableCell.shortened(cell, t.widths[i])})
			}
		}
		t.rows = append(t.rows, lines)
	}
	return t
}

// longestWord is how wide a head is in lines of a word each.
func longestWord(head string) float64 {
	widest := 0.0
	for _, word := range ink.Words(head) {
		widest = math.Max(widest, tableHead.width(word))
	}
	return widest
}

// columns makes the columns as wide as what they hold, the last one as wide as there is room,
// and returns how wide that should be.
func (t *armTable) columns(cells [][]string, head func(string) float64) (notes float64) {
	t.widths = make([]float64, len(armHeads))
	last := len(armHeads) - 1
	t.widths[last] = t.width
	for i := range last {
		t.widths[i] = head(armHeads[i])
		for _, row := range cells {
			t.widths[i] = math.Max(t.widths[i], tableCell.width(row[i])+0.01)
		}
		if i == 0 {
			t.widths[i] = math.Min(t.widths[i], nameColumn)
		}
		t.widths[last] -= t.widths[i] + columnGap
	}
	for _, row := range cells {
		notes = math.Max(notes, tableCell.width(row[last]))
	}
	return notes
}

// notes is the room for what is said of a place.
func (t *armTable) notes() float64 { return t.widths[len(t.widths)-1] }

// fits tells whether there is room for what is said of a place.
func (t *armTable) fits() bool {
	for _, row := range t.rows {
		if len(row[len(row)-1]) > 0 && t.notes() < noteColumn {
			return false
		}
	}
	return t.notes() > -columnGap
}

// tall is how high a row is.
func tall(row [][]string) float64 {
	lines := 1
	for _, cell := range row {
		lines = max(lines, len(cell))
	}
	return rowStep + moreStep*float64(lines-1)
}

func (t *armTable) height() float64 {
	height := float64(len(t.words))*tableWords.line() + tall(t.heads) + 2
	for _, row := range t.rows {
		height += tall(row)
	}
	return height
}

// draw draws the table below and right of a point.
func (t *armTable) draw(p *pen, x, y float64) {
	for _, line := range t.words {
		y -= tableWords.line()
		p.text(tableWords, left, x, y+1, line)
	}
	row := func(l letters, cells [][]string) {
		at := x
		for i, cell := range cells {
			align, from := float64(left), at
			if i > 0 && i < len(cells)-1 {
				align, from = right, at+t.widths[i]
			}
			for k, line := range cell {
				p.text(l, align, from, y-rowStep+1.2-float64(k)*moreStep, line)
			}
			at += t.widths[i] + columnGap
		}
		y -= tall(cells)
	}
	row(tableHead, t.heads)
	p.lines(hair, x, y-0.4, x+t.width, y-0.4)
	y -= 1
	for _, cells := range t.rows {
		row(tableCell, cells)
	}
}

// scaleWords say how the drawing relates to the arm.
func (c *card) scaleWords() string {
	length := c.Units.Length.Size(c.Length)
	if !c.true() {
		return "The arm, " + length + ", is longer than the page: lay it along a line, or measure the height of the float centre against the axle."
	}
	words := "At its true size: the float centre on the rings, " + length + " from the axle."
	if c.tilt != 0 {
		words += " The base line, dash-dotted, is turned by " + quantity.Fixed(math.Abs(c.tilt), 0) + "° on the page to make room."
	}
	return words
}

// dropWords tells the drop in the units that people read.
func (c *card) dropWords(place ArmPlace) string {
	drop := c.Drop(place)
	way := "below"
	if drop < 0 {
		way, drop = "above", -drop
	}
	size := quantity.Fixed(drop, 1) + " mm"
	if gallons(c.Units) {
		size = c.Units.Length.Text(drop)
	}
	return size + " " + way
}
