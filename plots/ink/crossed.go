package ink

import (
	"math"

	"gonum.org/v1/plot/vg"
)

// A Segment is a straight part of a line that was stroked, on the canvas.
type Segment struct {
	From, To vg.Point
	Width    vg.Length
}

// Crossed returns the texts that a line of a width or more runs through, in the order in which
// they were drawn. It does not matter which is drawn first, or whether something lies between.
func (s *Survey) Crossed(minWidth vg.Length) []string {
	var out []string
	for _, t := range s.Texts {
		for _, l := range s.Segments {
			if l.Width >= minWidth && t.crossedBy(l) {
				out = append(out, t.String)
				break
			}
		}
	}
	return out
}

// touch is how far letters and lines may come into each other before it is seen.
const touch = vg.Length(0.3)

// crossedBy tells whether a line comes into the box of the letters.
func (t Text) crossedBy(l Segment) bool {
	sin, cos := math.Sincos(-t.Turn)
	turned := affine{a: cos, b: sin, c: -sin, d: cos}
	box := vg.Rectangle{Min: turned.of(t.corners[0]), Max: turned.of(t.corners[0])}
	for _, corner := range t.corners[1:] {
		q := turned.of(corner)
		box = around(box, vg.Rectangle{Min: q, Max: q})
	}
	by := l.Width/2 - touch
	box.Min, box.Max = vg.Point{X: box.Min.X - by, Y: box.Min.Y - by}, vg.Point{X: box.Max.X + by, Y: box.Max.Y + by}
	return enters(turned.of(l.From), turned.of(l.To), box)
}

// enters tells whether a straight line comes into a box (the clipping of Y.-D. Liang and
// B. Barsky, 1984, from memory).
func enters(from, to vg.Point, r vg.Rectangle) bool {
	first, last := 0., 1.
	for _, side := range [][3]vg.Length{{from.X, to.X, r.Min.X}, {-from.X, -to.X, -r.Max.X}, {from.Y, to.Y, r.Min.Y}, {-from.Y, -to.Y, -r.Max.Y}} {
		a, b := float64(side[0]-side[2]), float64(side[1]-side[2]) // within where positive
		switch {
		case a < 0 && b < 0:
			return false
		case a < 0:
			first = math.Max(first, a/(a-b))
		case b < 0:
			last = math.Min(last, a/(a-b))
		}
	}
	return first < last
}

// bends is how many straight parts stand for a curve.
const bends = 8

// flat returns a path as chains of points, on the canvas.
func (s *Survey) flat(p vg.Path) [][]vg.Point {
	var out [][]vg.Point
	var at vg.Point
	begin := func(q vg.Point) { out, at = append(out, []vg.Point{s.now.of(q)}), q }
	line := func(q vg.Point) {
		if len(out) == 0 {
			begin(q)
			return
		}
		out[len(out)-1], at = append(out[len(out)-1], s.now.of(q)), q
	}
	for _, comp := range unarced(p) {
		switch comp.Type {
		case vg.MoveComp:
			begin(comp.Pos)
		case vg.LineComp:
			line(comp.Pos)
		case vg.CurveComp:
			curve(append(append([]vg.Point{at}, comp.Control...), comp.Pos), line)
		case vg.CloseComp:
			if n := len(out) - 1; n >= 0 {
				out[n] = append(out[n], out[n][0])
			}
		}
	}
	return out
}

// curve draws a Bézier curve through its control points' polygon, as straight parts.
func curve(control []vg.Point, line func(vg.Point)) {
	for k := 1; k <= bends; k++ {
		share := vg.Length(k) / bends
		at := append([]vg.Point{}, control...)
		for n := len(at) - 1; n > 0; n-- { // de Casteljau
			for i := range n {
				at[i] = vg.Point{X: at[i].X + share*(at[i+1].X-at[i].X), Y: at[i].Y + share*(at[i+1].Y-at[i].Y)}
			}
		}
		line(at[0])
	}
}
