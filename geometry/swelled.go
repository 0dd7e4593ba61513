package geometry

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// Swelled is a solid that holds a factor more, or less, at every level than its sizes
// say: its walls bulge, or its drawing leaves out what is welded into it. Its walls
// count as where they are drawn.
type Swelled struct {
	Solid
	Factor float64 // above 0
}

// Cut implements [Solid].
func (s Swelled) Cut(n r3.Vec) Cut { return swelledCut{s.Solid.Cut(n), s.Factor} }

type swelledCut struct {
	Cut
	factor float64
}

// Volume implements [Cut].
func (c swelledCut) Volume(h float64) float64 { return c.factor * c.Cut.Volume(h) }

// Surface implements [Cut].
func (c swelledCut) Surface(h float64) float64 { return c.factor * c.Cut.Surface(h) }

// Moment implements [Cut].
func (c swelledCut) Moment(h float64) r3.Vec { return r3.Scale(c.factor, c.Cut.Moment(h)) }

// FreeSurface implements [Cut].
func (c swelledCut) FreeSurface(h float64) FreeSurface { return c.Cut.FreeSurface(h).Times(c.factor) }

// Error implements [Cut].
func (c swelledCut) Error() float64 { return c.factor * c.Cut.Error() }

// Level implements [Inverse], where the solid's own cut does.
func (c swelledCut) Level(volume float64) float64 {
	if inverse, ok := c.Cut.(Inverse); ok {
		return inverse.Level(volume / c.factor)
	}
	return math.NaN()
}
