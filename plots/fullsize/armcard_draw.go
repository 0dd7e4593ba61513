package fullsize

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"floatarc/plots/ink"
	"floatarc/tanks/quantity"
)

// point returns the page's point at an angle and a radius from the axle.
func (c *card) point(angle, radius float64) (x, y float64) {
	s, cos := sincos(angle)
	return c.x + radius*cos, c.y + radius*s
}

// drawScale draws a protractor within the lines, and the arc of the float centre.
func (c *card) drawScale(p *pen) {
	r := c.protractor()
	from, to := math.Floor(c.Low), math.Ceil(c.High)
	p.arc(hair, c.x, c.y, r, from, to-from)
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
		p.arc(dashed, c.x, c.y, c.Length, c.Low, c.High-c.Low)
	}
}

// true tells whether the float centre lies on the page.
func (c *card) true() bool { return c.radius >= c.Length-1e-9 }

// protractor is the radius of the angle scale, mm.
func (c *card) protractor() float64 { return 0.72 * c.radius }

// degree writes a degree of the scale, unless a line runs through it.
func (c *card) degree(p *pen, d, radius float64) {
	for _, place := range c.Places {
		if math.Abs(place.Angle-d)*math.Pi/180*radius < 3.4 {
			return
		}
	}
	x, y := c.point(d, radius)
	if math.Abs(y-c.y) < 1.5 {
		return // on the base line
	}
	p.beside(regular(6.5).in(ink.Grey), middle, x, y, quantity.Fixed(d, 0)+"°")
}

// drawLines draws the arm at every place, with labels outside.
func (c *card) drawLines(p *pen) {
	var sides [2][]ArmPlace
	for _, place := range c.Places {
		_, cos := sincos(place.Angle)
		sides[column(cos)] = append(sides[column(cos)], place)
	}
	for side, places := range sides {
		slices.SortStableFunc(places, func(a, b ArmPlace) int {
			_, ya := c.point(a.Angle, 1)
			_, yb := c.point(b.Angle, 1)
			return cmp.Compare(ya, yb)
		})
		var heights []float64
		for _, place := range places {
			_, y := c.point(place.Angle, c.radius)
			heights = append(heights, y)
		}
		for i, y := range spread(heights, labelStep, c.low+2, c.high-2) {
			c.drawLine(p, places[i], side, y)
		}
	}
}

// drawLine draws the arm at a place, and its label in a column at a height.
func (c *card) drawLine(p *pen, place ArmPlace, side int, y float64) {
	how := dialEnd
	if place.Stop {
		how = fine
	}
	x0, y0 := c.point(place.Angle, 6)
	x1, y1 := c.point(place.Angle, c.radius)
	p.lines(how, x0, y0, x1, y1)
	if c.true() {
		p.arc(fine, x1, y1, 1, 0, 360)
	}
	sign, align := 1.0, float64(left)
	if side == 0 {
		sign, align = -1, right
	}
	at := c.columns[side]
	p.lines(hair, x1+sign*1.4, y1, at-sign, y)
	l := strong(8).in(how.color)
	ohms := fmt.Sprintf("  %s Ω", quantity.Fixed(place.Ohms, 1))
	p.beside(l, align, at, y, shortened(l, place.Label, labelRoom-9-l.width(ohms))+ohms)
}

// Columns of the table: where they end, mm from its left edge.
var armColumns = []struct {
	name  string
	end   float64
	align float64
}{{"place", 0, left}, {"sender alone", 62, right}, {"angle", 82, right}, {"float centre", 122, right}, {"", 128, left}}

func (c *card) tableHeight() float64 { return float64(len(c.Places)+2)*rowStep + 3 }

// drawTable lists every place with the drop of the float centre, which serves where the
// arm is longer than the page.
func (c *card) drawTable(p *pen) {
	y := margin + checkHeight(c.Units) + 4 + c.tableHeight() - 2*rowStep
	row := func(l letters, cells []string) {
		for i, col := range armColumns {
			room := c.Paper.Width - 2*margin - col.end
			switch i {
			case 0:
				room = 38
			case 1, 2, 3:
				room = col.end - armColumns[i-1].end - 1
			}
			p.text(l, col.align, margin+col.end, y, shortened(l, cells[i], room))
		}
		y -= rowStep
	}
	p.text(regular(8).in(ink.Grey), left, margin, y+rowStep+1, c.scaleWords())
	row(strong(8), []string{"arm at", "sender alone", "angle", "float centre", ""})
	p.lines(hair, margin, y+rowStep-1.2, c.Paper.Width-margin, y+rowStep-1.2)
	for _, place := range c.Places {
		row(regular(8.5), []string{place.Label, quantity.Fixed(place.Ohms, 1) + " Ω", quantity.Fixed(place.Angle, 1) + "°", c.dropWords(place), place.Note})
	}
}

// scaleWords say how the drawing relates to the arm.
func (c *card) scaleWords() string {
	length := c.Units.Length.Size(c.Length)
	if c.true() {
		return "At its true size: the float centre on the rings, " + length + " from the axle."
	}
	return "The arm, " + length + ", is longer than the page: lay it along a line, or measure the height of the float centre against the axle."
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
