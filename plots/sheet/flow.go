package sheet

// A place is where the next block goes: so far below the top of the content of a sheet, in
// a column of a width that begins so far from the left of the content.
type place struct {
	sheet    int
	y        float64
	x, width float64
	fresh    bool // a column begins here: the space above it is there
}

// A stroke is something to be drawn on a sheet once all are laid out.
type stroke struct {
	sheet int
	draw  func()
}

// A piece is what no sheet's end goes through.
type piece struct {
	height float64
	draw   func(x, y float64) // from its top left corner, on the paper
}

// fits is whether there is room for a height on the sheet; at its top there always is.
func (p *press) fits(at place, height float64) bool {
	return at.y == 0 || at.y+height <= p.height+slack
}

// room returns the place or, if a height does not fit there, the next sheet.
func (p *press) room(at place, height float64) place {
	if p.fits(at, height) {
		return at
	}
	return at.next()
}

func (at place) next() place {
	at.sheet, at.y = at.sheet+1, 0
	return at
}

// gap leaves a space above a block that begins neither a sheet nor a column.
func (at place) gap(space float64) place {
	if at.y > 0 && !at.fresh {
		at.y += space
	}
	return at
}

// lay sets a piece at a place and returns the one below it.
func (p *press) lay(at place, c piece) place {
	x, y := p.left()+at.x, p.top()+at.y
	p.strokes = append(p.strokes, stroke{at.sheet, func() { c.draw(x, y) }})
	p.sheets = max(p.sheets, at.sheet+1)
	at.y, at.fresh = at.y+c.height, false
	return at
}

// stack sets pieces below each other, on one sheet if one can hold them all.
func (p *press) stack(at place, pieces []piece) place {
	all := 0.
	for _, c := range pieces {
		all += c.height
	}
	if all <= p.height {
		at = p.room(at, all)
	}
	for _, c := range pieces {
		at = p.lay(p.room(at, c.height), c)
	}
	return at
}

// run sets blocks below each other.
func (p *press) run(blocks []Block, at place) place {
	for i, b := range blocks {
		if _, ok := b.(Heading); ok && at.y > 0 && i+1 < len(blocks) && p.parts(b, blocks[i+1], at) {
			at = at.next()
		}
		at = b.put(p, at)
	}
	return at
}

// parts is whether a sheet's end would come between a heading and what it heads.
func (p *press) parts(head, below Block, at place) bool {
	strokes, sheets := len(p.strokes), p.sheets
	at = head.put(p, at)
	mark := len(p.strokes)
	below.put(p, at)
	apart := len(p.strokes) > mark && p.strokes[mark].sheet > p.strokes[strokes].sheet
	p.strokes, p.sheets = p.strokes[:strokes], sheets
	return apart
}

// put sets the columns independently of each other. What follows begins below both.
func (c Columns) put(p *press, at place) place {
	left, right := c.widths(at.width)
	at = at.gap(columnsGap)
	l, r := at, at
	l.fresh, r.fresh = true, true
	l.width = left
	r.width, r.x = right, at.x+at.width-right
	l, r = p.run(c.Left, l), p.run(c.Right, r)
	if r.sheet > l.sheet || r.sheet == l.sheet && r.y > l.y {
		l = r
	}
	at.sheet, at.y, at.fresh = l.sheet, l.y, false
	return at
}

const (
	gutter     = 7 * mm
	columnsGap = 3 * mm
)

// widths are those of the two columns in a width.
func (c Columns) widths(width float64) (left, right float64) {
	left = (width - gutter) * c.share()
	return left, width - gutter - left
}
