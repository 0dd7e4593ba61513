package plots

import (
	"image/color"
	"math"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"floatarc/geometry"
	"floatarc/plots/ink"
)

// reach is the fuel that cannot be drawn at worst, to be seen through.
var reach = color.NRGBA{ink.Purple.R, ink.Purple.G, ink.Purple.B, 0x38}

// fill fills a section, holes left out.
func (e *easel) fill(c color.Color, v *sight, rings []geometry.Ring) {
	var p vg.Path
	for _, r := range rings {
		p = append(p, path(v.all(r), true)...)
	}
	if len(p) > 0 {
		e.SetColor(c)
		e.Fill(p)
	}
}

// paintFuel fills the section up to full, tells what cannot be drawn, and hatches what
// the sender does not see.
func (t *tankPicture) paintFuel(e *easel, v *sight) {
	c := t.level()
	full := v.below(c.Up, c.Level(t.Rig.Tank.Full))
	e.fill(ink.Fuel, v, full)
	if lost := t.lost(); lost > 0 {
		e.fill(ink.Dead, v, v.below(c.Up, c.Level(lost)))
	}
	low, high := t.rel.Live()
	if low > t.least() {
		e.hatchRings(v, v.below(c.Up, c.Level(low)))
	}
	if high < t.Rig.Tank.Full-t.least() {
		a, b := v.under(c.Up, c.Level(high))
		e.hatchRings(v, clipped(full, r2.Scale(-1, a), -b))
	}
}

func (e *easel) hatchRings(v *sight, rings []geometry.Ring) {
	var outlines [][]vg.Point
	for _, r := range rings {
		outlines = append(outlines, v.all(r))
	}
	e.hatch(outlines...)
}

// lost is what cannot be drawn on level ground, 0 if that is not known.
func (t *tankPicture) lost() float64 {
	if u := t.level().Unusable; u > 0 {
		return u
	}
	return 0
}

// least is a quantity too small to draw.
func (t *tankPicture) least() float64 { return 1e-3 * t.Rig.Tank.Full }

// paintSlopes draws the surfaces on slopes.
func (t *tankPicture) paintSlopes(e *easel, v *sight) {
	for _, s := range t.Slopes {
		c, err := t.Rig.Tank.At(s.Attitude)
		if err != nil {
			continue // a tank that is known on level ground only has no slopes
		}
		level := c.Level(s.Litres)
		if s.Dead {
			e.fill(reach, v, v.below(c.Up, level))
		}
		for _, chord := range v.chords(c.Up, level) {
			e.line(slopeStroke(s), v.at(chord[0]), v.at(chord[1]))
		}
	}
}

func slopeStroke(s Slope) stroke {
	if s.Dead {
		return stroke{ink.Purple, ink.Medium, ink.Dotted}
	}
	return stroke{ink.Purple, ink.Medium, ink.Chain}
}

// A tide is a level that is named beside the tank.
type tide struct {
	name   string
	litres float64
	firm   bool
}

// tides returns the levels that are named: those of the marks, of a full tank and of what cannot
// be drawn, unless a mark stands there.
func (t *tankPicture) tides() []tide {
	d := t.Rig.Dial
	var out []tide
	near := func(l float64) bool {
		for _, k := range out {
			if math.Abs(k.litres-l) < t.least() {
				return true
			}
		}
		return false
	}
	for _, m := range d.Marks {
		out = append(out, tide{m.Label, d.Litres(m.Share), true})
	}
	if !near(t.Rig.Tank.Full) {
		out = append(out, tide{"full", t.Rig.Tank.Full, false})
	}
	if lost := t.lost(); lost > 0 && !near(lost) {
		out = append(out, tide{"unusable", lost, false})
	}
	return out
}

// paintLevels draws the levels and names them to the right of the side.
func (t *tankPicture) paintLevels(e *easel, v *sight) {
	c := t.level()
	tides := t.tides()
	right := v.left + v.width()
	places, ends := make([]vg.Length, len(tides)), make([]vg.Point, len(tides))
	for i, d := range tides {
		level := c.Level(d.litres)
		s := stroke{ink.Blue, ink.Hair, ink.Solid}
		if d.litres >= t.Rig.Tank.Full-t.least() {
			s.width = ink.Medium
		}
		a, b := v.under(c.Up, level)
		ends[i] = v.at(r2.Vec{X: v.high.X, Y: (b - a.X*v.high.X) / a.Y})
		for _, chord := range v.chords(c.Up, level) {
			e.line(s, v.at(chord[0]), v.at(chord[1]))
			ends[i] = v.at(chord[1])
		}
		places[i] = ends[i].Y
	}
	if v.end {
		return
	}
	pad := max(dimensionAt, t.labelPad(v))
	labels := ink.Spread(places, labelPitch, v.bottom-pad, v.bottom+v.height()+pad)
	for i, d := range tides {
		p := small
		if d.firm {
			p = firm
		}
		to := vg.Point{X: right + 4*vg.Millimeter, Y: labels[i]}
		e.line(stroke{ink.Grey, ink.Hair, nil}, ends[i], vg.Point{X: right + vg.Millimeter, Y: places[i]}, to)
		at := vg.Point{X: to.X + vg.Millimeter, Y: to.Y}
		name := p.cut(d.name, 14*vg.Millimeter)
		e.write(p.aligned(0, -0.4), at, name)
		at.X += p.width(name + " ")
		e.write(small.aligned(0, -0.4), at, t.Units.Volume.Text(d.litres))
	}
}

// paintPickup draws the draw point.
func (t *tankPicture) paintPickup(e *easel, v *sight) {
	if t.Pickup == nil {
		return
	}
	e.drawPoint(v.of(*t.Pickup))
}

// drawPoint draws the sign of a draw point: a tube that ends there.
func (e *easel) drawPoint(at vg.Point) {
	const size = 1.6 * vg.Millimeter
	e.area(ink.White, diamond(at, 1.35*size)...)
	e.area(ink.Black, diamond(at, size)...)
}

func diamond(at vg.Point, r vg.Length) []vg.Point {
	return []vg.Point{{X: at.X - r, Y: at.Y}, {X: at.X, Y: at.Y - r}, {X: at.X + r, Y: at.Y}, {X: at.X, Y: at.Y + r}}
}

// dot draws a disc.
func (e *easel) dot(c color.Color, at vg.Point, r vg.Length) {
	e.DrawGlyph(draw.GlyphStyle{Color: c, Radius: r, Shape: draw.CircleGlyph{}}, at)
}
