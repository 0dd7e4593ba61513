package geometry

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"
)

// A segment is one piece of an outline's boundary, in the plane of a section:
// a straight line from a to b, or an arc when radius > 0.
type segment struct {
	a, b   r2.Vec
	centre r2.Vec
	radius float64 // 0 for a line
	start  float64 // angle of a seen from the centre, radians
	sweep  float64 // angle from a to b, positive anticlockwise, at most a half turn
}

func line(a, b r2.Vec) segment { return segment{a: a, b: b} }

func arc(centre r2.Vec, radius, start, sweep float64) segment {
	return segment{
		a: onCircle(centre, radius, start), b: onCircle(centre, radius, start+sweep),
		centre: centre, radius: radius, start: start, sweep: sweep,
	}
}

func onCircle(centre r2.Vec, radius, angle float64) r2.Vec {
	s, c := math.Sincos(angle)
	return r2.Vec{X: centre.X + radius*c, Y: centre.Y + radius*s}
}

// distance returns how far p lies from the segment.
func (s segment) distance(p r2.Vec) float64 {
	if s.radius == 0 {
		return distanceToLine(p, s.a, s.b)
	}
	d := r2.Sub(p, s.centre)
	if s.covers(math.Atan2(d.Y, d.X)) {
		return math.Abs(r2.Norm(d) - s.radius)
	}
	return math.Min(r2.Norm(r2.Sub(p, s.a)), r2.Norm(r2.Sub(p, s.b)))
}

// covers tells whether the arc passes the direction angle.
func (s segment) covers(angle float64) bool {
	along := angle - s.start
	if s.sweep < 0 {
		along = -along
	}
	along -= 2 * math.Pi * math.Floor(along/(2*math.Pi))
	return along <= math.Abs(s.sweep)
}

func distanceToLine(p, a, b r2.Vec) float64 {
	ab, ap := r2.Sub(b, a), r2.Sub(p, a)
	t := 0.0
	if n := r2.Norm2(ab); n > 0 {
		t = math.Max(0, math.Min(1, r2.Dot(ap, ab)/n))
	}
	return r2.Norm(r2.Sub(ap, r2.Scale(t, ab)))
}

// along returns the segment seen in the frame (s, c): s along the unit
// direction m, c at a right angle to it on its left, cut into strands that
// each run one way in s.
func (s segment) along(m r2.Vec) []strand {
	if s.radius == 0 {
		return []strand{{s0: r2.Dot(m, s.a), c0: r2.Cross(m, s.a), s1: r2.Dot(m, s.b), c1: r2.Cross(m, s.b)}}
	}
	centre := r2.Vec{X: r2.Dot(m, s.centre), Y: r2.Cross(m, s.centre)}
	from := s.start - math.Atan2(m.Y, m.X)
	from -= 2 * math.Pi * math.Floor((from+math.Pi)/(2*math.Pi)) // now in [-π, π)
	to := from + s.sweep
	var out []strand
	for _, t := range turnings(from, to) {
		out = append(out, arcStrand(centre, s.radius, from, t))
		from = t
	}
	return append(out, arcStrand(centre, s.radius, from, to))
}

// turnings returns the multiples of π strictly between two angles, in the
// order from → to: where an arc turns back in s.
func turnings(from, to float64) []float64 {
	const slack = 1e-14
	var out []float64
	for k := -2; k <= 2; k++ {
		t := float64(k) * math.Pi
		if t > math.Min(from, to)+slack && t < math.Max(from, to)-slack {
			out = append(out, t)
		}
	}
	if to < from {
		for i, j := 0, len(out)-1; i < j; i, j = i+1, j-1 {
			out[i], out[j] = out[j], out[i]
		}
	}
	return out
}
