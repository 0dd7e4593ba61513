package geometry

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// rayScan is the number of steps in which a ray is searched for a wall; a wall
// or a gap thinner than a step of it can be missed.
const rayScan = 2000

// Reach returns how far one can go from a point inside a solid in a direction
// (a unit vector) before leaving it, in mm; 0 from a point outside.
func Reach(s Solid, from, direction r3.Vec) float64 {
	at := func(d float64) bool { return s.Contains(r3.Add(from, r3.Scale(d, direction))) }
	if !at(0) {
		return 0
	}
	_, end := s.Extent(direction)
	length := end - r3.Dot(direction, from)
	in, out := 0.0, length
	for i := 1; i <= rayScan; i++ {
		d := length * float64(i) / rayScan
		if !at(d) {
			out = d
			break
		}
		in = d
	}
	return LastInside(at, in, out)
}

// LastInside halves the way between a place that is inside and one that is not,
// and returns the last place inside, to the last bit or nearly so.
func LastInside(inside func(float64) bool, in, out float64) float64 {
	return LastInsideWithin(inside, in, out, 0)
}

// LastInsideWithin does the same to a closeness, and stays inside.
func LastInsideWithin(inside func(float64) bool, in, out, closeness float64) float64 {
	for range 60 {
		mid := in + (out-in)/2
		if mid == in || mid == out || math.Abs(out-in) <= closeness {
			break
		}
		if inside(mid) {
			in = mid
		} else {
			out = mid
		}
	}
	return in
}
