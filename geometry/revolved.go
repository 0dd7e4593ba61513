package geometry

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r3"
)

// A Revolved solid is a meridian turned about the w axis: a head, a cone, a
// sphere. Its sections are discs, whose area below a chord is exact; along the
// axis they are summed by Gauss quadrature on panels that end where the level
// plane touches the wall.
type Revolved struct {
	meridian []stretch
	size     float64 // greatest of length and diameter, mm
	volume   float64 // mm³
}

func newRevolved(meridian ...stretch) *Revolved {
	r := &Revolved{meridian: meridian}
	first, last := meridian[0], meridian[len(meridian)-1]
	r.size = last.w1 - first.w0
	for _, s := range meridian {
		r.size = math.Max(r.size, 2*s.support(0, 1))
		r.volume += apply(fine, func(x float64) float64 {
			_, radius := s.point(x)
			return math.Pi * radius * radius * s.speed(x)
		}, 0, 1)
	}
	return r
}

// Contains implements [Solid]; p is (u, v, w).
func (b *Revolved) Contains(p r3.Vec) bool {
	slack := Nearness * b.size
	reach := math.Hypot(p.X, p.Y)
	for _, s := range b.meridian {
		if p.Z < s.w0-slack || p.Z > s.w1+slack {
			continue
		}
		w := math.Max(s.w0, math.Min(s.w1, p.Z))
		if reach <= s.radius(w)+slack {
			return true
		}
	}
	return false
}

// Clearance implements [Solid]; p is (u, v, w). The wall is the meridian turned,
// and the discs at its two ends.
func (b *Revolved) Clearance(p r3.Vec) float64 {
	first, last := b.meridian[0], b.meridian[len(b.meridian)-1]
	wall := append(profile{straight(first.w0, 0, first.w0, first.r0), straight(last.w1, 0, last.w1, last.r1)}, b.meridian...)
	return wall.distance(p.Z, math.Hypot(p.X, p.Y))
}

// Extent implements [Solid].
func (b *Revolved) Extent(n r3.Vec) (lo, hi float64) {
	t := tiltOf(n)
	lo, hi = math.Inf(1), math.Inf(-1)
	for _, s := range b.meridian {
		hi = math.Max(hi, s.support(t.slope, t.steep))
		lo = math.Min(lo, -s.support(-t.slope, t.steep))
	}
	return lo, hi
}

// Cut implements [Solid].
func (b *Revolved) Cut(n r3.Vec) Cut {
	c := &revolvedCut{tilt: tiltOf(n), solid: b}
	c.lo, c.hi = b.Extent(n)
	return c
}

type revolvedCut struct {
	tilt
	solid  *Revolved
	lo, hi float64
}

// A panel is a part of a stretch over which the sections are all dry, all full
// or all cut by the level plane.
type panel struct {
	stretch
	from, to float64
	full     bool
}

// panels calls visit for every panel that is not dry.
func (c *revolvedCut) panels(h float64, visit func(panel)) {
	var room [8]float64
	for _, s := range c.solid.meridian {
		ends := append(room[:0], 0, 1)
		ends = s.crossings(ends, c.slope, c.steep, h)
		ends = s.crossings(ends, c.slope, -c.steep, h)
		slices.Sort(ends)
		for i := 1; i < len(ends); i++ {
			if ends[i] == ends[i-1] {
				continue
			}
			w, r := s.point((ends[i-1] + ends[i]) / 2)
			level := h - c.slope*w
			if level <= -c.steep*r {
				continue
			}
			visit(panel{stretch: s, from: ends[i-1], to: ends[i], full: level >= c.steep*r})
		}
	}
}

// level returns the axial place, the radius and the level in the section, as a
// share of the radius within [-1, 1], at a parameter of the panel.
func (c *revolvedCut) level(p panel, x, h float64) (w, r, k float64) {
	w, r = p.point(x)
	if p.full || r == 0 {
		return w, r, 1
	}
	return w, r, math.Max(-1, math.Min(1, (h-c.slope*w)/(c.steep*r)))
}

// sum integrates a quantity of the cut disc (radius r, level k·r, axial place
// w) along the axis; size is the scale of the result.
func (c *revolvedCut) sum(h, size float64, of func(w, r, k float64) float64) float64 {
	return c.sumBy(integrate, h, size, of)
}

func (c *revolvedCut) sumBy(by integrator, h, size float64, of func(w, r, k float64) float64) float64 {
	total := 0.0
	c.panels(h, func(p panel) {
		f := func(x float64) float64 {
			w, r, k := c.level(p, x, h)
			return of(w, r, k) * p.speed(x)
		}
		if p.full { // a polynomial, or one of sines and cosines
			total += apply(fine, f, p.from, p.to)
			return
		}
		total += by(f, p.from, p.to, size)
	})
	return total
}

func (c *revolvedCut) Volume(h float64) float64 {
	switch {
	case h >= c.hi:
		return c.solid.volume
	case h <= c.lo:
		return 0
	}
	return math.Max(0, math.Min(c.solid.volume, c.volumeBy(h, integrate)))
}

func (c *revolvedCut) volumeBy(h float64, by integrator) float64 {
	return c.sumBy(by, h, c.solid.volume, func(_, r, k float64) float64 { return r * r * segmentArea(k) })
}

func (c *revolvedCut) Surface(h float64) float64 {
	if h < c.lo || h > c.hi {
		return 0
	}
	if c.standing() {
		return c.disc(h / c.slope)
	}
	total := 0.0
	c.panels(h, func(p panel) {
		if p.full {
			return
		}
		total += integrate(func(x float64) float64 {
			_, r, k := c.level(p, x, h)
			return 2 * r * math.Sqrt(1-k*k) * p.speed(x) / c.steep
		}, p.from, p.to, c.solid.size*c.solid.size)
	})
	return math.Max(0, total)
}

// disc returns the surface of an upright solid, the section at w over the
// slope.
func (c *revolvedCut) disc(w float64) float64 {
	for _, s := range c.solid.meridian {
		if within(w, s.w0, s.w1, c.slope) {
			r := s.radius(w)
			return math.Pi * r * r / math.Abs(c.slope)
		}
	}
	return 0
}

func (c *revolvedCut) Moment(h float64) r3.Vec {
	size := c.solid.volume * c.solid.size
	down := c.sum(h, size, func(_, r, k float64) float64 { return r * r * r * segmentMoment(k) })
	along := c.sum(h, size, func(w, r, k float64) float64 { return w * r * r * segmentArea(k) })
	return c.turned(down, 0, along)
}

// FreeSurface implements [Cut].
func (c *revolvedCut) FreeSurface(h float64) FreeSurface {
	frame := c.frame()
	if c.standing() {
		w := h / c.slope
		area := c.disc(w)
		quarter := area * area * math.Abs(c.slope) / (4 * math.Pi) // of r² times the area
		return FreeSurface{
			Area: area, First: r3.Vec{Z: w * area},
			Second: Symmetric{XX: quarter, YY: quarter, ZZ: w * w * area},
		}.In(frame)
	}
	// Chords of half-length c at the place s across the axis.
	over := func(of func(w, s, c float64) float64) float64 {
		return c.sum(h, c.solid.volume, func(w, r, k float64) float64 {
			half := r * math.Sqrt(math.Max(0, 1-k*k))
			return 2 * half * of(w, k*r, half) / c.steep
		})
	}
	return FreeSurface{
		Area: c.Surface(h),
		First: r3.Vec{
			X: over(func(_, s, _ float64) float64 { return s }),
			Z: over(func(w, _, _ float64) float64 { return w }),
		},
		Second: Symmetric{
			XX: over(func(_, s, _ float64) float64 { return s * s }),
			YY: over(func(_, _, c float64) float64 { return c * c / 3 }),
			ZZ: over(func(w, _, _ float64) float64 { return w * w }),
			ZX: over(func(w, s, _ float64) float64 { return w * s }),
		},
	}.In(frame)
}

// Error implements [Cut].
func (c *revolvedCut) Error() float64 { return achieved(c.lo, c.hi, c.solid.volume, c.volumeBy) }

// segmentArea returns the area of the unit disc below the chord s = k.
func segmentArea(k float64) float64 {
	switch {
	case k >= 1:
		return math.Pi
	case k <= -1:
		return 0
	}
	return math.Acos(-k) + k*math.Sqrt((1-k)*(1+k))
}

// segmentMoment returns ∫∫ s dA over the unit disc below s = k.
func segmentMoment(k float64) float64 {
	q := (1 - k) * (1 + k)
	if q <= 0 {
		return 0
	}
	return -2. / 3 * q * math.Sqrt(q)
}
