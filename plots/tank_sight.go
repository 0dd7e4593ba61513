package plots

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
	"gonum.org/v1/plot/vg"

	"floatarc/float"
	"floatarc/geometry"
	"floatarc/tanks/quantity"
)

// A sight is the tank seen one way.
type sight struct {
	caption   string
	plane     geometry.Plane
	rings     []geometry.Ring // outlines of the fuel's room, mm
	shell     []geometry.Ring // of what holds fuel
	inner     []geometry.Ring // of what takes its place
	low, high r2.Vec          // of the box around them
	end       bool            // seen from behind
	rows      int             // of dimensions below it

	scale             vg.Length // points per mm
	left, top, bottom vg.Length // top from that of the picture
}

func (v *sight) wide() float64     { return v.high.X - v.low.X }
func (v *sight) tall() float64     { return v.high.Y - v.low.Y }
func (v *sight) width() vg.Length  { return vg.Length(v.wide()) * v.scale }
func (v *sight) height() vg.Length { return vg.Length(v.tall()) * v.scale }

// at returns where a place of the drawing plane lies in the picture.
func (v *sight) at(p r2.Vec) vg.Point {
	return vg.Point{X: v.left + vg.Length(p.X-v.low.X)*v.scale, Y: v.bottom + vg.Length(p.Y-v.low.Y)*v.scale}
}

// of returns where a point of the tank lies in the picture.
func (v *sight) of(p r3.Vec) vg.Point { return v.at(v.plane.On(p)) }

func (v *sight) all(r geometry.Ring) []vg.Point {
	out := make([]vg.Point, len(r))
	for i, p := range r {
		out[i] = v.at(p)
	}
	return out
}

// under returns the half of the drawing plane below a surface: the places with a·p <= c.
func (v *sight) under(up r3.Vec, level float64) (a r2.Vec, c float64) {
	return r2.Vec{X: r3.Dot(up, v.plane.Right), Y: r3.Dot(up, v.plane.Up)}, level - r3.Dot(up, v.plane.Origin)
}

// below returns the part of the section below a surface.
func (v *sight) below(up r3.Vec, level float64) []geometry.Ring {
	a, c := v.under(up, level)
	return clipped(v.rings, a, c)
}

func clipped(rings []geometry.Ring, a r2.Vec, c float64) []geometry.Ring {
	var out []geometry.Ring
	for _, r := range rings {
		if part := r.Below(a, c); len(part) > 2 {
			out = append(out, part)
		}
	}
	return out
}

// chords returns the stretches of a surface within the section, from left to right.
func (v *sight) chords(up r3.Vec, level float64) [][2]r2.Vec {
	a, c := v.under(up, level)
	along := r2.Vec{X: a.Y, Y: -a.X}
	var at []r2.Vec
	for _, r := range v.rings {
		for k, p := range r {
			q := r[(k+1)%len(r)]
			dp, dq := r2.Dot(a, p)-c, r2.Dot(a, q)-c
			if (dp < 0) != (dq < 0) {
				at = append(at, r2.Add(p, r2.Scale(dp/(dp-dq), r2.Sub(q, p))))
			}
		}
	}
	slices.SortFunc(at, func(p, q r2.Vec) int {
		if r2.Dot(along, p) < r2.Dot(along, q) {
			return -1
		}
		return 1
	})
	var out [][2]r2.Vec
	for k := 0; k+1 < len(at); k += 2 {
		out = append(out, [2]r2.Vec{at[k], at[k+1]})
	}
	return out
}

// near tells whether a point is seen within the tank or just beside it.
func (v *sight) near(p r3.Vec) bool {
	q, beside := v.plane.On(p), 0.02*(v.wide()+v.tall())
	return q.X > v.low.X-beside && q.X < v.high.X+beside && q.Y > v.low.Y-beside && q.Y < v.high.Y+beside
}

// look returns the sights of the tank: its sections, or what stands for them.
func (t *tankPicture) look() []*sight {
	through := t.through()
	forward, turned := t.forward()
	right := r3.Vec{X: forward.Y, Y: -forward.X}
	side := &sight{caption: "Side, front to the right" + turned, plane: geometry.Plane{Origin: through, Right: forward, Up: r3.Vec{Z: 1}}, rows: 2}
	behind := &sight{caption: "End, seen from behind" + turned, plane: geometry.Plane{Origin: through, Right: right, Up: r3.Vec{Z: 1}}, end: true, rows: 2}
	out := []*sight{side, behind}
	for _, v := range out {
		v.rings = geometry.SectionOf(t.Rig.Tank.Solid, v.plane)
		if len(v.rings) == 0 {
			return []*sight{t.byLevels()}
		}
		v.shell = v.rings
		t.lookInside(v)
		v.measure()
	}
	return out
}

// forward returns the axis of the tank that lies nearest to where the vehicle heads, along
// which the tank is cut, and how far it is turned from that, in words.
func (t *tankPicture) forward() (axis r3.Vec, turned string) {
	heading := t.Rig.Tank.Mount.Heading // of the tank's x, to the left of forward
	quarters := math.Round(heading / 90)
	sin, cos := geometry.Sincos(-90 * quarters)
	if off := heading - 90*quarters; math.Abs(off) > 0.05 {
		way := "left"
		if off < 0 {
			way = "right"
		}
		turned = ", the tank turned " + quantity.Fixed(math.Abs(off), 1) + "° to the " + way
	}
	return r3.Vec{X: cos, Y: sin}, turned
}

// lookInside finds what takes the place of fuel, and the shell without it.
func (t *tankPicture) lookInside(v *sight) {
	var holding geometry.Composite
	for _, b := range t.Bodies {
		if b.Displaces {
			v.inner = append(v.inner, geometry.SectionOf(b.Solid, v.plane)...)
		} else {
			holding.Bodies = append(holding.Bodies, b)
		}
	}
	if len(v.inner) > 0 {
		v.shell = geometry.SectionOf(holding, v.plane)
	}
}

func (v *sight) measure() {
	v.low, v.high = r2.Vec{X: math.Inf(1), Y: math.Inf(1)}, r2.Vec{X: math.Inf(-1), Y: math.Inf(-1)}
	for _, r := range v.shell {
		for _, p := range r {
			v.low = r2.Vec{X: math.Min(v.low.X, p.X), Y: math.Min(v.low.Y, p.Y)}
			v.high = r2.Vec{X: math.Max(v.high.X, p.X), Y: math.Max(v.high.Y, p.Y)}
		}
	}
}

// through returns the point of the tank through which its sections go: the axle, or the foot of a
// stem, or where there is neither the middle.
func (t *tankPicture) through() r3.Vec {
	switch s := t.Rig.Sender.(type) {
	case *float.Arm:
		return s.Pivot
	case *float.Rod:
		return s.Foot
	}
	return t.middle()
}

func (t *tankPicture) middle() r3.Vec {
	of := func(axis r3.Vec) float64 {
		lo, hi := t.Rig.Tank.Solid.Extent(axis)
		if math.IsNaN(lo) || math.IsInf(lo, 0) {
			return 0
		}
		return (lo + hi) / 2
	}
	return r3.Vec{X: of(r3.Vec{X: 1}), Y: of(r3.Vec{Y: 1}), Z: of(r3.Vec{Z: 1})}
}

// levelSteps is in how many steps the width of a tank without a shape is drawn.
const levelSteps = 500

// byLevels returns a tank of which only what lies below each level is known: as wide at each
// level as its surface, the widest place wide enough for its arm.
func (t *tankPicture) byLevels() *sight {
	c := t.level()
	middle := t.middle()
	middle.Z = 0
	if a, ok := t.Rig.Sender.(*float.Arm); ok { // where it stands in the tank nobody knows
		middle = r3.Vec{X: a.Pivot.X, Y: a.Pivot.Y}
	}
	caption := "Its width stands for the free surface: no drawing is known"
	if t.ByLitres {
		caption = "Only its litres are known"
	}
	v := &sight{caption: caption, plane: geometry.Plane{Origin: middle, Right: r3.Vec{X: 1}, Up: r3.Vec{Z: 1}}, rows: 1}
	tall := c.Top - c.Bottom
	widest := tall / 3
	if a, ok := t.Rig.Sender.(*float.Arm); ok {
		widest = math.Max(widest, 1.1*a.Length)
	}
	most := 0.0
	widths := make([]float64, levelSteps+1)
	for k := range widths {
		widths[k] = c.Surface(c.Bottom + tall*(float64(k)+0.5)/(levelSteps+1))
		most = math.Max(most, widths[k])
	}
	var left, right geometry.Ring
	for k, w := range widths {
		y := c.Bottom + tall*float64(k)/levelSteps
		half := widest * w / most
		left, right = append(left, r2.Vec{X: -half, Y: y}), append(right, r2.Vec{X: half, Y: y})
	}
	slices.Reverse(left)
	v.rings = []geometry.Ring{append(right, left...)}
	v.shell = v.rings
	v.measure()
	return v
}
