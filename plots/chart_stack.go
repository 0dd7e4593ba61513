package plots

import (
	"gonum.org/v1/plot/vg"

	"floatarc/plots/ink"
)

const (
	stackTall = 48 * vg.Millimeter
	stackGap  = 1 * vg.Millimeter
)

// stacked draws charts of one x axis above each other, the first at the top, under one title
// and over one key. Their fields are as wide as each other; only the last has numbers below it.
func stacked(name, what string, panels ...*chart) *Picture {
	var key []entry
	for i, c := range panels {
		key = append(key, c.key...)
		if i < len(panels)-1 {
			c.x.label, c.x.bare = "", true
		}
	}
	below := vg.Length(0)
	if len(key) > 0 {
		below = keyHeight(key, width-2*margin) + margin
	}
	tall := vg.Length(len(panels))*(stackTall+stackGap) - stackGap
	top := titleHeight(what, name) + 2*vg.Millimeter
	return &Picture{title: what + ": " + name, height: top + tall + below, paint: func(e *easel) {
		e.title(name, what)
		for i, r := range aligned(e, panels, below+tall) {
			panels[i].paint(e, r)
		}
		e.key(key, vg.Point{X: margin, Y: below - vg.Millimeter}, width-2*margin)
	}}
}

// aligned returns the boxes of charts from a height down, so that their fields begin and end
// below each other, however wide the numbers beside them are.
func aligned(e *easel, panels []*chart, from vg.Length) []vg.Rectangle {
	var boxes, fields []vg.Rectangle
	left, right := vg.Length(0), width
	for _, c := range panels {
		r := vg.Rectangle{Min: vg.Point{X: margin, Y: from - stackTall}, Max: vg.Point{X: width - margin, Y: from}}
		_, _, data := c.laid(e, r)
		boxes, fields = append(boxes, r), append(fields, data.Rectangle)
		left, right = max(left, data.Min.X), min(right, data.Max.X)
		from -= stackTall + stackGap
	}
	for i, f := range fields {
		boxes[i].Min.X += left - f.Min.X
		boxes[i].Max.X += right - f.Max.X
	}
	return boxes
}

// paintBareGrid draws the grid across x where its numbers stand elsewhere: the axis draws it
// at numbers only.
func (c *chart) paintBareGrid(e *easel, f field) {
	if !c.x.bare {
		return
	}
	for _, t := range (plain{counts: c.x.counts}).Ticks(c.x.low, c.x.high) {
		if t.Label != "" {
			e.line(stroke{ink.Light, ink.Hair, nil}, vg.Point{X: f.x(t.Value), Y: f.area.Min.Y}, vg.Point{X: f.x(t.Value), Y: f.area.Max.Y})
		}
	}
}
