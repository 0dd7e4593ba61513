package plots

import (
	"gonum.org/v1/plot/vg"

	"floatarc/plots/ink"
)

// An entry of a key is a sample and what it stands for.
type entry struct {
	sample func(*easel, vg.Rectangle)
	text   string
}

const (
	sampleWide = 9 * vg.Millimeter
	sampleTall = 3 * vg.Millimeter
	keyLine    = 1.2 * ink.Small
)

// keyHeight returns how tall a key of a width is.
func keyHeight(entries []entry, width vg.Length) vg.Length {
	tall := vg.Length(0)
	for _, k := range entries {
		tall += vg.Length(len(lines(small, k.text, width-sampleWide-2*vg.Millimeter)))*keyLine + vg.Millimeter
	}
	return tall
}

// key writes a key down from a point.
func (e *easel) key(entries []entry, at vg.Point, width vg.Length) {
	for _, k := range entries {
		top := at.Y - (keyLine-sampleTall)/2
		k.sample(e, vg.Rectangle{Min: vg.Point{X: at.X, Y: top - sampleTall}, Max: vg.Point{X: at.X + sampleWide, Y: top}})
		for _, l := range lines(small, k.text, width-sampleWide-2*vg.Millimeter) {
			e.write(small.aligned(0, -1), vg.Point{X: at.X + sampleWide + 2*vg.Millimeter, Y: at.Y}, l)
			at.Y -= keyLine
		}
		at.Y -= vg.Millimeter
	}
}

// lineSample is a line across the middle.
func lineSample(s stroke) func(*easel, vg.Rectangle) {
	return func(e *easel, r vg.Rectangle) {
		y := (r.Min.Y + r.Max.Y) / 2
		e.line(s, vg.Point{X: r.Min.X, Y: y}, vg.Point{X: r.Max.X, Y: y})
	}
}

func middleOf(r vg.Rectangle) vg.Point {
	return vg.Point{X: (r.Min.X + r.Max.X) / 2, Y: (r.Min.Y + r.Max.Y) / 2}
}
