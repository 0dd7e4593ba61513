package plots

import (
	"gonum.org/v1/plot/vg"

	"floatarc/plots/ink"
)

// Sizes of the sketch of a sender, mm and degrees.
const (
	axleX, axleY = 28.0, 34.0
	armLong      = 36.0
	lowAngle     = -40.0
	highAngle    = 22.0
	floatSize    = 4.5
)

// SenderSketch draws a sender with an arm on both stops and its float from the front, with
// letters for what is measured of it.
func SenderSketch(letter func(SketchPart) string) *Picture {
	return newSketch("The sender: what to measure on the bench. Not to scale", 62, letter, func(s sketch) {
		s.body()
		s.line(way, bow(axleX, axleY, armLong, armLong, lowAngle, highAngle)...)
		s.bent(highAngle, stroke{ink.Grey, ink.Medium, ink.Solid})
		s.bent(lowAngle, rest)
		s.angles()
		s.pin(at(axleX, axleY))
		s.stops()
		s.front(98, 15)
	})
}

// body draws the flange that the axle hangs from.
func (s sketch) body() {
	const flange = 47.0
	s.line(stroke{ink.Black, 2 * ink.Thick, ink.Solid}, ats(axleX-11, flange, axleX+11, flange)...)
	s.line(shell, ats(axleX-4, flange, axleX-4, axleY-3, axleX+3, axleY-3, axleX+3, axleY+3)...)
	s.line(thin, ats(axleX+3, axleY+3, axleX+3, flange)...)
	s.sayLeft(small, axleX-6, axleY-1, "axle")
}

// bent draws an arm with a bend at an angle of its straight line, and that line.
func (s sketch) bent(angle float64, line stroke) {
	x, y := turned(axleX, axleY, armLong, angle)
	bx, by := turned(axleX, axleY, 0.62*armLong, angle-11)
	around := bow(x, y, floatSize, floatSize, 0, 360)
	s.area(ink.White, around...)
	s.loop(line, around...)
	s.line(line, ats(axleX, axleY, bx, by, x, y)...)
	s.line(stroke{ink.Grey, ink.Thin, ink.Chain}, ats(axleX, axleY, x, y)...)
	s.dot(line.color, at(x, y), 0.8*vg.Millimeter)
}

// angles draws the level line, the angles of the stops and the length of the arm.
func (s sketch) angles() {
	const reach = 54.0
	s.arrow(stroke{ink.Grey, ink.Thin, ink.Dotted}, axleX, axleY, axleX+reach, axleY)
	s.tip(stroke{ink.Grey, ink.Medium, ink.Solid}, axleX, axleY, axleX+reach, axleY)
	s.tag(axleX+reach+tagSize+0.8, axleY, s.letter(Heading))
	s.say(quiet, axleX+armLong+2.5, axleY+1.2, "level")
	s.sweep(26, 0, lowAngle, -14, s.letter(StopLow))
	s.sweep(24, 0, highAngle, highAngle/2, s.letter(StopHigh))
	x, y := turned(axleX, axleY, 0.42*armLong, lowAngle)
	s.tag(x, y, s.letter(ArmLength))
}

// sweep draws an angle about the axle with its letter.
func (s sketch) sweep(far, from, to, at float64, text string) {
	s.line(measured, bow(axleX, axleY, far, far, from, to)...)
	before := from + 0.8*(to-from)
	x0, y0 := turned(axleX, axleY, far, before)
	x1, y1 := turned(axleX, axleY, far, to)
	s.tip(measured, x0, y0, x1, y1)
	x, y := turned(axleX, axleY, far, at)
	s.tag(x, y, text)
}

// stops names the places where the ohmmeter is read.
func (s sketch) stops() {
	read := func(x, y float64, where, text string) {
		s.tag(x, y, text)
		s.say(small, x+tagSize+1, y-1.1, where)
	}
	x, y := turned(axleX, axleY, armLong, lowAngle)
	read(x+9, y, "low stop, ohms", s.letter(OhmsLow))
	x, y = turned(axleX, axleY, armLong, highAngle)
	read(x+9, y, "high stop, ohms", s.letter(OhmsHigh))
	x, y = turned(axleX, axleY, armLong, -17)
	read(x, y, "between, ohms", s.letter(OhmsBetween))
}

// front draws the float from the front as it lies in fuel, its lower left corner at a point.
func (s sketch) front(x, y float64) {
	const wide, tall, deep = 13.0, 9.0, 5.5
	s.area(ink.Fuel, ats(x-2, y-2, x+wide+2, y-2, x+wide+2, y+deep, x-2, y+deep)...)
	s.area(ink.White, ats(x, y, x+wide, y, x+wide, y+tall, x, y+tall)...)
	s.line(rest, ats(x, y, x+wide, y, x+wide, y+tall, x, y+tall, x, y)...)
	s.line(thin, ats(x-2, y+deep, x, y+deep)...)
	s.line(thin, ats(x+wide, y+deep, x+wide+2, y+deep)...)
	s.line(rest, ats(x+wide/2, y+tall/2, x+wide/2, y+tall+5)...)
	s.dot(ink.Black, at(x+wide/2, y+tall/2), 0.8*vg.Millimeter)
	s.lying(x, x+wide, y-5.5, y, s.letter(FloatLong))
	s.standing(x-4.2, y, y+tall, x, x, s.letter(FloatAcross))
	s.standing(x+wide+4.2, y, y+deep, x+wide, x+wide, s.letter(Draft))
	s.write(firm.aligned(-0.5, 0), at(x+wide/2, y+tall+6), "Float, in fuel")
}
