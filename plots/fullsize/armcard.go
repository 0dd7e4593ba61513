package fullsize

import (
	"fmt"
	"math"

	"floatarc/plots/ink"
	"floatarc/tanks/quantity"
)

// An Arm is a sender's arm as a card shows it, seen from the side.
type Arm struct {
	Title     string
	Length    float64 // axle to float centre, straight, mm
	Low, High float64 // stops, degrees above the tank's x-y plane
	Places    []ArmPlace
	Units     quantity.System
	Paper     Paper
}

// An ArmPlace is a line of the card: a stop, or a mark of the dial.
type ArmPlace struct {
	Label string
	Angle float64 // degrees above the tank's x-y plane
	Ohms  float64 // of the sender alone
	Note  string  // such as where the needle stands; may be empty
	Stop  bool
}

// Drop returns how far below the axle the float centre lies at a place, mm; above it is
// negative.
func (a *Arm) Drop(p ArmPlace) float64 {
	s, _ := sincos(p.Angle)
	return -a.Length * s
}

func sincos(degrees float64) (sin, cos float64) { return math.Sincos(degrees * math.Pi / 180) }

// mostPlaces is the greatest number of lines of a card.
const mostPlaces = 24

// check says why an arm has no card.
func (a *Arm) check() error {
	switch {
	case !(a.Length > 0) || math.IsInf(a.Length, 0):
		return fmt.Errorf("an arm of %g mm, expected a length above 0", a.Length)
	case !(a.Low < a.High) || a.High-a.Low > 360:
		return fmt.Errorf("stops at %g° and %g°, expected the low one to be the smaller, by a turn at most", a.Low, a.High)
	case len(a.Places) == 0 || len(a.Places) > mostPlaces:
		return fmt.Errorf("%d lines on the card of an arm, expected 1 to %d", len(a.Places), mostPlaces)
	}
	for _, p := range a.Places {
		if !(math.Abs(p.Angle) <= 360) || !(p.Ohms >= 0) || math.IsInf(p.Ohms, 0) {
			return fmt.Errorf("line %q at %g° with %g ohm, expected an angle within a turn and a resistance", p.Label, p.Angle, p.Ohms)
		}
	}
	return nil
}

// The words of the card.
const (
	armUse = "Pin the sender's axle on the cross, its mounting face as it lies in the tank, the base line level with the tank. Lay the straight from axle to float centre, bends or not, on a line: an ohmmeter on the sender alone must show the ohms beside it."
	armBox = "Wired to the conditioner instead of the tank's sender, it stands for the fuel at that mark. Away from any tank, with no fuel on it."
)

// ArmCard returns the card of an arm, at its true size.
func ArmCard(a *Arm) (*Page, error) {
	if err := a.check(); err != nil {
		return nil, err
	}
	c := newCard(a)
	if c.radius < leastRadius {
		return nil, fmt.Errorf("%d lines leave %.0f mm of the page for the arm, expected %d mm or more: fewer lines", len(a.Places), c.radius, leastRadius)
	}
	return &Page{title: a.Title + ": arm", paper: a.Paper, draw: c.draw}, nil
}

// A card is an arm laid out on its page.
type card struct {
	*Arm
	head         header
	low, high    float64 // of the drawing on the page, mm
	x, y         float64 // of the axle
	radius       float64 // to which lines run
	columns      [2]float64
	labelColumns [2]bool // whether there are lines to the left, to the right
}

// Sizes of the card, mm.
const (
	leastRadius = 35
	labelRoom   = 35.0 // beside the drawing, for labels and their leaders
	labelStep   = 4.4
	rowStep     = 4.6
	overAxle    = 8.0 // around the axle
	baseReach   = 14.0
)

func newCard(a *Arm) *card {
	c := &card{Arm: a, head: header{title: a.Title + ": arm of the sender"}}
	c.head.add(regular(9), armUse, a.Paper)
	c.head.add(regular(9), armBox, a.Paper)
	c.low = margin + checkHeight(a.Units) + 5 + c.tableHeight()
	c.high = a.Paper.Height - margin - c.head.height() - 3
	c.place()
	return c
}

// place finds the axle and the greatest radius at which the swing fits.
func (c *card) place() {
	left, right, down, up := c.reach()
	for _, p := range c.Places {
		_, cos := sincos(p.Angle)
		c.labelColumns[column(cos)] = true
	}
	width, height := c.Paper.Width-2*margin, c.high-c.low-2*overAxle
	for _, used := range c.labelColumns {
		if used {
			width -= labelRoom
		}
	}
	c.radius = math.Min((width-2*overAxle)/(left+right), height/(down+up))
	if c.Length <= c.radius {
		c.radius = c.Length
	}
	from := margin + overAxle
	if c.labelColumns[0] {
		from += labelRoom
	}
	spare := width - 2*overAxle - c.radius*(left+right)
	c.x = from + spare/2 + c.radius*left
	c.y = c.high - overAxle - (height-c.radius*(down+up))/2 - c.radius*up
	c.columns = [2]float64{c.x - c.radius*left - 8, c.x + c.radius*right + 8}
}

// reach returns how far the swing goes from the axle each way, of a radius of 1.
func (c *card) reach() (left, right, down, up float64) {
	angles := []float64{c.Low, c.High}
	for _, p := range c.Places {
		angles = append(angles, p.Angle)
	}
	for quarter := math.Ceil(c.Low / 90); quarter*90 <= c.High; quarter++ {
		angles = append(angles, quarter*90)
	}
	for _, angle := range angles {
		s, cos := sincos(angle)
		left, right = math.Max(left, -cos), math.Max(right, cos)
		down, up = math.Max(down, -s), math.Max(up, s)
	}
	return left, right, down, up
}

// column is that of the labels of a line: 0 left, 1 right of the swing.
func column(cos float64) int {
	if cos < -1e-9 {
		return 0
	}
	return 1
}

func (c *card) draw(p *pen) {
	c.head.draw(p, c.Paper, "")
	c.drawScale(p)
	c.drawLines(p)
	c.drawAxle(p)
	c.drawTable(p)
	p.checkLines(c.Units)
}

// drawAxle draws the cross and the base line.
func (c *card) drawAxle(p *pen) {
	reach := c.radius * 0.5
	_, cos := sincos((c.Low + c.High) / 2)
	sign := 1.0
	if cos < 0 {
		sign = -1
	}
	p.lines(stroke{width: ink.Thin, color: ink.Grey, dashes: ink.Chain}, c.x-sign*baseReach/2, c.y, c.x+sign*reach, c.y)
	p.cross(bold, c.x, c.y, 4)
	p.arc(fine, c.x, c.y, 2, 0, 360)
}
