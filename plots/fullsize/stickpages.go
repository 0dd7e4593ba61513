package fullsize

import (
	"fmt"
	"math"

	"floatarc/plots/ink"
)

// The cautions of every page of a dipstick.
const (
	stickCaution = "Fuel vapour burns: no flame, no smoking, no sparks. Use a stick of wood or brass, never of steel or anything else that sparks, and bring the paper nowhere near the fuel: it is a pattern, score the lines into the stick."
	stickUse     = "After filling wait until the surface rests. Wipe the stick dry, let it down until it stands, pull it out and read where it is wet."
	stickMake    = "Cut along the lines. Glue each piece on the tab of the one before, edge on dashed line, crosses on crosses (hold them against the light)."
)

// Room on the page, mm.
const (
	overStrip  = 7.0  // for the letter of a piece
	underStrip = 10.0 // for the words at the foot
	shortest   = 60.0 // of the room for a strip
)

// Pages returns the strip, over as many pages as it needs.
func (d *Dipstick) Pages() (Pages, error) {
	if err := d.Check(); err != nil {
		return nil, err
	}
	s := newStrip(d)
	head := s.header()
	bottom := margin + checkHeight(d.Units) + underStrip
	room := inMM(d.Paper.Height) - margin - head.height() - overStrip - bottom
	if room < shortest {
		return nil, fmt.Errorf("the words over the strip leave %.0f mm of the page for it, expected %.0f mm or more: a shorter name", room, shortest)
	}
	s.pieces = cutUp(s.length(), s.highest, room, s.labels())
	pitch := s.width + lane
	perPage := max(1, int((inMM(d.Paper.Width)-2*margin-checkLane)/pitch))
	count := (len(s.pieces) + perPage - 1) / perPage
	var out Pages
	for i := range count {
		part := s.pieces[i*perPage : min((i+1)*perPage, len(s.pieces))]
		out = append(out, &Page{title: d.Title + ": dipstick", paper: d.Paper, draw: func(p *pen) {
			head.draw(p, d.Paper, fmt.Sprintf("page %d of %d", i+1, count))
			for k, c := range part {
				s.drawPiece(p, c, margin+2+float64(k)*pitch, bottom)
			}
			p.checkUpright(inMM(d.Paper.Width)-margin-2, bottom)
			p.checkLines(d.Units)
		}})
	}
	return out, nil
}

// checkLane is the width at the edge of the page for the upright check line, mm.
const checkLane = 8.0

// A header is what stands at the head of a page.
type header struct {
	title  string
	titles []string // the title in lines, where it may take more than one
	lines  []headLine
}

const titleSize = 13.0

func (h header) height() float64 {
	height := float64(max(1, len(h.titles))) * strong(titleSize).line()
	for _, l := range h.lines {
		height += l.line()
	}
	return height
}

// draw writes the header at the top of a page.
func (h header) draw(p *pen, paper ink.Paper, page string) {
	h.drawAt(p, spot{margin, inMM(paper.Height) - margin, inMM(paper.Width) - 2*margin}, page)
}

// drawAt writes the header at a spot.
func (h header) drawAt(p *pen, s spot, page string) {
	title := strong(titleSize)
	y := s.top - title.cap()
	side := regular(8).in(ink.Grey)
	p.text(side, right, s.x+s.width, y, page)
	titles := h.titles
	if titles == nil {
		titles = []string{title.shortened(h.title, s.width-side.width(page)-4)}
	}
	for _, line := range titles {
		p.text(title, left, s.x, y, line)
		y -= title.line()
	}
	for _, l := range h.lines {
		p.text(l.letters, left, s.x, y, l.text)
		y -= l.line()
	}
}

// add appends a text, wrapped to the paper.
func (h *header) add(l letters, text string, paper ink.Paper) {
	h.within(l, text, inMM(paper.Width)-2*margin)
}

// within appends a text, wrapped to a width.
func (h *header) within(l letters, text string, width float64) {
	for _, line := range l.wrapped(text, width) {
		h.lines = append(h.lines, headLine{l, line})
	}
}

// header returns the words over the strip.
func (s *strip) header() header {
	h := header{title: s.Title + ": dipstick, " + s.unit()}
	for _, w := range s.Words {
		h.add(regular(9), w, s.Paper)
	}
	for _, w := range append(append([]string{}, s.Notes...), s.missing(s.below, s.above)...) {
		h.add(regular(9).in(ink.Vermilion), w, s.Paper)
	}
	h.add(strong(8), stickCaution, s.Paper)
	h.add(regular(8), stickUse, s.Paper)
	if s.length() > math.Min(inMM(s.Paper.Height), longestPiece) {
		h.add(regular(8), stickMake, s.Paper)
	}
	return h
}

// longestPiece is a length below which a strip may be of one piece, mm.
const longestPiece = 150.0
