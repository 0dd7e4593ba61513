package fullsize

import (
	"math"
	"slices"
)

// A room is what is taken of a page, in cells.
type room struct {
	columns, rows int
	taken         []bool
}

// cell is the size of a cell, mm.
const cell = 2.0

func newRoom(width, height float64) *room {
	r := &room{columns: int(width / cell), rows: int(height / cell)}
	r.taken = make([]bool, r.columns*r.rows)
	return r
}

func (r *room) clone() *room {
	c := *r
	c.taken = append([]bool{}, r.taken...)
	return &c
}

// mark takes the cells whose middle is as told.
func (r *room) mark(what func(x, y float64) bool) {
	for i := range r.taken {
		x, y := float64(i%r.columns)+0.5, float64(i/r.columns)+0.5
		r.taken[i] = r.taken[i] || what(x*cell, y*cell)
	}
}

// A corner is that of the page towards which a place is looked for.
type corner struct{ high, right bool }

var (
	lowLeft   = corner{}
	lowRight  = corner{right: true}
	highLeft  = corner{high: true}
	highRight = corner{high: true, right: true}
)

// take finds a place for a block, and takes it.
func (r *room) take(width, height float64, to corner) (spot, bool) {
	s, ok := r.find(width, height, to)
	if ok {
		r.fill(s, height)
	}
	return s, ok
}

// fill takes the place of a block and a little around it.
func (r *room) fill(s spot, height float64) {
	const around = 1.5
	r.mark(func(x, y float64) bool {
		return x > s.x-around && x < s.x+s.width+around && y > s.top-height-around && y < s.top+around
	})
}

// find returns a free place within the margins for a block: the lowest or highest one, and of
// those the one furthest to a side.
func (r *room) find(width, height float64, to corner) (spot, bool) {
	wide, tall, edge := int(math.Ceil(width/cell)), int(math.Ceil(height/cell)), int(math.Ceil(margin/cell))
	columns := r.columns - edge - wide
	for k := edge; k+tall <= r.rows-edge; k++ {
		row := k
		if to.high {
			row = r.rows - tall - k
		}
		for along := edge; along <= columns; along++ {
			column := along
			if to.right {
				column = columns + edge - along
			}
			if r.free(column, row, wide, tall) {
				return spot{float64(column) * cell, float64(row+tall) * cell, width}, true
			}
		}
	}
	return spot{}, false
}

// free tells whether nothing of a block is taken.
func (r *room) free(column, row, wide, tall int) bool {
	for y := row; y < row+tall; y++ {
		if slices.Contains(r.taken[y*r.columns+column:y*r.columns+column+wide], true) {
			return false
		}
	}
	return true
}
