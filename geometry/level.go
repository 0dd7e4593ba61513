package geometry

import "math"

// LevelOf returns the level, between lo and hi, at which a cut holds a volume
// (mm³), to a tolerance in mm³. It takes Newton steps, the surface being the
// derivative, kept inside a bracket that a halving shrinks where they stray. A
// cut that knows the level itself is asked.
func LevelOf(c Cut, volume, lo, hi, tolerance float64) float64 {
	if inverse, ok := c.(Inverse); ok {
		if h := inverse.Level(volume); !math.IsNaN(h) {
			return h
		}
	}
	h := lo + (hi-lo)/2
	if whole := c.Volume(hi); whole > 0 {
		h = lo + (hi-lo)*volume/whole
	}
	for range 200 {
		off := c.Volume(h) - volume
		if math.Abs(off) <= tolerance {
			return h
		}
		if off > 0 {
			hi = h
		} else {
			lo = h
		}
		next := h - off/c.Surface(h)
		if !(next > lo && next < hi) {
			next = lo + (hi-lo)/2
		}
		if next == lo || next == hi || next == h {
			return next
		}
		h = next
	}
	return h
}
