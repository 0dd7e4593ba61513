package fullsize

import (
	"math"

	"floatarc/geometry"
	"floatarc/plots/ink"
	"floatarc/tanks/quantity"
)

func (c *card) draw(p *pen) {
	head, table := c.headerOf(c.head.width), c.tableOf(c.table.width)
	head.drawAt(p, c.head, "")
	c.drawScale(p)
	c.drawLines(p)
	c.drawAxle(p)
	table.draw(p, c.table.x, c.table.top)
	if c.stands {
		p.checkLines(c.Units)
	} else {
		p.checkStack(c.Units, c.check.x, c.check.top)
	}
}

// base returns the ends of the base line.
func (c *card) base() (x0, y0, x1, y1 float64) {
	along := 0.0
	if _, cos := geometry.Sincos((c.Low + c.High) / 2); cos < 0 {
		along = 180
	}
	x0, y0 = c.point(along, -baseReach/2)
	x1, y1 = c.point(along, c.radius/2)
	return x0, y0, x1, y1
}

// drawAxle draws the cross and the base line.
func (c *card) drawAxle(p *pen) {
	x0, y0, x1, y1 := c.base()
	p.lines(stroke{width: ink.Thin, color: ink.Grey, dashes: ink.Chain}, x0, y0, x1, y1)
	p.cross(bold, c.x, c.y, axleCross)
	p.arc(fine, c.x, c.y, 2, 0, 360)
}

// drawLines draws the arm at every place, with labels outside.
func (c *card) drawLines(p *pen) {
	for _, l := range c.labels {
		x0, y0 := c.point(l.Angle, lineFrom)
		x1, y1 := c.point(l.Angle, c.radius)
		p.lines(lineOf(l.ArmPlace), x0, y0, x1, y1)
		if c.true() {
			p.arc(fine, x1, y1, 1, 0, 360)
		}
		p.lines(hair, x1+l.sign()*1.4, y1, l.x-l.sign(), l.y)
		align := float64(left)
		if l.side == 0 {
			align = right
		}
		p.beside(l.letters, align, l.x, l.y, l.text)
	}
}

// drawScale draws a protractor within the lines, and the arc of the float centre.
func (c *card) drawScale(p *pen) {
	r := c.protractor()
	from, to := math.Floor(c.Low), math.Ceil(c.High)
	p.arc(hair, c.x, c.y, r, from+c.tilt, to-from)
	for d := from; d <= to; d++ {
		length := 1.2
		switch {
		case math.Mod(d, 10) == 0:
			length = 3.2
			c.degree(p, d, r-length-2.4)
		case math.Mod(d, 5) == 0:
			length = 2.2
		}
		x0, y0 := c.point(d, r)
		x1, y1 := c.point(d, r-length)
		p.lines(hair, x0, y0, x1, y1)
	}
	if c.true() {
		p.arc(dashed, c.x, c.y, c.Length, c.Low+c.tilt, c.High-c.Low)
	}
}

// protractor is the radius of the angle scale, mm.
func (c *card) protractor() float64 { return 0.72 * c.radius }

// degree writes a degree of the scale, unless a line runs through it.
func (c *card) degree(p *pen, d, radius float64) {
	for _, place := range c.Places {
		if math.Abs(place.Angle-d)*math.Pi/180*radius < 3.4 {
			return
		}
	}
	if s, _ := geometry.Sincos(d); math.Abs(radius*s) < 1.5 {
		return // on the base line
	}
	x, y := c.point(d, radius)
	p.beside(regular(6.5).in(ink.Grey), middle, x, y, ink.Minus(quantity.Fixed(d, 0))+"°")
}
