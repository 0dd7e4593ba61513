package fullsize

import (
	"floatarc/plots/ink"
	"floatarc/tanks/quantity"
)

// Lengths of the lines by which a print is checked, mm.
const (
	checkMM    = 100.0
	checkInch  = 4 * quantity.MMPerInch
	checkWords = "This line is 100 mm: measure it. Print at 100 %, not “fit to page”."
)

// margin is what most printers leave white at the edges of a page, and a little more, mm.
const margin = 10.0

// checkHeight is the height that the check lines take at the foot of a page, mm.
func checkHeight(units quantity.System) float64 {
	if units.Name == quantity.Metric.Name {
		return 9
	}
	return 16
}

// checkLines draws the lines of known length at the foot of a page.
func (p *pen) checkLines(units quantity.System) {
	y := margin + 2
	if units.Name != quantity.Metric.Name {
		p.ruled(margin, y, checkInch)
		p.beside(regular(8), left, margin+checkInch+3, y, "This line is 4 in.")
		y += 7
	}
	p.ruled(margin, y, checkMM)
	l := regular(8)
	for i, line := range l.wrapped(checkWords, 62) {
		p.text(l, left, margin+checkMM+4, y+0.6-float64(i)*l.line(), line)
	}
}

// Sizes of check lines that stand one over the other, mm.
const (
	stackWidth = checkInch + 1
	stackStep  = 8.0
)

// stackHeight is how high they are, mm.
func stackHeight(units quantity.System) float64 {
	if units.Name == quantity.Metric.Name {
		return stackStep
	}
	return 2 * stackStep
}

// checkStack draws the lines of known length below and right of a point, each under its words.
func (p *pen) checkStack(units quantity.System, x, top float64) {
	say := func(words string, length float64) {
		p.text(regular(8), left, x, top-3.4, words)
		p.ruled(x, top-stackStep+2, length)
		top -= stackStep
	}
	if units.Name != quantity.Metric.Name {
		say("This line is 4 in.", checkInch)
	}
	say(checkWords, checkMM)
}

// checkUpright draws a line of 100 mm up the page: a printer may be true one way only.
func (p *pen) checkUpright(x, y float64) {
	p.lines(fine, x, y, x, y+checkMM)
	p.lines(fine, x-2, y+inset, x+2, y+inset)
	p.lines(fine, x-2, y+checkMM-inset, x+2, y+checkMM-inset)
	p.turned(regular(8), middle, x-1.5, y+checkMM/2, 90, "This line is 100 mm, too.")
}

// ruled draws a level line of a length with its ends.
func (p *pen) ruled(x, y, length float64) {
	p.lines(fine, x, y, x+length, y)
	p.lines(fine, x+inset, y-2, x+inset, y+2)
	p.lines(fine, x+length-inset, y-2, x+length-inset, y+2)
}

// inset keeps the strokes at the ends within the length: it is right from outer edge to
// outer edge. Half the width of a stroke, mm.
const inset = float64(ink.Thin/mm) / 2
