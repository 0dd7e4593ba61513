package fullsize

import (
	"cmp"
	"math"
	"slices"

	"floatarc/plots/ink"
)

// Sizes of the letters on a face, points, and of the names of marks, mm on a face of 52 mm.
const (
	leastLetters = 5.0
	markLetters  = 6.5
	nameWidest   = 8.0
	nameAt       = 4.1 // over the arc, their middle
)

// drawMarks draws the dial's marks outside the arc, with their names where those do not
// touch. The first and the last are always named.
func (o *overlay) drawMarks(p *pen, arc float64) (taken []box) {
	marks := slices.SortedStableFunc(slices.Values(o.Marks), func(a, b FaceMark) int { return cmp.Compare(a.Position, b.Position) })
	for _, m := range marks {
		x0, y0 := o.point(m.Position, arc)
		x1, y1 := o.point(m.Position, arc+2*o.grow)
		p.lines(bold, x0, y0, x1, y1)
	}
	names := o.endNames(marks, arc)
	l := o.markLetters(markLetters * o.grow)
	for _, n := range names {
		taken, l = append(taken, n.box), n.letters // those between in the same letters
	}
	for _, i := range ink.EndsFirst(len(marks)) {
		n := o.nameOf(marks[i], l, nameWidest*o.grow, arc)
		if n.text != "" && n.box.clear(taken) && o.holds(n.box) {
			taken, names = append(taken, n.box), append(names, n)
		}
	}
	for _, n := range names {
		p.beside(n.letters, middle, (n.box.x0+n.box.x1)/2, (n.box.y0+n.box.y1)/2, n.text)
	}
	return taken
}

// A faceName is the name of a mark where it stands on the face.
type faceName struct {
	letters
	text string
	box  box
}

func (o *overlay) markLetters(size float64) letters {
	return strong(math.Max(leastLetters, size)).in(ink.Blue)
}

func (o *overlay) nameOf(m FaceMark, l letters, widest, arc float64) faceName {
	x, y := o.point(m.Position, arc+nameAt*o.grow)
	text := l.shortened(m.Label, widest)
	return faceName{l, text, boxOf(l, x, y, text)}
}

// endNames are those of the first and the last mark: in smaller letters, and then shorter,
// until they lie on the face and clear of each other.
func (o *overlay) endNames(marks []FaceMark, arc float64) []faceName {
	if len(marks) == 0 {
		return nil
	}
	ends := []FaceMark{marks[0]}
	if last := marks[len(marks)-1]; last.Position > marks[0].Position {
		ends = append(ends, last)
	}
	var names []faceName
	for _, size := range []float64{markLetters * o.grow, 0} { // none: the smallest
		for widest := nameWidest * o.grow; widest > 1; widest -= 0.25 {
			var fit bool
			if names, fit = o.namesWithin(ends, o.markLetters(size), widest, arc); fit {
				return names
			}
			if size > 0 {
				break // smaller letters first
			}
		}
	}
	return names
}

// namesWithin are the names of marks in a width, and whether they have their place.
func (o *overlay) namesWithin(marks []FaceMark, l letters, widest, arc float64) (names []faceName, fit bool) {
	var taken []box
	fit = true
	for _, m := range marks {
		n := o.nameOf(m, l, widest, arc)
		if m.Label == "" {
			continue
		}
		if n.text == "" {
			return names, false
		}
		fit = fit && n.box.clear(taken) && o.holds(n.box)
		taken, names = append(taken, n.box), append(names, n)
	}
	return names, fit
}
