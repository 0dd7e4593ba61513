package plots

import (
	"gonum.org/v1/plot/vg"

	"floatarc/plots/ink"
)

// markColumn is the width of the column of a table that names the marks.
const markColumn = 26 * vg.Millimeter

// tableFoot writes the numbers as a table, a line for each mark: a dial may have more of
// them than an arc has room for.
func (s Subject) tableFoot(rows []dialRow) foot {
	wide := (width - 2*margin - markColumn) / vg.Length(len(rows))
	tallest := 0
	heads := make([][]string, len(rows))
	for k, r := range rows {
		heads[k] = lines(firm, r.name, wide-2*vg.Millimeter)
		tallest = max(tallest, len(heads[k]))
	}
	const line = 1.45 * ink.Small
	arc := lowest(fanRadius) + vg.Millimeter
	headTall := vg.Length(tallest) * keyLine
	return foot{arc + headTall + line*(vg.Length(len(s.Rig.Dial.Marks))+0.5), func(e *easel, arcTop vg.Length) {
		right := func(k int) vg.Length { return margin + markColumn + wide*vg.Length(k+1) }
		y := arcTop - arc - headTall
		for k, h := range heads {
			for i, l := range h {
				at := vg.Point{X: right(k), Y: y + keyLine*vg.Length(len(h)-i)}
				e.write(firm.of(darker(rows[k].stroke.color)).aligned(-1, -1), at, l)
			}
		}
		e.line(stroke{ink.Grey, ink.Thin, nil}, vg.Point{X: margin, Y: y - vg.Millimeter}, vg.Point{X: width - margin, Y: y - vg.Millimeter})
		for i, m := range s.Rig.Dial.Marks {
			at := vg.Point{X: margin, Y: y - line*(vg.Length(i)+0.4)}
			e.write(firm.aligned(0, -1), at, firm.cut(m.Label, markColumn-2*vg.Millimeter))
			for k, r := range rows {
				e.write(small.of(darker(r.stroke.color)).aligned(-1, -1), vg.Point{X: right(k), Y: at.Y}, small.cut(r.litres[i], wide-vg.Millimeter))
			}
		}
	}}
}
