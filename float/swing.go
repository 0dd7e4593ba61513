package float

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"floatarc/geometry"
)

// A Swing is the part of an arm's way between its stops that the tank leaves
// free, in degrees. It does not depend on the attitude.
type Swing struct {
	Low, High float64
	// Where the float meets a wall before its stop; nil where the arm reaches
	// the stop.
	MetLow, MetHigh *Contact
}

// A Contact is where a float meets a wall.
type Contact struct {
	Angle float64 // degrees
	At    r3.Vec  // a point of the float that is just outside
	From  r3.Vec  // the float centre then
}

// A Container is a tank as a float sees it.
type Container interface {
	// Contains tells whether fuel, and so a float, can be at a point.
	Contains(p r3.Vec) bool

	// Room returns the radius about a point inside within which there is
	// nothing but fuel, and whether that is all there is; if not, there may
	// be more.
	Room(p r3.Vec) (radius float64, all bool)

	// Obstacle returns the distance from a point to the nearest body that
	// displaces fuel.
	Obstacle(p r3.Vec) float64
}

// scan is the number of steps in which the way between the stops is searched
// for walls; an obstacle thinner than a step can be missed.
const scan = 720

// Swing returns the longest stretch between the stops in which the float, or its
// centre if it has no size, is inside the tank.
func (a *Arm) Swing(tank Container) (Swing, error) {
	body := a.body(tank)
	at := func(i int) float64 {
		if i == scan {
			return a.High
		}
		return a.Low + (a.High-a.Low)*float64(i)/float64(scan)
	}
	best, start := Swing{Low: math.Inf(1), High: math.Inf(-1)}, -1
	for i := 0; i <= scan+1; i++ {
		if i <= scan && body.inside(at(i)) {
			if start < 0 {
				start = i
			}
			continue
		}
		if start < 0 {
			continue
		}
		s := Swing{Low: at(start), High: at(i - 1)}
		if start > 0 {
			s.Low = geometry.LastInside(body.inside, at(start), at(start-1))
			s.MetLow = body.contact(s.Low, at(start-1))
		}
		if i <= scan {
			s.High = geometry.LastInside(body.inside, at(i-1), at(i))
			s.MetHigh = body.contact(s.High, at(i))
		}
		if s.High-s.Low > best.High-best.Low || math.IsInf(best.Low, 1) {
			best = s
		}
		start = -1
	}
	if best.High-best.Low <= 0 || math.IsInf(best.Low, 1) {
		return Swing{}, fmt.Errorf("the %s is inside the tank at no angle from %g° to %g°, expected an arm that swings in the tank", body.name(), a.Low, a.High)
	}
	return best, nil
}

// body is a float on its way through a tank.
type body struct {
	arm          *Arm
	tank         Container
	inner, outer float64
	skin         []r3.Vec
	patches      []patch // of a dense skin; nil until something is near
	last         r3.Vec  // the point of the float that was outside last, where it is likely to be again
}

// A patch is some points of a skin side by side, all within a radius of one of
// them.
type patch struct {
	points []r3.Vec
	middle r3.Vec
	radius float64
}

// patchSize is the number of points of a patch.
const patchSize = 16

func patchesOf(skin []r3.Vec) []patch {
	var out []patch
	for len(skin) > 0 {
		n := min(patchSize, len(skin))
		p := patch{points: skin[:n], middle: skin[n/2]}
		for _, q := range p.points {
			p.radius = math.Max(p.radius, r3.Norm(r3.Sub(q, p.middle)))
		}
		out, skin = append(out, p), skin[n:]
	}
	return out
}

func (a *Arm) body(tank Container) *body {
	b := &body{arm: a, tank: tank}
	if a.Buoy != nil {
		b.inner, b.outer = a.Buoy.Shape.Ball()
		b.skin = a.Buoy.Shape.Skin(a.axle, false)
	}
	return b
}

func (b *body) name() string {
	if b.skin == nil {
		return "float centre"
	}
	return "float"
}

// inside tells whether the whole float is inside at an angle.
func (b *body) inside(degrees float64) bool {
	c := b.arm.Centre(degrees)
	if !b.tank.Contains(c) {
		return false
	}
	if b.skin == nil {
		return true
	}
	switch room, all := b.tank.Room(c); {
	case room >= b.outer:
		return true
	case all && room < b.inner: // for a ball, inner is outer
		return false
	}
	if !b.tank.Contains(r3.Add(c, b.last)) {
		return false
	}
	at, out := b.outside(c)
	if out {
		b.last = r3.Sub(at, c)
	}
	return !out
}

// outside returns a point of the float about a centre that is outside. A pipe or a
// plate may pass between few points, so that near one there must be many.
func (b *body) outside(c r3.Vec) (r3.Vec, bool) {
	for _, d := range b.skin {
		if p := r3.Add(c, d); !b.tank.Contains(p) {
			return p, true
		}
	}
	switch near := b.tank.Obstacle(c); {
	case near >= b.outer:
		return r3.Vec{}, false
	case near < b.inner:
		return c, true // for a ball that is all there is to ask
	}
	if b.patches == nil {
		b.patches = patchesOf(b.arm.Buoy.Shape.Skin(b.arm.axle, true))
	}
	for _, patch := range b.patches {
		if b.tank.Obstacle(r3.Add(c, patch.middle)) > patch.radius {
			continue
		}
		for _, d := range patch.points {
			if p := r3.Add(c, d); !b.tank.Contains(p) {
				return p, true
			}
		}
	}
	return r3.Vec{}, false
}

// contact tells where the float meets a wall on its way from an angle at which it
// is inside to one at which it is not.
func (b *body) contact(in, out float64) *Contact {
	past := in + math.Copysign(math.Min(math.Abs(out-in), 0.01), out-in)
	c := b.arm.Centre(past)
	at, found := b.outside(c)
	if !found {
		at = c
	}
	return &Contact{Angle: in, At: at, From: b.arm.Centre(in)}
}
