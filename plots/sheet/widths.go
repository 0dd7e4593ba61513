package sheet

import (
	"strings"

	"floatarc/plots/ink"
)

// A want is what a column asks for, points: least is how narrow it may get while there is
// room elsewhere, best how wide it is of itself.
type want struct{ least, best float64 }

// share returns the widths of columns in a room: what they want where there is enough,
// else the widest give way, and where even the least is too much all in proportion.
func share(wants []want, room float64) []float64 {
	least, best := 0., 0.
	for _, w := range wants {
		least += w.least
		best += w.best
	}
	out := make([]float64, len(wants))
	capped := func(most float64) (sum float64) {
		for i, w := range wants {
			out[i] = max(w.least, min(w.best, most))
			sum += out[i]
		}
		return sum
	}
	switch {
	case best <= room:
		capped(best)
	case least >= room:
		for i, w := range wants {
			out[i] = w.least * room / least
		}
	default:
		low, high := 0., best
		for range 60 {
			if most := (low + high) / 2; capped(most) > room {
				high = most
			} else {
				low = most
			}
		}
		capped(low)
	}
	return out
}

// Sizes within tables, points.
const (
	cellX, cellY = 1.6 * mm, 0.9 * mm // padding
	boxHigh      = 7 * mm             // what is written in by hand
	boxLeast     = 16 * mm
	boxMost      = 38 * mm // if there is room
	square       = 4 * mm
	wordMost     = 32 * mm // a longer word may be broken
	spare        = 1       // browsers set letters a little wider
)

// widths are those of the columns in a room.
func (t Table) widths(p *press, room float64) []float64 {
	wants := make([]want, len(t.Columns))
	blanks, all := 0, 0.
	for i := range t.Columns {
		wants[i] = t.want(p, i)
		all += wants[i].best
		if t.Columns[i].Kind == Blank {
			blanks++
		}
	}
	out := share(wants, room)
	for i := range out {
		if t.Columns[i].Kind == Blank && all < room {
			out[i] = max(out[i], min(boxMost, out[i]+(room-all)/float64(blanks)))
		}
	}
	return out
}

// want is what a column asks for, its padding included.
func (t Table) want(p *press, column int) want {
	c := t.Columns[column]
	w := p.texts(c.Head, cellStyle.in(true))
	w = w.or(p.texts(c.Units, unitsStyle))
	for _, r := range t.Rows {
		if column < len(r.Cells) && r.Cells[column] != "" {
			w = w.or(p.texts(r.Cells[column], cellStyle.in(r.Strong)).beside(c.mark()))
		}
	}
	if c.Align == Right {
		// A number that is broken is misread.
		w.least = min(w.best, wordMost)
	}
	w = w.or(want{c.tick(), c.tick()}).beside(2*cellX + spare)
	if c.Kind == Blank {
		w = w.or(want{boxLeast, boxLeast})
	}
	return w
}

// tick is the size of what a cell holds that is not letters.
func (c Column) tick() float64 {
	if c.Kind == Tick {
		return square
	}
	return 0
}

// mark is how much that pushes letters aside.
func (c Column) mark() float64 {
	if c.Kind == Tick {
		return square + cellX
	}
	return 0
}

func (w want) or(v want) want { return want{max(w.least, v.least), max(w.best, v.best)} }

func (w want) beside(more float64) want { return want{w.least + more, w.best + more} }

// texts is what a text wants: its lines whole, or at least its words.
func (p *press) texts(text string, s style) want {
	var w want
	for line := range strings.SplitSeq(ink.Legible(text), "\n") {
		all := ink.Words(line)
		w.best = max(w.best, p.span(strings.Join(all, " "), s))
		for _, word := range all {
			w.least = max(w.least, min(p.span(word, s), wordMost))
		}
	}
	return w
}
