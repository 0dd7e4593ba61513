package ink

import (
	"math"

	"gonum.org/v1/plot/vg"
)

// unarced returns a path with its arcs as lines to their starts and cubic curves.
func unarced(p vg.Path) vg.Path {
	var out vg.Path
	for _, comp := range p {
		if comp.Type == vg.ArcComp {
			out = append(out, arc(comp)...)
			continue
		}
		out = append(out, comp)
	}
	return out
}

// arc returns an arc as a line to its start and cubic curves of at most a sixth of a turn, which
// stray from it by less than 3e-5 of the radius.
func arc(comp vg.PathComp) vg.Path {
	on := func(angle float64) (at, along vg.Point) {
		sin, cos := math.Sincos(angle)
		r := comp.Radius
		return vg.Point{X: comp.Pos.X + r*vg.Length(cos), Y: comp.Pos.Y + r*vg.Length(sin)}, vg.Point{X: -r * vg.Length(sin), Y: r * vg.Length(cos)}
	}
	n := max(1, int(math.Ceil(math.Abs(comp.Angle)/(math.Pi/3))))
	step := comp.Angle / float64(n)
	k := vg.Length(4. / 3 * math.Tan(step/4))
	at, along := on(comp.Start)
	var out vg.Path
	out.Line(at)
	for i := 1; i <= n; i++ {
		to, next := on(comp.Start + step*float64(i))
		out.CubeTo(vg.Point{X: at.X + k*along.X, Y: at.Y + k*along.Y}, vg.Point{X: to.X - k*next.X, Y: to.Y - k*next.Y}, to)
		at, along = to, next
	}
	return out
}
