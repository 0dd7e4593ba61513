package geometry

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// Gravity is the standard acceleration of free fall, m/s² (BIPM, from memory).
const Gravity = 9.80665

// An Attitude is how a vehicle stands, in degrees.
type Attitude struct {
	NoseUp float64 // front higher than rear; the opposite sign of ISO 8855 pitch
	LeftUp float64 // left side higher than right; the sign of ISO 8855 roll
}

// A Mount is how the tank sits in a vehicle that stands on level ground, in
// degrees.
type Mount struct {
	Attitude
	Heading float64 // turn of the tank in plan, from forward towards left
}

// Up returns the unit vector that points up, in the tank frame, when the
// vehicle stands at an attitude:
//
//	n = Rz(-heading) Rx(-mount.left) Ry(mount.nose) Rx(-left) Ry(nose) ẑ
//
// For no mount that is (sin a, cos a sin b, cos a cos b) for nose up a and
// left up b.
func (m Mount) Up(a Attitude) r3.Vec { return m.turned(r3.Vec{Z: 1}, a) }

// Forward returns the level unit vector, in the tank frame, that points where
// the vehicle heads: the line about which it heels.
func (m Mount) Forward(a Attitude) r3.Vec { return m.turned(r3.Vec{X: 1}, a) }

// turned takes a vector from the axes of the ground, x where the vehicle heads,
// to the tank frame.
func (m Mount) turned(n r3.Vec, a Attitude) r3.Vec {
	n = turnY(n, a.NoseUp)
	n = turnX(n, -a.LeftUp)
	n = turnY(n, m.NoseUp)
	n = turnX(n, -m.LeftUp)
	return turnZ(n, -m.Heading)
}

// Up returns the unit vector that points up, in the axes of the vehicle.
func (a Attitude) Up() r3.Vec { return Mount{}.Up(a) }

// AttitudeOf returns the attitude at which a vector, in the axes of the vehicle,
// points up. Only its direction counts, and it must not point down.
func AttitudeOf(up r3.Vec) Attitude {
	return Attitude{
		NoseUp: math.Atan2(up.X, math.Hypot(up.Y, up.Z)) * 180 / math.Pi,
		LeftUp: math.Atan2(up.Y, up.Z) * 180 / math.Pi,
	}
}

// Accelerated returns the attitude at which resting fuel lies as it does in a
// vehicle that stands at a and keeps accelerating along its own axes, forward and
// to the left, by so many times the acceleration of free fall. The accelerations
// add to the vertical as vectors, n ∝ n + A/g, and not as angles: from level ground
// nose up is atan(A/g).
func (a Attitude) Accelerated(forward, left float64) Attitude {
	return AttitudeOf(r3.Add(a.Up(), r3.Vec{X: forward, Y: left}))
}

// Heading returns the unit vector that points in a plan direction, in degrees
// from forward towards left.
func Heading(degrees float64) r3.Vec {
	return turnZ(r3.Vec{X: 1}, degrees)
}

func turnX(v r3.Vec, degrees float64) r3.Vec {
	s, c := Sincos(degrees)
	return r3.Vec{X: v.X, Y: c*v.Y - s*v.Z, Z: s*v.Y + c*v.Z}
}

func turnY(v r3.Vec, degrees float64) r3.Vec {
	s, c := Sincos(degrees)
	return r3.Vec{X: c*v.X + s*v.Z, Y: v.Y, Z: c*v.Z - s*v.X}
}

func turnZ(v r3.Vec, degrees float64) r3.Vec {
	s, c := Sincos(degrees)
	return r3.Vec{X: c*v.X - s*v.Y, Y: s*v.X + c*v.Y, Z: v.Z}
}

// Sincos returns the sine and cosine of an angle in degrees. They are exact at
// multiples of a right angle, where tanks and arms mostly stand: cos 90° is 0
// and not 6e-17.
func Sincos(degrees float64) (sin, cos float64) {
	q := math.Round(degrees / 90)
	s, c := math.Sincos((degrees - 90*q) * math.Pi / 180)
	switch math.Mod(q, 4) {
	case 1, -3:
		return c, -s
	case 2, -2:
		return -s, -c
	case 3, -1:
		return -c, s
	}
	return s, c
}
