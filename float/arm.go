package float

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"floatarc/geometry"
)

// An Arm swings a float about a level axle. Its float centre is
//
//	C(t) = pivot + length (cos t · e + sin t · ẑ)
//
// with e the plan direction in which the arm points and t the angle above the
// tank's x-y plane. The float centre rides on the surface.
type Arm struct {
	Pivot   r3.Vec
	Length  float64 // pivot to float centre, straight line, mm
	Heading float64 // plan direction, degrees from forward towards left
	Low     float64 // stop on low fuel, degrees
	High    float64 // stop on high fuel, degrees

	track *Track
	plan  r3.Vec
}

// NewArm returns an arm with its track, which must reach both stops.
func NewArm(a Arm, track *Track) (*Arm, error) {
	switch {
	case !(a.Length > 0):
		return nil, fmt.Errorf("arm of %g mm, expected a length above 0", a.Length)
	case !(a.Low < a.High):
		return nil, fmt.Errorf("low stop at %g° and high stop at %g°, expected the low one to be the smaller angle", a.Low, a.High)
	case a.High-a.Low > 360:
		return nil, fmt.Errorf("stops %g° apart, expected at most a whole turn", a.High-a.Low)
	}
	if from, to := track.Ends(); from > a.Low || to < a.High {
		return nil, fmt.Errorf("resistances are given from %g° to %g°, expected them to reach both stops, %g° and %g°", from, to, a.Low, a.High)
	}
	a.track, a.plan = track, geometry.Heading(a.Heading)
	return &a, nil
}

// Stops returns the two stops in degrees.
func (a *Arm) Stops() (low, high float64) { return a.Low, a.High }

// Track returns the resistance by angle.
func (a *Arm) Track() *Track { return a.track }

// Centre returns the float centre at an angle.
func (a *Arm) Centre(degrees float64) r3.Vec {
	s, c := geometry.Sincos(degrees)
	reach := r3.Scale(a.Length*c, a.plan)
	return r3.Add(a.Pivot, r3.Add(reach, r3.Vec{Z: a.Length * s}))
}

// Level returns n·C at an angle.
func (a *Arm) Level(degrees float64, n r3.Vec) float64 { return r3.Dot(n, a.Centre(degrees)) }

// Rising returns the longest part of the swing in which the float rises with
// the angle. With p = n·e and q = n·ẑ the level is that of the pivot plus
// length · √(p²+q²) sin(t + atan2(p, q)), which rises while t + atan2(p, q) is
// within a right angle of a whole turn.
func (a *Arm) Rising(low, high float64, n r3.Vec) (from, to float64) {
	lean := math.Atan2(r3.Dot(n, a.plan), n.Z) * 180 / math.Pi
	from, to = math.Inf(1), math.Inf(-1)
	for k := -2.0; k <= 2; k++ {
		l, h := math.Max(low, 360*k-90-lean), math.Min(high, 360*k+90-lean)
		if h-l > to-from && h > l {
			from, to = l, h
		}
	}
	return from, to
}
