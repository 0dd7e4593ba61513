package plots

import (
	"fmt"
	"image/color"
	"strings"

	"gonum.org/v1/plot/vg"

	"floatarc/float"
	"floatarc/plots/ink"
	"floatarc/tanks/quantity"
)

// keyEntries says what is drawn.
func (t *tankPicture) keyEntries() []entry {
	v := t.Units.Volume
	out := []entry{{patch(ink.Fuel), "fuel up to full, " + v.Text(t.Rig.Tank.Full)}}
	if lost := t.lost(); lost > 0 {
		out = append(out, entry{patch(ink.Dead), "cannot be drawn " + t.here() + ", " + v.Text(lost)})
	}
	if names := t.innerNames(); names != "" {
		out = append(out, entry{patch(ink.Light), names + ": no room for fuel"})
	}
	if words := t.unseen(); words != "" {
		out = append(out, entry{hatched, words})
	}
	out = append(out, t.senderEntries()...)
	if t.Pickup != nil {
		out = append(out, entry{func(e *easel, r vg.Rectangle) { e.drawPoint(middleOf(r)) }, "mouth of the draw tube"})
	}
	if t.Walled {
		out = append(out, entry{lineSample(measured), "sizes of the inside, from its walls"})
	}
	for _, s := range t.Slopes {
		out = append(out, entry{slopeSample(s), s.Label})
	}
	return out
}

// innerNames are those of the bodies in view that take the place of fuel.
func (t *tankPicture) innerNames() string {
	var names []string
	seen := false
	for _, v := range t.sights {
		seen = seen || len(v.inner) > 0
	}
	for _, b := range t.Bodies {
		if b.Displaces && seen {
			names = append(names, b.Name)
		}
	}
	return strings.Join(names, ", ")
}

// here tells how the tank stands.
func (t *tankPicture) here() string {
	if t.Stands == "" {
		return "on level ground"
	}
	return "so"
}

// unseen tells what the sender does not see; nothing if it sees all.
func (t *tankPicture) unseen() string {
	low, high := t.rel.Live()
	v := t.Units.Volume
	below, above := low > t.least(), high < t.Rig.Tank.Full-t.least()
	switch {
	case below && above:
		return fmt.Sprintf("not seen by the sender: below %s and above %s", v.Text(low), v.Text(high))
	case below:
		return fmt.Sprintf("not seen by the sender: below %s", v.Text(low))
	case above:
		return fmt.Sprintf("not seen by the sender: above %s", v.Text(high))
	}
	return ""
}

func (t *tankPicture) senderEntries() []entry {
	switch s := t.Rig.Sender.(type) {
	case *float.Arm:
		degrees := func(v float64) string { return ink.Minus(quantity.Fixed(v, 1)) + "°" }
		words := fmt.Sprintf("arm of %s, axle to float centre, from %s to %s; thinner at the marks", t.Units.Length.Text(s.Length), degrees(t.Rig.Low), degrees(t.Rig.High))
		out := []entry{{armSample, words}}
		if low, high := s.Stops(); t.Rig.Low-low > 1e-3 || high-t.Rig.High > 1e-3 {
			out = append(out, entry{lineSample(beyond), fmt.Sprintf("stops at %s and %s: a wall is met before", degrees(low), degrees(high))})
		}
		return out
	case *float.Rod:
		what := "probe"
		if s.Stem {
			what = "stem, the float's centre at its ends and at the marks"
		}
		return []entry{{lineSample(stroke{ink.Black, ink.Thick, nil}), what}}
	}
	return nil
}

func armSample(e *easel, r vg.Rectangle) {
	lineSample(rest)(e, r)
	y := (r.Min.Y + r.Max.Y) / 2
	e.dot(ink.Black, vg.Point{X: r.Min.X + vg.Millimeter, Y: y}, 1.2*vg.Millimeter)
	e.dot(ink.White, vg.Point{X: r.Min.X + vg.Millimeter, Y: y}, 0.4*vg.Millimeter)
	e.dot(ink.Black, vg.Point{X: r.Max.X, Y: y}, rest.width)
}

func patch(c color.Color) func(*easel, vg.Rectangle) {
	return func(e *easel, r vg.Rectangle) {
		e.area(c, corners(r)...)
		e.loop(stroke{ink.Grey, ink.Hair, nil}, corners(r)...)
	}
}

func hatched(e *easel, r vg.Rectangle) {
	e.area(ink.Fuel, corners(r)...)
	e.hatch(corners(r))
	e.loop(stroke{ink.Grey, ink.Hair, nil}, corners(r)...)
}

func slopeSample(s Slope) func(*easel, vg.Rectangle) {
	return func(e *easel, r vg.Rectangle) {
		if s.Dead {
			e.area(reach, vg.Point{X: r.Min.X, Y: r.Min.Y}, vg.Point{X: r.Max.X, Y: r.Min.Y}, vg.Point{X: r.Max.X, Y: r.Max.Y}, vg.Point{X: r.Min.X, Y: r.Max.Y})
			e.line(slopeStroke(s), vg.Point{X: r.Min.X, Y: r.Max.Y}, r.Max)
			return
		}
		lineSample(slopeStroke(s))(e, r)
	}
}
