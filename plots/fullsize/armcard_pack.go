package fullsize

import (
	"cmp"
	"fmt"
	"slices"
)

// Widths that words across may have, mm.
var (
	headWidths  = []float64{265, 220, 190, 160, 140, 120, 105, 95, 85, 75}
	tableWidths = []float64{150, 130, 115, 105, 95, 90, 85, 80}
)

// pack finds room for the words: the check lines as low as may be, those of use as high as may
// be, the table in what is left.
func (c *card) pack() bool {
	swing := c.swing()
	for _, corner := range []corner{lowLeft, lowRight} {
		room, ok := swing.clone(), false
		if c.check, ok = room.take(stackWidth, stackHeight(c.Units), corner); !ok {
			continue
		}
		for _, head := range c.heads(room) {
			after := room.clone()
			after.fill(head.spot, head.height)
			if c.head = head.spot; c.packTable(after) {
				return true
			}
		}
	}
	return false
}

// packTable finds room for the table, as wide as may be.
func (c *card) packTable(r *room) bool {
	for _, wide := range tableWidths {
		table := c.known.table(c, wide)
		if !table.fits() {
			return false
		}
		for _, corner := range []corner{lowLeft, lowRight} {
			var ok bool
			if c.table, ok = r.find(wide, table.height(), corner); ok {
				return true
			}
		}
	}
	return false
}

// setWords are those that were set before: they take their time, and come in a few widths.
type setWords struct {
	heads  map[float64]float64
	tables map[string]armTable
}

// head returns how high the words of use are in a width.
func (s *setWords) head(c *card, width float64) float64 {
	if _, known := s.heads[width]; !known {
		s.heads[width] = c.headerOf(width).height()
	}
	return s.heads[width]
}

// table returns the table in a width.
func (s *setWords) table(c *card, width float64) *armTable {
	key := fmt.Sprint(width, c.scaleWords())
	t, known := s.tables[key]
	if !known {
		t = c.tableOf(width)
		s.tables[key] = t
	}
	return &t
}

// A headSpot is where the words of use may stand.
type headSpot struct {
	spot
	height float64
}

// heads are the places for the words of use, the highest first, of equal ones the widest.
func (c *card) heads(r *room) []headSpot {
	var out []headSpot
	for _, width := range headWidths {
		height := c.known.head(c, width)
		for _, corner := range []corner{highLeft, highRight} {
			if s, ok := r.find(width, height, corner); ok {
				out = append(out, headSpot{s, height})
			}
		}
	}
	slices.SortStableFunc(out, func(a, b headSpot) int { return cmp.Compare(b.top, a.top) })
	return out
}
