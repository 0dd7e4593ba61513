package float

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"floatarc/geometry"
)

// A wall that a swing is known to meet is looked for within the first of these angles of
// where it was, in degrees, then within the next.
var nearby = []float64{0.4, 1.2, 4}

// closely is the angle, in degrees, to which such a wall is found: no litres hang on it.
const closely = 1e-5

// SwingLike returns the swing of an arm that differs little from one whose swing is
// known, many times faster and to a hundred-thousandth of a degree: walls are looked
// for where that one met them, and at the stops that it reached. Where they are not
// found there, the whole way is searched.
func (a *Arm) SwingLike(known Swing, tank Container) (Swing, error) {
	body := a.body(tank)
	middle := math.Max(a.Low, math.Min(a.High, (known.Low+known.High)/2))
	low, ok := body.end(known.Low, known.MetLow != nil, a.Low, middle)
	high, also := body.end(known.High, known.MetHigh != nil, a.High, middle)
	if !ok || !also || !body.inside(middle) {
		return a.Swing(tank)
	}
	s := Swing{Low: low, High: high}
	if low != a.Low {
		s.MetLow = body.contact(low, a.Low)
	}
	if high != a.High {
		s.MetHigh = body.contact(high, a.High)
	}
	return s, nil
}

// end returns one end of a swing: near where it was known to meet a wall, or at the stop.
// It reports false where neither is so.
func (b *body) end(known float64, met bool, stop, middle float64) (float64, bool) {
	outward := math.Copysign(1, stop-middle)
	beside := func(by float64) float64 { // no further than the stop, nor past the middle
		return middle + outward*math.Max(0, math.Min(math.Abs(stop-middle), outward*(known-middle)+by))
	}
	for _, by := range nearby {
		in, out := beside(-by), beside(by)
		if !met {
			out = stop
		}
		if b.inside(out) {
			if out == stop {
				return stop, true
			}
			continue
		}
		if last, ok := b.meets(in, out); ok {
			return last, true
		}
	}
	return 0, false
}

// meets returns the last angle, on the way from one at which the float is inside to one at
// which it is not, at which it still is; false if it is not inside at the first. Only the
// points of it that are outside at the second are followed, fewer and fewer of them; the
// whole float is looked at where the last of them comes in.
func (b *body) meets(in, out float64) (float64, bool) {
	following := b.allOutside(b.arm.Centre(out), b.skin)
	comes := func(degrees float64) bool {
		still := b.allOutside(b.arm.Centre(degrees), following)
		if len(still) > 0 {
			following = still
		}
		return len(still) == 0
	}
	if len(following) > 0 {
		if len(b.allOutside(b.arm.Centre(in), following)) > 0 {
			return 0, false
		}
		if last := geometry.LastInsideWithin(comes, in, out, closely); last != in && b.inside(last) {
			return last, true
		}
	}
	if !b.inside(in) {
		return 0, false
	}
	return geometry.LastInsideWithin(b.inside, in, out, closely), true
}

// allOutside returns the points of a float about a centre that are outside.
func (b *body) allOutside(c r3.Vec, points []r3.Vec) []r3.Vec {
	var out []r3.Vec
	for _, d := range points {
		if !b.tank.Contains(r3.Add(c, d)) {
			out = append(out, d)
		}
	}
	return out
}
