package fullsize

import (
	"cmp"
	"slices"

	"floatarc/geometry"
	"floatarc/plots/ink"
	"floatarc/tanks/quantity"
)

// An armLabel is what stands beside the line of a place.
type armLabel struct {
	ArmPlace
	letters
	text string
	side int
	x, y float64 // the near end of its middle line
}

// side is that on which the label of a place stands: 0 left, 1 right of the swing.
func (c *card) side(p ArmPlace) int {
	if _, cos := geometry.Sincos(p.Angle + c.tilt); cos < -1e-9 {
		return 0
	}
	return 1
}

// sign is the way that goes away from the swing.
func (l armLabel) sign() float64 { return float64(2*l.side - 1) }

// box is where its letters stand.
func (l armLabel) box() box {
	w, h := l.width(l.text), l.line()/2
	if l.side == 0 {
		return box{l.x - w, l.y - h, l.x, l.y + h}
	}
	return box{l.x, l.y - h, l.x + w, l.y + h}
}

// label sets the labels clear of each other between two heights, each where a column is at
// its height.
func (c *card) label(low, high float64, column func(side int, y float64) float64) {
	c.labels = nil
	for side := range 2 {
		var labels []armLabel
		var heights []float64
		places := slices.DeleteFunc(slices.Clone(c.Places), func(p ArmPlace) bool { return c.side(p) != side })
		slices.SortStableFunc(places, func(a, b ArmPlace) int {
			_, ya := c.point(a.Angle, 1)
			_, yb := c.point(b.Angle, 1)
			return cmp.Compare(ya, yb)
		})
		for _, p := range places {
			_, y := c.point(p.Angle, c.radius)
			labels, heights = append(labels, labelOf(p, side)), append(heights, y)
		}
		for i, y := range ink.Spread(heights, labelStep, low, high) {
			labels[i].x, labels[i].y = column(side, y), y
		}
		c.labels = append(c.labels, labels...)
	}
}

func labelOf(p ArmPlace, side int) armLabel {
	l := strong(8).in(lineOf(p).color)
	ohms := "  " + quantity.Fixed(p.Ohms, 1) + " Ω"
	return armLabel{ArmPlace: p, letters: l, side: side, text: l.shortened(p.Label, labelWidest-l.width(ohms)) + ohms}
}

// lineOf is how the line of a place is drawn.
func lineOf(p ArmPlace) stroke {
	if p.Stop {
		return fine
	}
	return dialEnd
}
