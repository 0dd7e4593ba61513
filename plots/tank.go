package plots

import (
	"gonum.org/v1/gonum/spatial/r3"
	"gonum.org/v1/plot/vg"

	"floatarc/geometry"
	"floatarc/plots/ink"
	"floatarc/volume"
)

// A Slope is a surface of the fuel to draw into the tank: so many litres as they lie at an
// attitude of the vehicle.
type Slope struct {
	Attitude geometry.Attitude
	Litres   float64
	Label    string // what it is, for the key
	Dead     bool   // the fuel below it cannot be drawn there
}

// Fittings are what is drawn of a tank besides what its litres tell; all may be missing.
type Fittings struct {
	Bodies []geometry.Body // of which the tank is made
	Pickup *r3.Vec         // mouth of the draw tube
	Walled bool            // the file gives outside sizes, which the picture does not show
	Slopes []Slope
}

// Margins and sizes of the picture of a tank.
const (
	tankLeft    = 18 * vg.Millimeter   // for upright dimensions
	tankRight   = 37.5 * vg.Millimeter // for what the levels are
	tankTallest = 58 * vg.Millimeter
	dimensionAt = 5 * vg.Millimeter // from the tank, and from one to the next
	panelGap    = 7 * vg.Millimeter
	keyLeast    = 50 * vg.Millimeter // width of a key that stands beside a section
	margin      = 3 * vg.Millimeter
)

// Tank draws the tank at the attitude of a relation, in side and end section to scale, through
// the axle or the foot of the sender, with its dimensions, the levels of the dial's marks, the sender at them and at its
// ends, what it does not see, the pickup, and surfaces on slopes. A tank that is known by
// a table of heights, or by litres alone, is drawn as wide as its surface.
func Tank(s Subject, rel *volume.Relation, f Fittings) *Picture {
	t := &tankPicture{Subject: s, Fittings: f, rel: rel}
	t.sights = t.look()
	t.key = t.keyEntries()
	t.arrange()
	return &Picture{title: t.what() + ": " + s.at(), height: t.height, paint: t.paint}
}

// A tankPicture is what is drawn.
type tankPicture struct {
	Subject
	Fittings
	rel    *volume.Relation
	sights []*sight
	key    []entry

	scale    float64 // points of the picture per mm
	height   vg.Length
	keyAt    vg.Point // top left, from the picture's top
	keyWidth vg.Length
	heading  vg.Length // taken by the title

}

func (t *tankPicture) how() string {
	if len(t.sights) == 1 {
		return "by its levels"
	}
	return "in section"
}

// arrange finds the scale, and where everything lies.
func (t *tankPicture) arrange() {
	room := float64(width - tankLeft - tankRight)
	t.scale = float64(tankTallest)
	first := true
	for _, v := range t.sights {
		for _, k := range []float64{room / v.wide(), float64(tankTallest) / v.tall()} {
			if first || k < t.scale {
				t.scale, first = k, false
			}
		}
	}
	t.heading = titleHeight(t.what(), t.at())
	y := t.heading + panelGap
	for _, v := range t.sights {
		v.scale = vg.Length(t.scale)
		pad := t.labelPad(v)
		v.left, v.top = tankLeft, y+1.3*ink.Small+pad
		y = v.top + v.height() + max(pad, vg.Length(v.rows)*dimensionAt) + panelGap
	}
	last := t.sights[len(t.sights)-1]
	beside := width - margin - (last.left + last.width() + panelGap)
	if len(t.sights) > 1 && beside >= keyLeast {
		t.keyAt, t.keyWidth = vg.Point{X: width - margin - beside, Y: last.top}, beside
		y = max(y, t.keyAt.Y+keyHeight(t.key, beside))
	} else {
		t.keyAt, t.keyWidth = vg.Point{X: margin, Y: y}, width-2*margin
		y += keyHeight(t.key, t.keyWidth)
	}
	t.height = y + margin
}

// labelPitch is from one name of a level to the next.
const labelPitch = 1.15 * ink.Small

// labelPad is how far the names of the levels reach above and below a tank that is too flat
// for them.
func (t *tankPicture) labelPad(v *sight) vg.Length {
	if v.end {
		return 0
	}
	return max(0, (vg.Length(len(t.tides()))*labelPitch-v.height())/2)
}

func (t *tankPicture) what() string { return "The tank " + t.how() }

func (t *tankPicture) paint(e *easel) {
	e.title(t.at(), t.what())
	for _, v := range t.sights {
		v.bottom = t.height - v.top - v.height()
		t.paintSight(e, v)
	}
	e.key(t.key, vg.Point{X: t.keyAt.X, Y: t.height - t.keyAt.Y}, t.keyWidth)
}

// level is the tank as it stands.
func (t *tankPicture) level() *volume.Contents { return t.rel.Contents }

func (t *tankPicture) paintSight(e *easel, v *sight) {
	t.paintFuel(e, v)
	t.paintSlopes(e, v)
	for _, r := range v.inner {
		e.fill(ink.Light, v, []geometry.Ring{r})
		e.loop(stroke{ink.Black, ink.Thin, ink.Solid}, v.all(r)...)
	}
	for _, r := range v.shell {
		e.loop(stroke{ink.Black, ink.Thick, ink.Solid}, v.all(r)...)
	}
	t.paintLevels(e, v)
	t.paintSender(e, v)
	t.paintPickup(e, v)
	e.write(firm.aligned(0, 0), vg.Point{X: v.left, Y: v.bottom + v.height() + 1.5*vg.Millimeter}, v.caption)
	t.paintSizes(e, v)
}
