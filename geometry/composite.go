package geometry

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// A Body is one piece of a composite: it holds fuel, or displaces it.
type Body struct {
	Name      string
	Solid     Solid
	Displaces bool
}

// A Composite is a tank made of bodies: those that hold fuel, less those that
// displace it. Bodies that hold may touch but must not overlap, bodies that
// displace must lie within those that hold; the volume of any other
// arrangement is the plain sum with signs.
type Composite struct {
	Bodies []Body
}

// Extent returns the extent of the bodies that hold fuel.
func (c Composite) Extent(n r3.Vec) (lo, hi float64) {
	lo, hi = math.Inf(1), math.Inf(-1)
	for _, b := range c.Bodies {
		if b.Displaces {
			continue
		}
		l, h := b.Solid.Extent(n)
		lo, hi = math.Min(lo, l), math.Max(hi, h)
	}
	return lo, hi
}

// Contains tells whether fuel can be at p.
func (c Composite) Contains(p r3.Vec) bool {
	if !c.Encloses(p) {
		return false
	}
	for _, b := range c.Bodies {
		if b.Displaces && b.Solid.Contains(p) {
			return false
		}
	}
	return true
}

// Encloses tells whether p lies in a body that holds fuel, whether or not
// something displaces the fuel there: a pivot or a pickup may sit in a pump
// module.
func (c Composite) Encloses(p r3.Vec) bool {
	for _, b := range c.Bodies {
		if !b.Displaces && b.Solid.Contains(p) {
			return true
		}
	}
	return false
}

// Cut prepares every body.
func (c Composite) Cut(n r3.Vec) Cut {
	cut := make(compositeCut, 0, len(c.Bodies))
	for _, b := range c.Bodies {
		sign := 1.0
		if b.Displaces {
			sign = -1
		}
		cut = append(cut, signedCut{Cut: b.Solid.Cut(n), sign: sign})
	}
	return cut
}

type signedCut struct {
	Cut
	sign float64
}

type compositeCut []signedCut

func (c compositeCut) Volume(h float64) float64 {
	sum := 0.0
	for _, b := range c {
		sum += b.sign * b.Cut.Volume(h)
	}
	return sum
}

func (c compositeCut) Surface(h float64) float64 {
	sum := 0.0
	for _, b := range c {
		sum += b.sign * b.Cut.Surface(h)
	}
	return sum
}

func (c compositeCut) Moment(h float64) r3.Vec {
	var sum r3.Vec
	for _, b := range c {
		sum = r3.Add(sum, r3.Scale(b.sign, b.Cut.Moment(h)))
	}
	return sum
}

// FreeSurface implements [Cut].
func (c compositeCut) FreeSurface(h float64) FreeSurface {
	var sum FreeSurface
	for _, b := range c {
		sum = sum.Plus(b.Cut.FreeSurface(h).Times(b.sign))
	}
	return sum
}

// Error implements [Cut].
func (c compositeCut) Error() float64 {
	sum := 0.0
	for _, b := range c {
		sum += b.Cut.Error()
	}
	return sum
}

// Level implements [Inverse] for a composite of one body; NaN for others.
func (c compositeCut) Level(volume float64) float64 {
	if len(c) == 1 {
		if inverse, ok := c[0].Cut.(Inverse); ok {
			return inverse.Level(volume)
		}
	}
	return math.NaN()
}
