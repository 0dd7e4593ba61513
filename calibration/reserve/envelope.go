package reserve

import (
	"math"
	"slices"

	"floatarc/geometry"
)

// An Envelope is the attitudes of the vehicle to allow for, in degrees: from NoseUp
// nose down to NoseUp nose up, with LeftUp to either side.
type Envelope struct{ NoseUp, LeftUp float64 }

// Level tells whether there is nothing to allow for.
func (e Envelope) Level() bool { return e == Envelope{} }

// Accelerated returns the least envelope that holds every attitude of e with a
// sustained acceleration of up to so much along the vehicle (speeding up or braking)
// and across it (turning), both at once, as shares of that of free fall. The
// accelerations add to the vertical as vectors and not as angles:
//
//	tan nose = (sin a + x) / hypot(cos a sin b - y', cos a cos b),  y' = min(y, cos a sin b)
//	tan left = tan b + y / (cos a cos b)
//
// with a, b the edges of e: the nose is the steepest where a turn takes from the lean.
func (e Envelope) Accelerated(along, across float64) Envelope {
	if along == 0 && across == 0 {
		return e
	}
	corner := geometry.Attitude(e)
	easing := math.Min(across, corner.Up().Y)
	return Envelope{NoseUp: corner.Accelerated(along, -easing).NoseUp, LeftUp: corner.Accelerated(0, across).LeftUp}
}

// Scaled returns the envelope with both grades, the tangents, multiplied.
func (e Envelope) Scaled(by float64) Envelope {
	scaled := func(degrees float64) float64 {
		return math.Atan(by*math.Tan(degrees*math.Pi/180)) * 180 / math.Pi
	}
	return Envelope{scaled(e.NoseUp), scaled(e.LeftUp)}
}

// at returns the attitude at a place of the envelope, both coordinates from -1 to 1.
func (e Envelope) at(u, v float64) geometry.Attitude {
	return geometry.Attitude{NoseUp: u * e.NoseUp, LeftUp: v * e.LeftUp}
}

// folded returns an attitude, or the mirror image at the edge of one that lies as
// little beyond it.
func (e Envelope) folded(a geometry.Attitude) geometry.Attitude {
	fold := func(x, extent float64) float64 {
		x = math.Max(-3*extent, math.Min(3*extent, x))
		switch {
		case x > extent:
			return 2*extent - x
		case x < -extent:
			return -2*extent - x
		}
		return x
	}
	return geometry.Attitude{NoseUp: fold(a.NoseUp, e.NoseUp), LeftUp: fold(a.LeftUp, e.LeftUp)}
}

// Grid returns attitudes evenly spread, n by n; n is odd, so that the level, the
// corners and the middles of the edges are among them. Along an extent of 0 there is
// one alone.
func (e Envelope) Grid(n int) [][]geometry.Attitude {
	steps := func(extent float64) []float64 {
		if extent == 0 || n < 2 {
			return []float64{0}
		}
		out := make([]float64, n)
		for i := range out {
			out[i] = float64(2*i-(n-1)) / float64(n-1)
		}
		return out
	}
	var out [][]geometry.Attitude
	for _, u := range steps(e.NoseUp) {
		var row []geometry.Attitude
		for _, v := range steps(e.LeftUp) {
			row = append(row, e.at(u, -v)) // the left side up first: of two that are alike, the first counts
		}
		out = append(out, row)
	}
	return out
}

// Landmarks returns the level, the middles of the edges and the corners.
func (e Envelope) Landmarks() []geometry.Attitude {
	all := slices.Concat(e.Grid(3)...)
	middle := len(all) / 2
	return slices.Concat(all[middle:middle+1], all[:middle], all[middle+1:])
}
