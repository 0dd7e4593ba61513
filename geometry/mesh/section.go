package mesh

import (
	"gonum.org/v1/gonum/spatial/r3"

	"floatarc/geometry"
)

// A section holds the integrals of 1, x, y, x², xy, y² over the area in which a
// level plane cuts a solid.
type section struct{ one, x, y, xx, xy, yy float64 }

// add adds the segment of a strip at a height, by Green's theorem: ∮ x dy,
// ∮ x²/2 dy, ∮ xy dy, ∮ x³/3 dy, ∮ x²y/2 dy and ∮ xy² dy.
func (s *section) add(t *strip, z float64) {
	x0, y0, x1, y1 := t.segment(z)
	d := t.sign * (y1 - y0)
	s.one += d * (x0 + x1) / 2
	s.x += d * (x0*x0 + x0*x1 + x1*x1) / 6
	s.y += d * (2*x0*y0 + x0*y1 + x1*y0 + 2*x1*y1) / 6
	s.xx += d * (x0 + x1) * (x0*x0 + x1*x1) / 12
	s.xy += d * (x0*x0*(3*y0+y1) + 2*x0*x1*(y0+y1) + x1*x1*(y0+3*y1)) / 24
	s.yy += d * (y0*y0*(3*x0+x1) + 2*y0*y1*(x0+x1) + y1*y1*(x0+3*x1)) / 12
}

// at returns the section at a height, in its own frame.
func (s section) at(z float64) geometry.FreeSurface {
	return geometry.FreeSurface{
		Area:  s.one,
		First: r3.Vec{X: s.x, Y: s.y, Z: z * s.one},
		Second: geometry.Symmetric{
			XX: s.xx, YY: s.yy, ZZ: z * z * s.one, XY: s.xy, YZ: z * s.y, ZX: z * s.x,
		},
	}
}

// FreeSurface implements geometry.Cut: the sum over the segments in which the
// level plane cuts the triangles.
func (c *curve) FreeSurface(h float64) geometry.FreeSurface {
	z := c.height(h)
	k := int32(c.find(z))
	if k < 0 || int(k) == len(c.pieces)-1 {
		return geometry.FreeSurface{}
	}
	var s section
	c.spansOf().each(k, func(t *strip) {
		if t.from <= k && k < t.to {
			s.add(t, z)
		}
	})
	return s.at(z).In(c.frame).Times(1 / c.length)
}
