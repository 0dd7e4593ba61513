package float

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"floatarc/geometry"
)

// A Sense tells on which way of the fuel a dragging axle is looked at.
type Sense int

// Rising fuel finds the float held deeper, falling fuel held higher; the mean
// has no friction.
const (
	Falling Sense = -1
	Mean    Sense = 0
	Rising  Sense = 1
)

// An Arm swings a float about a level axle. Its float centre is
//
//	C(t) = pivot + length (cos t · e + sin t · ẑ) + offset · a
//
// with e the plan direction in which the arm points, a the axle, to the left of
// e, and t the angle above the tank's x-y plane. The surface lies w over the
// centre, so much that the float carries its load; without a float it passes
// through the centre.
type Arm struct {
	Pivot   r3.Vec
	Length  float64 // pivot to float centre across the axle, mm
	Offset  float64 // float centre to the left of the pivot, along the axle, mm
	Heading float64 // plan direction, degrees from forward towards left
	Low     float64 // stop on low fuel, degrees
	High    float64 // stop on high fuel, degrees
	Buoy    *Buoy   // nil for a float without a size, which rides on the surface
	Sense   Sense

	track *Lines
	plan  r3.Vec
	axle  r3.Vec
	sunk  float64 // deeper than the load takes the float, mm
}

// slack is how far, in degrees, a stop may lie beyond the track: the rounding of
// angles that follow from lengths.
const slack = 1e-9

// NewArm returns an arm with its track, which must reach both stops.
func NewArm(a Arm, track *Lines) (*Arm, error) {
	switch {
	case !(a.Length > 0):
		return nil, fmt.Errorf("arm of %g mm, expected a length above 0", a.Length)
	case !(a.Low < a.High):
		return nil, fmt.Errorf("low stop at %g° and high stop at %g°, expected the low one to be the smaller angle", a.Low, a.High)
	case a.High-a.Low > 360:
		return nil, fmt.Errorf("stops %g° apart, expected at most a whole turn", a.High-a.Low)
	}
	if from, to := track.Ends(); from > a.Low+slack || to < a.High-slack {
		return nil, fmt.Errorf("resistances are given from %.4g° to %.4g°, expected them to reach both stops, %.4g° and %.4g°", from, to, a.Low, a.High)
	}
	if a.Buoy != nil {
		if err := a.Buoy.Check(); err != nil {
			return nil, err
		}
	}
	a.track, a.plan, a.axle = track, geometry.Heading(a.Heading), geometry.Heading(a.Heading+90)
	return &a, nil
}

// On returns the arm on rising or falling fuel, or on the mean of both.
func (a *Arm) On(sense Sense) *Arm {
	b := *a
	b.Sense = sense
	return &b
}

// Drops returns the angle above which the arm does not drop by its own weight when the
// fuel leaves it, in fuel whose surface lies at right angles to the unit vector n: the
// vertical, or where friction at the axle holds it before.
func (a *Arm) Drops(n r3.Vec) float64 {
	p := a.On(Falling).swing(n)
	half := 90.0
	if p.dragged() {
		half = math.Acos(math.Min(1, p.Buoy.leastLever(Falling)/p.reach)) * 180 / math.Pi
	}
	return half - p.lean
}

// Stops implements [Sender], in degrees.
func (a *Arm) Stops() (low, high float64) { return a.Low, a.High }

// Track implements [Sender]: the resistance by angle.
func (a *Arm) Track() Track { return a.track }

// Centre returns the float centre at an angle.
func (a *Arm) Centre(degrees float64) r3.Vec {
	s, c := geometry.Sincos(degrees)
	reach := r3.Scale(a.Length*c, a.plan)
	return r3.Add(a.Pivot, r3.Add(reach, r3.Add(r3.Scale(a.Offset, a.axle), r3.Vec{Z: a.Length * s})))
}

// In implements [Sender].
func (a *Arm) In(n r3.Vec) Path {
	p := a.swing(n)
	if a.Buoy == nil {
		return p
	}
	p.waterline = a.Buoy.Shape.Afloat(n, a.axle)
	if !p.dragged() {
		p.ride, _ = p.waterline(a.Buoy.immersed(Mean, 0))
	}
	return p
}

// swing returns the arm at one attitude, without its float.
func (a *Arm) swing(n r3.Vec) *swinging {
	ahead := r3.Dot(n, a.plan)
	return &swinging{Arm: a, up: n, reach: a.Length * math.Hypot(ahead, n.Z), lean: math.Atan2(ahead, n.Z) * 180 / math.Pi}
}

// swinging is an arm at one attitude. The level of its float centre is that of
// the pivot plus reach · sin(t + lean).
type swinging struct {
	*Arm
	up    r3.Vec
	reach float64 // greatest lever, mm
	lean  float64 // degrees
	ride  float64 // waterline over the float centre without friction, mm

	waterline Waterline
}

// dragged tells whether friction moves the waterline of a float.
func (p *swinging) dragged() bool { return p.Buoy != nil && p.Sense != Mean && p.Buoy.Drag > 0 }

// lever returns the distance of the float centre from the axle across the
// vertical, |d(n·C)/dt| per radian, mm.
func (p *swinging) lever(degrees float64) float64 {
	_, cos := geometry.Sincos(degrees + p.lean)
	return math.Abs(p.reach * cos)
}

// Level implements [Path]; NaN where friction holds the float under, or out of
// the fuel.
func (p *swinging) Level(degrees float64) float64 {
	centre := r3.Dot(p.up, p.Centre(degrees)) + p.sunk
	if !p.dragged() {
		return centre + p.ride
	}
	immersed := p.Buoy.immersed(p.Sense, p.lever(degrees))
	if !p.floats(immersed) {
		return math.NaN()
	}
	height, _ := p.waterline(immersed)
	return centre + height
}

// floats tells whether a float can be immersed so far.
func (p *swinging) floats(immersed float64) bool {
	return immersed > 0 && immersed < p.Buoy.Shape.Volume()
}

// climbs tells whether the level of a dragging arm rises with the angle: its float
// centre rises by the lever, and its waterline by what friction adds to the load, or
// takes from it, over the area of the float there.
func (p *swinging) climbs(degrees float64) bool {
	sin, cos := geometry.Sincos(degrees + p.lean)
	immersed := p.Buoy.immersed(p.Sense, p.lever(degrees))
	if !p.floats(immersed) {
		return false
	}
	_, area := p.waterline(immersed)
	dragged := immersed - p.Buoy.immersed(Mean, 0) // goes as one over the cosine
	return p.reach*cos+dragged*sin/cos/area > 0
}

// Follows implements [Path]. Without friction the float rises with the angle
// while t + lean is within a right angle of a whole turn; friction takes from
// that where the lever is too short for it.
func (p *swinging) Follows(low, high float64) (from, to float64) {
	half := 90.0
	if p.dragged() {
		least := p.Buoy.leastLever(p.Sense)
		if least >= p.reach {
			return math.Inf(1), math.Inf(-1)
		}
		half = math.Acos(least/p.reach) * 180 / math.Pi * (1 - 1e-9)
	}
	from, to = math.Inf(1), math.Inf(-1)
	for k := -2.0; k <= 2; k++ {
		l, h := math.Max(low, 360*k-half-p.lean), math.Min(high, 360*k+half-p.lean)
		if h-l > to-from && h > l {
			from, to = l, h
		}
	}
	if p.dragged() && from < to {
		return p.climbing(from, to)
	}
	return from, to
}

// climbing narrows a part of the swing to where the level rises with the angle.
// Friction takes from its two ends only: what it weighs grows with the distance
// from the greatest lever, whose own rise is the steepest.
func (p *swinging) climbing(from, to float64) (low, high float64) {
	steepest := math.Max(from, math.Min(to, -p.lean+360*math.Round((from+to+2*p.lean)/720)))
	end := func(t float64) float64 {
		if p.climbs(t) {
			return t
		}
		return geometry.LastInside(p.climbs, steepest, t)
	}
	return end(from), end(to)
}
