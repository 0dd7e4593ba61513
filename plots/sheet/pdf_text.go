package sheet

import (
	"floatarc/plots/ink"
	"gonum.org/v1/plot/vg"
)

// Spaces above blocks.
const (
	headingGap   = 5 * mm
	paragraphGap = 2 * mm
)

// plain returns the lines of a text.
func (p *press) plain(text string, s style, width float64) []piece {
	return p.marked("", 0, text, s, width)
}

// marked returns the lines of a text, indented behind a mark.
func (p *press) marked(mark string, indent float64, text string, s style, width float64) []piece {
	var out []piece
	for i, line := range p.wrap(text, s, width-indent) {
		out = append(out, piece{s.lead, func(x, y float64) {
			if i == 0 && mark != "" {
				p.text(x, y, s.in(true), mark)
			}
			p.text(x+indent, y, s, line)
		}})
	}
	return out
}

// put sets the heading.
func (h Heading) put(p *press, at place) place {
	return p.stack(at.gap(headingGap), p.plain(h.Text, headingStyle, at.width))
}

func (g Paragraph) style() style {
	if g.Small {
		return smallStyle
	}
	return bodyStyle
}

// put sets the paragraph.
func (g Paragraph) put(p *press, at place) place {
	if g.Warn {
		return p.stack(at.gap(warnGap), p.warning([]string{g.Text}, g.style(), at.width))
	}
	return p.stack(at.gap(paragraphGap), p.plain(g.Text, g.style(), at.width))
}

const (
	indent  = 4.5 * mm
	itemGap = 0.8 * mm
	warnGap = 3 * mm
)

// put sets the list on one sheet if one can hold it.
func (l List) put(p *press, at place) place {
	if len(l.Items) == 0 {
		return at
	}
	if l.Warn {
		return p.stack(at.gap(warnGap), p.warning(l.Items, bodyStyle, at.width))
	}
	return p.stack(at.gap(paragraphGap), p.items(" •", l.Items, bodyStyle, at.width))
}

// items returns the lines of a list, a little apart.
func (p *press) items(mark string, items []string, s style, width float64) []piece {
	var out []piece
	for i, item := range items {
		lines := p.marked(mark, indent, item, s, width)
		if i > 0 {
			lines[0] = padded(lines[0], itemGap, 0)
		}
		out = append(out, lines...)
	}
	return out
}

// padded returns a piece with space above and below.
func padded(c piece, above, below float64) piece {
	return piece{c.height + above + below, func(x, y float64) { c.draw(x, y+above) }}
}

// Padding within the frame of a warning, and how heavy that is.
const (
	padX, padY = 3 * mm, 2 * mm
	frame      = vg.Length(1.4)
)

// warning returns the lines of a list in a frame. Where a sheet ends within it, the frame
// stays open.
func (p *press) warning(items []string, s style, width float64) []piece {
	lines := p.items("!", items, s, width-2*padX)
	last := len(lines) - 1
	lines[0] = padded(lines[0], padY, 0)
	lines[last] = padded(lines[last], 0, padY)
	out := make([]piece, len(lines))
	for i, c := range lines {
		out[i] = piece{c.height, func(x, y float64) {
			c.draw(x+padX, y)
			p.sides(x, y, width, c.height, i == 0, i == last)
		}}
	}
	return out
}

// sides draws the frame's part beside a line, which overlaps that of the next one by
// enough to leave no seam.
func (p *press) sides(x, y, width, height float64, first, last bool) {
	p.pen(frame, ink.Vermilion)
	half := frame.Points() / 2
	x, width = x+half, width-2*half
	p.doc.Line(x, y-0.2, x, y+height+0.2)
	p.doc.Line(x+width, y-0.2, x+width, y+height+0.2)
	if first {
		p.doc.Line(x-half, y, x+width+half, y)
	}
	if last {
		p.doc.Line(x-half, y+height, x+width+half, y+height)
	}
}
