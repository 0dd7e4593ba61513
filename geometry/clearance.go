package geometry

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// Clearance implements [Solid]. Where bodies that hold fuel meet, the walls that
// they have in common are open: from inside, the distance to what is left of
// them is searched along many directions, to about a thousandth of itself.
// Everywhere else it is exact.
func (c Composite) Clearance(p r3.Vec) float64 {
	walls, modules, holding := math.Inf(1), math.Inf(1), 0
	for _, b := range c.Bodies {
		d := b.Solid.Clearance(p)
		if b.Displaces {
			modules = math.Min(modules, d)
			continue
		}
		walls = math.Min(walls, d)
		holding++
	}
	if holding < 2 || walls >= modules || !c.Encloses(p) {
		return math.Min(walls, modules)
	}
	return c.search(p, walls, modules)
}

// Directions in which a wall is looked for: over the whole sphere, and then in
// ever narrower caps about the best.
const (
	roundLooks = 600
	capLooks   = 24
	capRounds  = 8
)

// search returns the distance to the nearest wall of the bodies that hold fuel,
// which is no less than least, or most where there is none so near.
func (c Composite) search(p r3.Vec, least, most float64) float64 {
	best, toward := most, r3.Vec{Z: 1}
	look := func(d r3.Vec) {
		if far := c.march(p, d, least, best); far < best {
			best, toward = far, d
		}
	}
	for _, axis := range []r3.Vec{{X: 1}, {Y: 1}, {Z: 1}} {
		look(axis)
		look(r3.Scale(-1, axis))
	}
	for i := range roundLooks {
		look(Direction(i, roundLooks))
	}
	angle := math.Sqrt(4 * math.Pi / roundLooks)
	for range capRounds {
		middle := toward
		u := Beside(middle)
		v := r3.Cross(middle, u)
		for i := range capLooks {
			sin, cos := math.Sincos(2 * math.Pi * float64(i) / capLooks)
			reach := angle * math.Sqrt(float64(i%4+1)/4)
			look(r3.Unit(r3.Add(middle, r3.Add(r3.Scale(reach*cos, u), r3.Scale(reach*sin, v)))))
		}
		angle /= 2.5
	}
	return best
}

// Direction returns the i-th of n directions spread evenly over the sphere, along
// a spiral by the golden angle.
func Direction(i, n int) r3.Vec {
	z := 1 - (2*float64(i)+1)/float64(n)
	r := math.Sqrt(1 - z*z)
	sin, cos := math.Sincos(float64(i) * math.Pi * (3 - math.Sqrt(5)))
	return r3.Vec{X: r * cos, Y: r * sin, Z: z}
}

// Beside returns a unit vector at right angles to another, level, or along x
// where the other is upright.
func Beside(v r3.Vec) r3.Vec {
	if v.X == 0 && v.Y == 0 {
		return r3.Vec{X: 1}
	}
	return r3.Unit(r3.Cross(v, r3.Vec{Z: 1}))
}

// marchSteps is the number of steps in which a direction is searched; what is
// thinner than a step can be missed.
const marchSteps = 64

// march returns how far one can go from p in a direction, a unit vector, before
// leaving the bodies that hold fuel, knowing that it is at least least; most, or
// the far end of the tank, where it is no nearer.
func (c Composite) march(p, direction r3.Vec, least, most float64) float64 {
	_, far := c.Extent(direction)
	most = math.Min(most, far-r3.Dot(direction, p))
	in := func(d float64) bool { return c.Encloses(r3.Add(p, r3.Scale(d, direction))) }
	before := least
	for i := 1; i <= marchSteps; i++ {
		at := least + (most-least)*float64(i)/marchSteps
		if !in(at) {
			return LastInside(in, before, at)
		}
		before = at
	}
	return most
}

// Room returns the radius of a ball about a point of the tank within which there
// is nothing but fuel, and whether that is the clearance: where several bodies
// hold fuel, the ball may be larger across the faces in which they meet.
func (c Composite) Room(p r3.Vec) (radius float64, all bool) {
	limit, holding := math.Inf(1), 0
	for _, b := range c.Bodies {
		switch {
		case b.Displaces:
			limit = math.Min(limit, b.Solid.Clearance(p))
		case b.Solid.Contains(p):
			radius = math.Max(radius, b.Solid.Clearance(p))
			holding++
		default:
			holding++
		}
	}
	return math.Min(radius, limit), holding == 1
}

// Obstacle returns the distance from a point to the nearest body that displaces
// fuel; infinite if there is none.
func (c Composite) Obstacle(p r3.Vec) float64 {
	least := math.Inf(1)
	for _, b := range c.Bodies {
		if b.Displaces {
			least = math.Min(least, b.Solid.Clearance(p))
		}
	}
	return least
}
