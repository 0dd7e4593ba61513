package geometry

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"
)

// A stretch is one piece of the meridian of a revolved solid, in the half-plane
// of axis w and radius r ≥ 0: a straight line, or an arc of an ellipse whose
// axes lie along w and r. It is run through by a parameter from 0 to 1 with w
// never falling.
type stretch struct {
	w0, r0, w1, r1 float64 // ends
	elliptic       bool
	wc, rc         float64 // centre of the arc
	p, q           float64 // its semi-axes along w and along r
	from, turn     float64 // angle at the start, and from start to end
}

func straight(w0, r0, w1, r1 float64) stretch {
	return stretch{w0: w0, r0: r0, w1: w1, r1: r1}
}

// ellipseArc returns the arc with w = wc + p cos φ, r = rc + q sin φ.
func ellipseArc(wc, rc, p, q, from, to float64) stretch {
	s := stretch{elliptic: true, wc: wc, rc: rc, p: p, q: q, from: from, turn: to - from}
	s.w0, s.r0 = s.point(0)
	s.w1, s.r1 = s.point(1)
	return s
}

// point returns the place at parameter x.
func (s stretch) point(x float64) (w, r float64) {
	if !s.elliptic {
		return s.w0 + x*(s.w1-s.w0), s.r0 + x*(s.r1-s.r0)
	}
	sin, cos := math.Sincos(s.from + x*s.turn)
	return s.wc + s.p*cos, math.Max(0, s.rc+s.q*sin)
}

// speed returns dw/dx at parameter x.
func (s stretch) speed(x float64) float64 {
	if !s.elliptic {
		return s.w1 - s.w0
	}
	return -s.p * math.Sin(s.from+x*s.turn) * s.turn
}

// radius returns r at an axial place within the stretch.
func (s stretch) radius(w float64) float64 {
	if !s.elliptic {
		return s.r0 + (w-s.w0)/(s.w1-s.w0)*(s.r1-s.r0)
	}
	k := math.Max(-1, math.Min(1, (w-s.wc)/s.p))
	return math.Max(0, s.rc+s.q*math.Sqrt(1-k*k))
}

// crossings appends the parameters strictly within the stretch at which
// a·w + b·r = h. On an arc that is A cos φ + B sin φ = C, whose solutions are
// atan2(B, A) ± acos(C/√(A²+B²)).
func (s stretch) crossings(out []float64, a, b, h float64) []float64 {
	keep := func(x float64) {
		if x > 0 && x < 1 {
			out = append(out, x)
		}
	}
	if !s.elliptic {
		if rise := a*(s.w1-s.w0) + b*(s.r1-s.r0); rise != 0 {
			keep((h - a*s.w0 - b*s.r0) / rise)
		}
		return out
	}
	ca, cb, c := a*s.p, b*s.q, h-a*s.wc-b*s.rc
	size := math.Hypot(ca, cb)
	if size == 0 || math.Abs(c) > size {
		return out
	}
	mid, half := math.Atan2(cb, ca), math.Acos(c/size)
	for _, phi := range []float64{mid - half, mid + half} {
		for k := -1.0; k <= 1; k++ {
			keep((phi + 2*math.Pi*k - s.from) / s.turn)
		}
	}
	return out
}

// support returns the greatest a·w + b·r over the stretch.
func (s stretch) support(a, b float64) float64 {
	most := math.Max(a*s.w0+b*s.r0, a*s.w1+b*s.r1)
	if !s.elliptic {
		return most
	}
	phi := math.Atan2(b*s.q, a*s.p)
	for k := -1.0; k <= 1; k++ {
		if x := (phi + 2*math.Pi*k - s.from) / s.turn; x > 0 && x < 1 {
			w, r := s.point(x)
			most = math.Max(most, a*w+b*r)
		}
	}
	return most
}

// distance returns how far the point (w, r) lies from the stretch.
func (s stretch) distance(w, r float64) float64 {
	if !s.elliptic {
		return distanceToLine(r2.Vec{X: w, Y: r}, r2.Vec{X: s.w0, Y: s.r0}, r2.Vec{X: s.w1, Y: s.r1})
	}
	away := func(x float64) float64 {
		sw, sr := s.point(x)
		return math.Hypot(sw-w, sr-r)
	}
	falls := func(x float64) bool {
		sw, sr := s.point(x)
		sin, cos := math.Sincos(s.from + x*s.turn)
		return ((sw-w)*-s.p*sin+(sr-r)*s.q*cos)*s.turn <= 0
	}
	// The nearest of evenly spread places, and then the place between its
	// neighbours where the distance stops falling.
	from, to := valley(away, 32)
	x := from
	if falls(from) {
		x = LastInside(falls, from, to)
	}
	return math.Min(away(x), math.Min(away(0), away(1)))
}

// moved returns the stretch with w turned to at + side·w, side being 1 or -1.
func (s stretch) moved(at, side float64) stretch {
	s.w0, s.w1, s.wc, s.p = at+side*s.w0, at+side*s.w1, at+side*s.wc, side*s.p
	return s
}

// A profile is the outline of a turned solid in the half-plane of w and r.
type profile []stretch

func (p profile) distance(w, r float64) float64 {
	least := math.Inf(1)
	for _, s := range p {
		least = math.Min(least, s.distance(w, r))
	}
	return least
}
