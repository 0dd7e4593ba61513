package plots

import (
	"math"
	"slices"

	"gonum.org/v1/plot/vg"

	"floatarc/plots/ink"
)

// hatching is that of what a sender does not see.
const (
	hatchGap  = 1.7 * vg.Millimeter
	hatchTurn = math.Pi / 4
)

// hatch draws even lines over closed outlines, holes left out.
func (e *easel) hatch(outlines ...[]vg.Point) {
	sin, cos := math.Sincos(hatchTurn)
	along := func(p vg.Point) vg.Length { return p.X*vg.Length(cos) + p.Y*vg.Length(sin) }
	across := func(p vg.Point) vg.Length { return p.Y*vg.Length(cos) - p.X*vg.Length(sin) }
	least, most := vg.Length(math.Inf(1)), vg.Length(math.Inf(-1))
	for _, o := range outlines {
		for _, p := range o {
			least, most = min(least, across(p)), max(most, across(p))
		}
	}
	s := stroke{ink.Grey, ink.Hair, nil}
	for c := hatchGap * vg.Length(math.Ceil(float64(least/hatchGap))); c < most; c += hatchGap {
		var at []vg.Length
		for _, o := range outlines {
			for k, p := range o {
				q := o[(k+1)%len(o)]
				a, b := across(p)-c, across(q)-c
				if (a < 0) != (b < 0) {
					at = append(at, along(p)+a/(a-b)*(along(q)-along(p)))
				}
			}
		}
		slices.Sort(at)
		for k := 0; k+1 < len(at); k += 2 {
			on := func(t vg.Length) vg.Point {
				return vg.Point{X: t*vg.Length(cos) - c*vg.Length(sin), Y: t*vg.Length(sin) + c*vg.Length(cos)}
			}
			e.line(s, on(at[k]), on(at[k+1]))
		}
	}
}
