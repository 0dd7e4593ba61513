package plots

import (
	"image/color"
	"math"
	"slices"

	"gonum.org/v1/plot/plotter"
	"gonum.org/v1/plot/vg"

	"floatarc/plots/ink"
)

// label writes the names of lines and spots where there is room beside them.
func (c *chart) label(e *easel, f field) {
	traces := make([][]vg.Point, len(c.series))
	for i, s := range c.series {
		traces[i] = f.trace(s)
	}
	var spots []vg.Point
	if c.level {
		spots = append(spots, f.trace(series{points: plotter.XYs{{X: c.x.low}, {X: c.x.high}}})...)
	}
	for _, m := range c.marks {
		if c.ruled {
			spots = append(spots, f.trace(series{points: plotter.XYs{{X: m.at, Y: c.y.low}, {X: m.at, Y: c.y.high}}})...)
		}
	}
	for _, s := range c.spots {
		at := f.at(s.x, s.y)
		spots = append(spots, at)
		e.taken = append(e.taken, grown(vg.Rectangle{Min: at, Max: at}, 1.3*vg.Millimeter))
	}
	every := slices.Concat(append(traces, spots)...)
	for _, s := range c.spots {
		if at := f.at(s.x, s.y); s.name != "" && !e.beside(firm.of(s.color), s.name, []vg.Point{at}, every, nil, f.area) {
			e.led(firm.of(s.color), s.name, at, every, f.area)
		}
	}
	for i, s := range c.series {
		if s.name != "" && len(traces[i]) > 0 {
			others := slices.Concat(append(slices.Delete(slices.Clone(traces), i, i+1), spots)...)
			e.beside(small.of(darker(s.stroke.color)), s.name, traces[i], every, others, f.area)
		}
	}
}

// darker returns a colour in which letters are read as well as lines are in their own.
func darker(c color.Color) color.Color {
	n := color.NRGBAModel.Convert(c).(color.NRGBA)
	const keep = 0.68
	dark := func(v uint8) uint8 { return uint8(keep * float64(v)) }
	return color.NRGBA{dark(n.R), dark(n.G), dark(n.B), n.A}
}

// trace returns a line within the field as points less than a millimetre apart.
func (f field) trace(s series) []vg.Point {
	var out []vg.Point
	for k := 1; k < len(s.points); k++ {
		a, b := s.points[k-1], s.points[k]
		if math.IsNaN(a.Y) || math.IsNaN(b.Y) {
			continue
		}
		p, q := f.at(a.X, a.Y), f.at(b.X, b.Y)
		n := 1 + int(math.Min(2000, math.Hypot(float64(q.X-p.X), float64(q.Y-p.Y))/float64(0.7*vg.Millimeter)))
		for i := range n + 1 {
			t := vg.Length(i) / vg.Length(n)
			at := vg.Point{X: p.X + t*(q.X-p.X), Y: p.Y + t*(q.Y-p.Y)}
			if f.within(at) == at {
				out = append(out, at)
			}
		}
	}
	for _, q := range s.points { // each by itself, with gaps between
		if at := f.at(q.X, q.Y); len(out) == 0 && !math.IsNaN(q.Y) && f.within(at) == at {
			out = append(out, at)
		}
	}
	return out
}

// beside writes a text near one of the points that are its own, clear of other texts and
// as clear as can be of every line, and nearer to its own than to others: on white where a line
// has to run behind it. It reports false where there is no room.
func (e *easel) beside(p pen, text string, own, every, others []vg.Point, area vg.Rectangle) bool {
	best, at := math.Inf(-1), vg.Point{}
	step := max(1, len(own)/60)
	for k := 0; k < len(own); k += step {
		for _, way := range ways {
			q := vg.Point{X: own[k].X + way[0]*2*vg.Millimeter, Y: own[k].Y + way[1]*1.6*vg.Millimeter}
			x, y := float64(way[0]-1)/2, float64(way[1]-1)/2
			r := p.aligned(x, y).bounds(q, text)
			if !holds(area, grown(r, 0.5*vg.Millimeter)) || e.covers(grown(r, 0.4*vg.Millimeter)) {
				continue
			}
			v := clearance(r, every) + preference(k, len(own), way)
			if clearance(r, others) < clearance(r, own) { // a reader takes it for the name of the nearer one
				v -= 2 * float64(vg.Millimeter)
			}
			if v > best {
				best, at = v, r.Min
			}
		}
	}
	if math.IsInf(best, -1) {
		return false
	}
	e.backed(p, at, text, every)
	return true
}

// backed writes a text, on white where a line runs behind it.
func (e *easel) backed(p pen, at vg.Point, text string, every []vg.Point) {
	if r := p.bounds(at, text); clearance(r, every) < float64(0.5*vg.Millimeter) {
		e.area(ink.White, corners(grown(r, 0.3*vg.Millimeter))...)
	}
	e.write(p, at, text)
}

// led writes a text further off, with a line that leads to its point.
func (e *easel) led(p pen, text string, to vg.Point, every []vg.Point, area vg.Rectangle) {
	const ways = 24
	best, from, at := math.Inf(-1), vg.Point{}, vg.Point{}
	for far := 5 * vg.Millimeter; far < 40*vg.Millimeter; far += 2.5 * vg.Millimeter {
		for k := range ways {
			sin, cos := math.Sincos(2 * math.Pi * float64(k) / ways)
			q := vg.Point{X: to.X + far*vg.Length(cos), Y: to.Y + far*vg.Length(sin)}
			r := p.aligned((cos-1)/2, (sin-1)/2).bounds(q, text)
			if !holds(area, grown(r, 0.5*vg.Millimeter)) || e.covers(grown(r, 0.4*vg.Millimeter)) {
				continue
			}
			if v := clearance(r, every) - 0.2*float64(far); v > best {
				best, from, at = v, q, r.Min
			}
		}
	}
	if !math.IsInf(best, -1) {
		e.line(stroke{ink.Grey, ink.Hair, nil}, from, to)
		e.backed(p, at, text, every)
	}
}

// ways are those in which a text may lie from its point.
var ways = [][2]vg.Length{{0, 1}, {0, -1}, {1, 1}, {1, -1}, {-1, 1}, {-1, -1}, {1, 0}, {-1, 0}, {0, 2}, {0, -2}, {1, 2}, {-1, 2}, {1, -2}, {-1, -2}, {0, 3}, {0, -3}, {1, 3}, {-1, 3}, {1, -3}, {-1, -3}}

// preference is for texts that stand close by and about the middle of their line.
func preference(k, n int, way [2]vg.Length) float64 {
	off := math.Abs(float64(k)/float64(max(1, n-1)) - 0.5)
	return float64(vg.Millimeter) * -(0.6*off + 0.8*math.Max(0, math.Abs(float64(way[1]))-1))
}

// enough clearance is as good as more, mm.
const enough = 2.2

// clearance returns how far the nearest point lies from a box, as far as it matters.
func clearance(r vg.Rectangle, points []vg.Point) float64 {
	least := enough * float64(vg.Millimeter)
	for _, p := range points {
		dx := math.Max(0, math.Max(float64(r.Min.X-p.X), float64(p.X-r.Max.X)))
		dy := math.Max(0, math.Max(float64(r.Min.Y-p.Y), float64(p.Y-r.Max.Y)))
		if dx < least && dy < least {
			least = math.Min(least, math.Hypot(dx, dy))
		}
	}
	return least
}

func grown(r vg.Rectangle, by vg.Length) vg.Rectangle {
	return vg.Rectangle{Min: vg.Point{X: r.Min.X - by, Y: r.Min.Y - by}, Max: vg.Point{X: r.Max.X + by, Y: r.Max.Y + by}}
}

func holds(a, b vg.Rectangle) bool {
	return b.Min.X >= a.Min.X && b.Min.Y >= a.Min.Y && b.Max.X <= a.Max.X && b.Max.Y <= a.Max.Y
}

// covers tells whether a box would cover what was written.
func (e *easel) covers(r vg.Rectangle) bool {
	for _, t := range e.taken {
		if r.Min.X < t.Max.X && t.Min.X < r.Max.X && r.Min.Y < t.Max.Y && t.Min.Y < r.Max.Y {
			return true
		}
	}
	return false
}
