package mesh

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// Moment implements geometry.Cut: what lies below the span of knots that the
// level lies in, and the strips of the span up to the level.
func (c *curve) Moment(h float64) r3.Vec {
	z := c.height(h)
	k := c.find(z)
	if k < 0 {
		return r3.Vec{}
	}
	s := c.spansOf()
	span := int32(k) / s.width
	local := r3.Add(s.below[span], s.moment(span, z))
	f := c.frame
	m := r3.Scale(c.Volume(h), f.Origin)
	m = r3.Add(m, r3.Scale(local.X, f.U))
	m = r3.Add(m, r3.Scale(local.Y, f.V))
	return r3.Add(m, r3.Scale(local.Z, f.W))
}

// addMoments sums the first moments from span to span.
func (s *spans) addMoments() {
	n := len(s.start) - 1
	within := make([]r3.Vec, n)
	parallel(n, len(s.faces), func(from, to int) {
		for span := from; span < to; span++ {
			within[span] = s.moment(int32(span), math.Inf(1))
		}
	})
	s.below = make([]r3.Vec, n)
	for span := 1; span < n; span++ {
		s.below[span] = r3.Add(s.below[span-1], within[span-1])
	}
}

// moment returns the first moments of the volume between the foot of a span and
// a height within it: the strips' parts of ∮ x²/2 dy, ∮ xy dy and z ∮ x dy, which
// are cubics of the height, summed from level to level by the rule of two Gauss
// points, exact for cubics.
func (s *spans) moment(span int32, z float64) r3.Vec {
	first := span * s.width
	last := min(first+s.width, int32(len(s.knots))-1)
	if first >= last {
		return r3.Vec{}
	}
	var sum r3.Vec
	s.each(first, func(t *strip) {
		from, to := s.knots[max(t.from, first)], min(s.knots[min(t.to, last)], z)
		if from >= to {
			return
		}
		mid, half := (from+to)/2, (to-from)/2
		for _, at := range [2]float64{mid - half/math.Sqrt(3), mid + half/math.Sqrt(3)} {
			x0, y0, x1, y1 := t.segment(at)
			d := half * t.sign * (y1 - y0)
			sum.X += d * (x0*x0 + x0*x1 + x1*x1) / 6
			sum.Y += d * (2*x0*y0 + x0*y1 + x1*y0 + 2*x1*y1) / 6
			sum.Z += d * (x0 + x1) / 2 * at
		}
	})
	return sum
}
