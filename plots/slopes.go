package plots

import (
	"math"

	"gonum.org/v1/plot/plotter"
	"gonum.org/v1/plot/vg"

	"floatarc/plots/ink"
	"floatarc/tanks/quantity"
)

// A Side is what there is at one tilt of a vehicle: litres with which the lamp lights, NaN for
// no lamp, and those that cannot be drawn.
type Side struct {
	Tilt               float64 // degrees
	LightsAt, Unusable float64
}

// A Lean is such rows at one lean, degrees with the left side up.
type Lean struct {
	Lean  float64
	Sides []Side
}

// like tells whether the lamp lights with the same at two leans, and whether the same cannot be
// drawn, to within some litres.
func (l Lean) like(m Lean, litres float64) (lights, unusable bool) {
	lights, unusable = true, true
	for i, s := range l.Sides {
		t := m.Sides[i]
		lights = lights && !(math.Abs(s.LightsAt-t.LightsAt) > litres)
		unusable = unusable && math.Abs(s.Unusable-t.Unusable) <= litres
	}
	return lights, unusable
}

// leanStrokes are those of the leans: none, to the left, to the right.
var leanStrokes = [3][2]stroke{
	{{ink.Blue, ink.Thick, ink.Solid}, {ink.Purple, ink.Medium, ink.Solid}},
	{{ink.Blue, ink.Thin, ink.Dashed}, {ink.Purple, ink.Thin, ink.Dashed}},
	{{ink.Blue, ink.Thin, ink.Dotted}, {ink.Purple, ink.Thin, ink.Dotted}},
}

// Lamp draws with what the low-fuel lamp lights, and what cannot be drawn, over the attitudes
// that it allows for, three leans at most, the upright first; along is what tilts: "nose up".
// Reserve is what must be left; least and most are the least with which it lights and the
// most that cannot be drawn, whose difference is the promise; all in litres, least NaN for
// no lamp.
func Lamp(s Subject, along string, leans []Lean, reserve, least, most float64) *Picture {
	v := s.Units.Volume
	c := &chart{name: s.Name, what: "With what the low-fuel lamp lights on slopes", y: axis{label: "in the tank, " + v.Symbol}}
	top := most
	if len(leans) == 3 {
		if lights, unusable := leans[1].like(leans[2], 1e-3*s.Rig.Tank.Full); lights && unusable {
			leans = leans[:2]
		}
	}
	for i, l := range leans {
		lean := ""
		switch {
		case l.Lean > 0 && len(leans) == 2:
			lean = ", either side up " + quantity.Fixed(l.Lean, 1) + "°"
		case l.Lean > 0:
			lean = ", left up " + quantity.Fixed(l.Lean, 1) + "°"
		case l.Lean < 0:
			lean = ", right up " + quantity.Fixed(-l.Lean, 1) + "°"
		}
		lights := series{name: "it lights" + lean, stroke: leanStrokes[i][0]}
		dry := series{name: "cannot be drawn" + lean, stroke: leanStrokes[i][1]}
		if i > 0 { // a line upon another has no name of its own
			unlit, undrawn := l.like(leans[0], 1e-2*s.Rig.Tank.Full)
			if unlit {
				lights.name = ""
			}
			if undrawn {
				dry.name = ""
			}
		}
		for _, r := range l.Sides {
			lights.points = append(lights.points, plotter.XY{X: r.Tilt, Y: s.of(r.LightsAt)})
			dry.points = append(dry.points, plotter.XY{X: r.Tilt, Y: s.of(r.Unusable)})
			top = math.Max(top, math.Max(r.Unusable, known(r.LightsAt)))
		}
		c.series = append(c.series, dry, lights)
	}
	first, last := leans[0].Sides[0].Tilt, leans[0].Sides[len(leans[0].Sides)-1].Tilt
	c.x = axis{label: along + ", °", low: first, high: last}
	c.y.high = 1.12 * s.of(top)
	if math.IsNaN(least) {
		c.key = []entry{{func(*easel, vg.Rectangle) {}, "No lamp keeps the promise of " + v.Text(reserve) + " on these slopes."}}
		return c.picture()
	}
	c.zones = []zone{{y: true, low: s.of(most), high: s.of(least), x: [2]float64{first, last}, color: spreadColor}}
	c.key = []entry{{lineSample(leanStrokes[0][0]), "with a sender at the late end of its tolerance and winding, on falling fuel"}, {patch(spreadColor), "from the most that cannot be drawn anywhere, " + v.Text(most) + ", to the least with which the lamp lights anywhere, " +
		v.Text(least) + ": a reserve of " + v.Text(reserve) + " can always be drawn"}}
	return c.picture()
}

// known is a number, or 0 where it is not known.
func known(v float64) float64 {
	if math.IsNaN(v) {
		return 0
	}
	return v
}
