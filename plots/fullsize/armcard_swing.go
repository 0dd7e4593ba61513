package fullsize

import (
	"math"
	"slices"
)

// lineClear is how far words keep from lines, mm.
const lineClear = 3.0

// swing marks what the arm takes on the page, with its labels.
func (c *card) swing() *room {
	r := newRoom(inMM(c.paper.Width), inMM(c.paper.Height))
	bx0, by0, bx1, by1 := c.base()
	lines := [][4]float64{{bx0, by0, bx1, by1}}
	for _, p := range append([]ArmPlace{{Angle: c.Low}, {Angle: c.High}}, c.Places...) {
		x, y := c.point(p.Angle, c.radius)
		lines = append(lines, [4]float64{c.x, c.y, x, y})
	}
	r.mark(func(x, y float64) bool {
		away := math.Hypot(x-c.x, y-c.y)
		return away < overAxle || away < c.radius+lineClear &&
			(c.within(x, y) || slices.ContainsFunc(lines, func(l [4]float64) bool { return toLine(x, y, l) < lineClear }))
	})
	for _, l := range c.labels {
		b := l.box()
		r.mark(func(x, y float64) bool { return x > b.x0-5 && x < b.x1+5 && y > b.y0-1.5 && y < b.y1+1.5 }) // its leader with it
	}
	return r
}

// within tells whether a point lies between the stops.
func (c *card) within(x, y float64) bool {
	turn := math.Atan2(y-c.y, x-c.x)*180/math.Pi - c.tilt - c.Low
	return turn-360*math.Floor(turn/360) <= c.High-c.Low
}

// toLine returns how far a point lies from a straight line between two.
func toLine(x, y float64, l [4]float64) float64 {
	x0, y0 := l[0], l[1]
	dx, dy := l[2]-x0, l[3]-y0
	share := 0.0
	if long := dx*dx + dy*dy; long > 0 {
		share = math.Max(0, math.Min(1, ((x-x0)*dx+(y-y0)*dy)/long))
	}
	return math.Hypot(x-x0-share*dx, y-y0-share*dy)
}
