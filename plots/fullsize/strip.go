package fullsize

import (
	"fmt"
	"math"

	"floatarc/plots/ink"
)

// Sizes across the strip, mm, and of its letters, points.
const (
	stripWidth = 24.0
	majorTick  = 4.5
	someTick   = 3.5 // short, with a label
	minorTick  = 2.5
	markTick   = 2.5
	leader     = 2.0
	gap        = 0.6
	markWidest = 11.0
	lane       = 17.0 // beside the strip, for what is said of a piece

	labelSize = 8.0
	markSize  = 6.5
	markLine  = 2.9 // mm from one mark to the next
	headGap   = 7.0 // mm from the last tick to the words on the head
)

// A strip is a dipstick ready to be drawn.
type strip struct {
	*Dipstick
	ticks        []Graduation
	marks        []named
	below, above []string
	width        float64
	highest      float64 // mm above the foot: of the last tick that could be
	head         []headLine
	pieces       []piece
}

// A headLine is a line of words on the head of the strip.
type headLine struct {
	letters
	text string
}

func newStrip(d *Dipstick) *strip {
	s := &strip{Dipstick: d, ticks: d.Graduations(), highest: d.Along(d.High)}
	s.marks, s.below, s.above = d.marks(markLine)
	widest, mark := 0.0, 0.0
	for _, t := range s.ticks {
		widest = math.Max(widest, tickLetters(t).width(t.Label))
	}
	for i, m := range s.marks {
		s.marks[i].Label = regular(markSize).shortened(m.Label, markWidest)
		mark = math.Max(mark, regular(markSize).width(s.marks[i].Label))
	}
	s.width = math.Max(stripWidth, majorTick+gap+widest+1+mark+gap+leader+markTick)
	s.write()
	return s
}

// write sets the words on the head.
func (s *strip) write() {
	add := func(l letters, text string, most int) {
		for _, line := range few(l.wrapped(text, s.width-2), most) {
			s.head = append(s.head, headLine{l, line})
		}
	}
	add(regular(6).in(ink.Grey), s.Title, 4)
	add(regular(6), s.Stands, 5)
	add(strong(10), s.unit(), 1) // nearest to the scale
}

// length of the strip from the foot to the top of its head, mm.
func (s *strip) length() float64 {
	length := s.highest + headGap + 2
	for _, h := range s.head {
		length += h.line()
	}
	return length
}

// labels are the places along the strip at which something is written.
func (s *strip) labels() []float64 {
	var out []float64
	for _, t := range s.ticks {
		if t.Label != "" {
			out = append(out, t.Along)
		}
	}
	for _, m := range s.marks {
		out = append(out, m.label)
	}
	return out
}

// drawPiece draws a piece with its lower left corner at a point.
func (s *strip) drawPiece(p *pen, c piece, x, y float64) {
	up := func(along float64) float64 { return y + along - c.from }
	if c.tab {
		p.fill(ink.Fuel, x, up(c.joint()), x+s.width, up(c.to))
	}
	s.drawEdges(p, c, x, up)
	s.drawTicks(p, c, x, up)
	s.drawMarks(p, c, x, up)
	if !c.tab {
		s.drawHead(p, x, up(c.to))
	}
	p.text(strong(11), left, x, up(c.to)+2, c.letter)
	p.text(regular(7).in(ink.Grey), left, x+6, up(c.to)+2, s.unit())
}

// drawEdges draws what is cut, and how pieces join.
func (s *strip) drawEdges(p *pen, c piece, x float64, up func(float64) float64) {
	low, high, far := up(c.from), up(c.to), x+s.width
	p.lines(fine, x, low, x, high, far, high, far, low)
	p.lines(bold, x-2, low, far+2, low)
	say := regular(6.5)
	join := func(from float64, upper, lower string) {
		for _, edge := range []float64{x, far} {
			p.cross(hair, edge, up(from+tabLength/2), 2.5)
		}
		p.beside(say, left, far+3, up(from)+1.4, fmt.Sprintf("%s joins", upper))
		p.beside(say, left, far+3, up(from)-1.4, fmt.Sprintf("%s here", lower))
	}
	if c.tab {
		p.lines(dashed, x, up(c.joint()), far, up(c.joint()))
		join(c.joint(), c.next, c.letter)
		p.beside(say.in(ink.Grey), left, far+3, up(c.to)-2, "glue tab")
	}
	if c.from > 0 {
		join(c.from, c.letter, c.before)
		return
	}
	p.text(say, left, x, low-4, "foot of the stick, 0:")
	p.text(say, left, x, low-7, "cut on this line")
}

func (s *strip) drawTicks(p *pen, c piece, x float64, up func(float64) float64) {
	for _, t := range s.ticks {
		if t.Along < c.from-1e-9 || t.Along > c.to+1e-9 {
			continue
		}
		length, how := minorTick, hair
		how.color = ink.Black
		switch {
		case t.Major:
			length, how = majorTick, fine
		case t.Label != "":
			length = someTick
		}
		p.lines(how, x, up(t.Along), x+length, up(t.Along))
		if t.Label != "" && !(c.tab && t.Along > c.joint()) {
			p.beside(tickLetters(t), left, x+length+gap, up(t.Along), t.Label)
		}
	}
}

// tickLetters are those of a label: round quantities are found at arm's length.
func tickLetters(t Graduation) letters {
	if t.Round {
		return strong(labelSize)
	}
	return regular(labelSize)
}

func (s *strip) drawMarks(p *pen, c piece, x float64, up func(float64) float64) {
	far := x + s.width
	for _, m := range s.marks {
		how := fillEnd
		if m.Dial {
			how = dialEnd
		}
		inside := func(along float64) bool { return along >= c.from-1e-9 && along <= c.to+1e-9 }
		if inside(m.along) {
			p.lines(how, far-markTick, up(m.along), far, up(m.along))
		}
		if !inside(m.label) || c.tab && m.label > c.joint() {
			continue
		}
		thin := stroke{width: ink.Hair, color: how.color}
		if inside(m.along) {
			p.lines(thin, far-markTick, up(m.along), far-markTick-leader, up(m.label))
		}
		p.beside(regular(markSize).in(how.color), right, far-markTick-leader-gap, up(m.label), m.Label)
	}
}

// drawHead writes the words below the top of the head.
func (s *strip) drawHead(p *pen, x, top float64) {
	y := top - 1
	for _, h := range s.head {
		y -= h.line()
		p.text(h.letters, middle, x+s.width/2, y+0.2*h.line(), h.text)
	}
}
