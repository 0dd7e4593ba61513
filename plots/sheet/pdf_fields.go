package sheet

import "floatarc/plots/ink"

// How fields are set.
const (
	fieldsGap   = 2 * mm
	fieldGutter = 6 * mm
	fieldWide   = 38 * mm  // at least, with its label
	blankHigh   = 8 * mm   // from line to line, to write on
	labelMost   = 0.55     // of its column
	between     = 1.5 * mm // label, value and units
	filledPad   = 0.6 * mm
)

// put sets the fields row by row.
func (f Fields) put(p *press, at place) place {
	n := f.count(at.width)
	width := (at.width - float64(n-1)*fieldGutter) / float64(n)
	labels := f.labels(p, n, width)
	at = at.gap(fieldsGap)
	least := 0.
	if f.blank() {
		least = blankHigh
	}
	for i := 0; i < len(f.Fields); i += n {
		row := f.Fields[i:min(i+n, len(f.Fields))]
		cells := make([]piece, len(row))
		height := least
		for k, field := range row {
			cells[k] = p.field(field, labels[k], width)
			height = max(height, cells[k].height)
		}
		at = p.lay(p.room(at, height), piece{height, func(x, y float64) {
			for k, c := range cells {
				c.draw(x+float64(k)*(width+fieldGutter), y+height-c.height)
			}
		}})
	}
	return at
}

// count is the number of columns in a room.
func (f Fields) count(room float64) int {
	fit := int((room + fieldGutter) / (fieldWide + fieldGutter))
	return max(1, min(f.Columns, fit))
}

// labels are the widths of the labels in each column.
func (f Fields) labels(p *press, n int, width float64) []float64 {
	out := make([]float64, n)
	for i, field := range f.Fields {
		k := i % n
		out[k] = max(out[k], p.span(ink.Legible(field.Label), bodyStyle))
	}
	for k := range out {
		out[k] = min(out[k]+slack, labelMost*width)
	}
	return out
}

// field returns a label with its value or a line to write on, all on one lowest line.
func (p *press) field(f Field, label, width float64) piece {
	begin := label + between
	value := width - begin
	units := ""
	if f.Value == "" && f.Units != "" {
		units = p.cut(f.Units, bodyStyle, value/2)
		value -= p.span(units, bodyStyle) + between
	}
	most := int((p.height - 2*filledPad) / bodyStyle.lead)
	names := first(p.wrap(f.Label, bodyStyle, label), most)
	values := first(p.wrap(f.filled(), bodyStyle.in(true), value), most)
	height := float64(max(len(names), len(values)))*bodyStyle.lead + 2*filledPad
	return piece{height, func(x, y float64) {
		bottom := y + height - filledPad
		p.lines(x, bottom-float64(len(names))*bodyStyle.lead, bodyStyle, names)
		p.lines(x+begin, bottom-float64(len(values))*bodyStyle.lead, bodyStyle.in(true), values)
		p.text(x+width-p.span(units, bodyStyle), bottom-bodyStyle.lead, bodyStyle, units)
		if f.Value == "" {
			p.pen(ink.Hair, ink.Grey)
			p.doc.Line(x+begin, bottom, x+begin+value, bottom)
		}
	}}
}

// lines draws lines from a top left corner.
func (p *press) lines(x, y float64, s style, lines []string) {
	for i, line := range lines {
		p.text(x, y+float64(i)*s.lead, s, line)
	}
}
