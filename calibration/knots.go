package calibration

import (
	"math"

	"floatarc/calibration/band"
)

// straight is by how much the truth may stray from a straight line between two
// samples, as a share of the dial, before one is put between them, and finest how
// often that is done.
const (
	straight = 1e-6
	finest   = 12
)

// A knot is a sample with what the needle may not exceed there and just above.
type knot struct {
	Sample
	x         float64
	at, above float64
}

func (s *Search) knot(at Sample, l limit) knot {
	k := knot{Sample: at, x: s.x(at)}
	k.at, k.above = l.at(at.Travel)
	return k
}

// refined returns the samples of a curve with more of them where the truth bends,
// and notes how far it strays between them.
func (s *Search) refined(c *Curve, l limit) []knot {
	out := []knot{s.knot(c.Samples[0], l)}
	var between func(a, b knot, depth int)
	between = func(a, b knot, depth int) {
		if b.Travel > a.Travel && b.x > a.x {
			t := (a.Travel + b.Travel) / 2
			m := s.knot(c.at(c.rel.Litres(t), t), l)
			stray := m.strays(a, b)
			if stray > straight && depth < finest {
				between(a, m, depth+1)
				between(m, b, depth+1)
				return
			}
			s.Between = math.Max(s.Between, 2*100*stray) // a bend off the middle strays up to twice as far
		}
		out = append(out, b)
	}
	for _, at := range c.Samples[1:] {
		if next := s.knot(at, l); s.rig.Contacts() != nil {
			out = append(out, next)
		} else {
			between(out[len(out)-1], next, 0)
		}
	}
	return out
}

// strays returns how far a knot lies off the straight lines between two others.
func (m knot) strays(a, b knot) float64 {
	share := (m.x - a.x) / (b.x - a.x)
	off := math.Abs(m.Position - (a.Position + share*(b.Position-a.Position)))
	if math.IsInf(a.above, 1) || math.IsInf(b.at, 1) {
		return off
	}
	return math.Max(off, math.Abs(m.at-(a.above+share*(b.at-a.above))))
}

// bandSamples returns the truth as a band takes it.
func (s *Search) bandSamples(knots []knot) []band.Sample {
	stepped := s.rig.Contacts() != nil
	out := make([]band.Sample, 0, len(knots)+1)
	for _, k := range knots {
		b := band.Sample{X: k.x, Y: k.Position, Cap: k.at}
		if n := len(out); n > 0 {
			b.X = math.Max(b.X, out[n-1].X)
			out[n-1].Gap = stepped && b.X > out[n-1].X
		}
		out = append(out, b)
		if k.above != k.at {
			b.Cap = k.above
			out = append(out, b)
		}
	}
	low, high := s.rig.asides(s.rig.Told(s.rig.Level))
	law := s.rig.Conditioner.Law
	loosen(out, s.sign*law.X(low), s.sign*law.X(high))
	return out
}
