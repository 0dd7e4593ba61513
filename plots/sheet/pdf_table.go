package sheet

import (
	"slices"

	"floatarc/plots/ink"
)

const tableGap = 3 * mm

// A grid is a table set in a width.
type grid struct {
	widths []float64
	width  float64
	head   piece
	rows   []piece
}

// put sets the table; a short one on one sheet.
func (t Table) put(p *press, at place) place {
	g := t.grid(p, at.width)
	at = at.gap(tableGap)
	begin := g.head.height
	for i, r := range g.rows {
		if i < 2 || g.short(p) {
			begin += r.height
		}
	}
	at = p.lay(p.room(at, begin), g.head)
	for _, r := range g.rows {
		if !p.fits(at, r.height) {
			at = p.lay(at.next(), g.head)
		}
		at = p.lay(at, r)
	}
	return at
}

// short is whether the table takes so little of a sheet that none should end within it.
func (g grid) short(p *press) bool {
	all := g.head.height
	for _, r := range g.rows {
		all += r.height
	}
	return all <= p.height/3
}

func (t Table) grid(p *press, room float64) grid {
	g := grid{widths: t.widths(p, room)}
	for _, w := range g.widths {
		g.width += w
	}
	g.head = t.head(p, g)
	for _, r := range t.Rows {
		g.rows = append(g.rows, t.row(p, g, r)...)
	}
	return g
}

// head returns the head, its lowest lines level with each other. It takes no more than a
// third of a sheet.
func (t Table) head(p *press, g grid) piece {
	most := int(p.height / 3 / cellStyle.lead)
	names, units := make([][]string, len(g.widths)), make([][]string, len(g.widths))
	name, unit := 0, 0
	for i, c := range t.Columns {
		names[i] = first(p.wrap(c.Head, cellStyle.in(true), g.inner(i)), most)
		name = max(name, len(names[i]))
		if c.Units != "" {
			units[i] = first(p.wrap(c.Units, unitsStyle, g.inner(i)), most)
		}
		unit = max(unit, len(units[i]))
	}
	below := float64(unit) * unitsStyle.lead
	height := float64(name)*cellStyle.lead + below + 2*cellY
	return piece{height, func(x, y float64) {
		bottom := y + height - cellY - below
		p.rule(x, y, g.width, false)
		p.rule(x, y+height, g.width, true)
		for i, c := range t.Columns {
			p.aligned(x, bottom-float64(len(names[i]))*cellStyle.lead, g.widths[i], 0, c.Align, cellStyle.in(true), names[i])
			p.aligned(x, bottom, g.widths[i], 0, c.Align, unitsStyle, units[i])
			x += g.widths[i]
		}
	}}
}

// first returns at most n lines.
func first(lines []string, n int) []string {
	if len(lines) <= n {
		return lines
	}
	lines = slices.Clone(lines[:n])
	lines[n-1] = "…"
	return lines
}

// inner is the room for letters in a column.
func (g grid) inner(column int) float64 { return g.widths[column] - 2*cellX }

// row returns a row; one that is higher than a sheet in several pieces.
func (t Table) row(p *press, g grid, r Row) []piece {
	most := max(1, int((p.height-g.head.height-2*cellY)/cellStyle.lead))
	cells := make([][]string, len(t.Columns))
	high := 0
	for i, c := range t.Columns {
		if i < len(r.Cells) && r.Cells[i] != "" {
			cells[i] = p.wrap(r.Cells[i], cellStyle.in(r.Strong), g.inner(i)-c.mark())
		}
		high = max(high, len(cells[i]))
	}
	if high <= most {
		return []piece{t.cells(p, g, cells, r.Strong)}
	}
	var out []piece
	for from := 0; from < high; from += most {
		part := make([][]string, len(cells))
		for i, lines := range cells {
			part[i] = lines[min(from, len(lines)):min(from+most, len(lines))]
		}
		out = append(out, t.cells(p, g, part, r.Strong))
	}
	return out
}

// cells returns a row of lines.
func (t Table) cells(p *press, g grid, cells [][]string, strong bool) piece {
	height := cellStyle.lead + 2*cellY
	for i, c := range t.Columns {
		height = max(height, float64(len(cells[i]))*cellStyle.lead+2*cellY)
		if c.Kind != Text {
			height = max(height, boxHigh)
		}
	}
	return piece{height, func(x, y float64) {
		p.rule(x, y+height, g.width, strong)
		if strong {
			p.rule(x, y, g.width, true)
		}
		for i, c := range t.Columns {
			p.cell(x, y, g.widths[i], height, c, cellStyle.in(strong), cells[i])
			x += g.widths[i]
		}
	}}
}

// cell draws what a cell holds, at half its height.
func (p *press) cell(x, y, width, height float64, c Column, s style, lines []string) {
	p.pen(ink.Hair, ink.Grey)
	mark := 0.
	switch c.Kind {
	case Blank:
		// Above and below it are rules, perhaps heavy ones.
		p.doc.Line(x, y, x, y+height)
		p.doc.Line(x+width, y, x+width, y+height)
	case Tick:
		mark = c.mark()
		left := x + cellX
		if len(lines) == 0 {
			left = x + c.Align.begin(width, square)
		}
		p.pen(ink.Thin, ink.Black)
		p.doc.Rect(left, y+(height-square)/2, square, square, "D")
	}
	p.aligned(x, y+(height-float64(len(lines))*s.lead)/2, width, mark, c.Align, s, lines)
}

// aligned draws lines in a cell, behind a mark.
func (p *press) aligned(x, y, width, mark float64, a Align, s style, lines []string) {
	for i, line := range lines {
		at := a.begin(width-mark, p.span(line, s))
		if mark > 0 {
			at = cellX + mark
		}
		p.text(x+at, y+float64(i)*s.lead, s, line)
	}
}

// begin is where what is so long begins in a cell of a width.
func (a Align) begin(width, long float64) float64 {
	switch a {
	case Right:
		return width - cellX - long
	case Centre:
		return (width - long) / 2
	}
	return cellX
}

// rule draws a line across a table.
func (p *press) rule(x, y, width float64, heavy bool) {
	p.pen(ink.Hair, ink.Grey)
	if heavy {
		p.pen(ink.Thin, ink.Black)
	}
	p.doc.Line(x, y, x+width, y)
}
