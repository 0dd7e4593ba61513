package fullsize

import (
	"fmt"
	"math"

	"floatarc/geometry"
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
	Paper     ink.Paper
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
	s, _ := geometry.Sincos(p.Angle)
	return -a.Length * s
}

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

// ArmCard returns the card of an arm, at its true size if it has room upright or across.
func ArmCard(a *Arm) (*Page, error) {
	if err := a.check(); err != nil {
		return nil, err
	}
	c := newCard(a)
	if c.radius < leastRadius {
		return nil, fmt.Errorf("%d lines leave %.0f mm of the page for the arm, expected %d mm or more: fewer lines", len(a.Places), c.radius, leastRadius)
	}
	return &Page{title: a.Title + ": arm", paper: c.paper, draw: c.draw}, nil
}

// A card is an arm laid out on its page.
type card struct {
	*Arm
	paper  ink.Paper
	tilt   float64 // of the base line on the page, degrees
	x, y   float64 // of the axle
	radius float64 // to which lines run
	labels []armLabel
	head   spot
	table  spot
	check  spot
	stands bool // upright
	known  *setWords
}

// A spot is where a block of words stands: its upper left corner, and its width.
type spot struct{ x, top, width float64 }

// Sizes of the card, mm.
const (
	leastRadius = 35
	labelRoom   = 35.0 // beside the drawing, for labels and their leaders
	labelWidest = labelRoom - 9
	labelStep   = 4.4
	overAxle    = 8.0 // around the axle
	axleCross   = 4.0
	lineFrom    = 6.0 // where the lines begin
	baseReach   = 14.0
)

// worthTurning is by how much lines must be longer on a page that lies across, where even
// that is too small for the arm.
const worthTurning = 1.15

// newCard lays the card out upright, or across where the arm needs it.
func newCard(a *Arm) *card {
	c := uprightCard(a)
	if c.true() {
		return c
	}
	if wide := acrossCard(a); wide != nil && (wide.true() || wide.radius > worthTurning*c.radius) {
		return wide
	}
	return c
}

// uprightCard has the words on top, the table and the check lines at the foot.
func uprightCard(a *Arm) *card {
	c := &card{Arm: a, paper: a.Paper, stands: true}
	wide, tall := inMM(a.Paper.Width), inMM(a.Paper.Height)
	room := wide - 2*margin
	c.head = spot{margin, tall - margin, room}
	table := c.tableOf(room)
	low := margin + checkHeight(a.Units) + 4 + table.height()
	c.table = spot{margin, low, room}
	c.place(low+1, tall-margin-c.headerOf(room).height()-3)
	return c
}

// mostTitles is how many lines the title may take.
const mostTitles = 3

// headerOf is the words of the card in a width.
func (c *card) headerOf(width float64) header {
	h := header{title: c.Title + ": arm of the sender"}
	h.titles = few(strong(titleSize).wrapped(h.title, width), mostTitles)
	h.within(regular(9), armUse, width)
	h.within(regular(9), armBox, width)
	return h
}

// place finds the axle and the greatest radius at which the swing fits between two heights.
func (c *card) place(low, high float64) {
	left, right, down, up := c.reach()
	var used [2]bool
	for _, p := range c.Places {
		used[c.side(p)] = true
	}
	width, height := inMM(c.paper.Width)-2*margin, high-low-2*overAxle
	from := margin + overAxle
	for side, use := range used {
		if use {
			width -= labelRoom
		}
		if use && side == 0 {
			from += labelRoom
		}
	}
	c.radius = math.Min(c.Length, math.Min((width-2*overAxle)/(left+right), height/(down+up)))
	spare := width - 2*overAxle - c.radius*(left+right)
	c.x = from + spare/2 + c.radius*left
	c.y = high - overAxle - (height-c.radius*(down+up))/2 - c.radius*up
	columns := [2]float64{c.x - c.radius*left - 8, c.x + c.radius*right + 8}
	c.label(low+2, high-2, func(side int, _ float64) float64 { return columns[side] })
}

// reach returns how far the swing goes from the axle each way, of a radius of 1.
func (c *card) reach() (left, right, down, up float64) {
	angles := []float64{c.Low, c.High}
	for _, p := range c.Places {
		angles = append(angles, p.Angle)
	}
	for quarter := math.Ceil((c.Low + c.tilt) / 90); quarter*90 <= c.High+c.tilt; quarter++ {
		angles = append(angles, quarter*90-c.tilt)
	}
	for _, angle := range angles {
		s, cos := geometry.Sincos(angle + c.tilt)
		left, right = math.Max(left, -cos), math.Max(right, cos)
		down, up = math.Max(down, -s), math.Max(up, s)
	}
	return left, right, down, up
}

// true tells whether the float centre lies on the page.
func (c *card) true() bool { return c.radius >= c.Length-1e-9 }

// point returns the page's point at an angle and a radius from the axle.
func (c *card) point(angle, radius float64) (x, y float64) {
	s, cos := geometry.Sincos(angle + c.tilt)
	return c.x + radius*cos, c.y + radius*s
}
