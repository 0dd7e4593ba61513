package volume

import (
	"errors"
	"fmt"
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"floatarc/geometry"
)

// A Stick is a dipstick that stands on its foot in a tank, at any place of the floor
// and at any lean. The level plane through the point at s along it lies at
//
//	h = n·foot + s (n·d)
//
// with n up and d the direction of the stick.
type Stick struct {
	Foot      r3.Vec // tank frame, mm
	Direction r3.Vec // unit vector in the tank frame, from the foot to the top
}

// Leaning returns the direction of a stick whose top leans forward and to the left in
// the tank frame, by degrees less than a right angle: d ∝ (tan forward, tan left, 1).
func Leaning(forward, left float64) r3.Vec {
	tan := func(degrees float64) float64 {
		s, c := geometry.Sincos(degrees)
		return s / c
	}
	return r3.Unit(r3.Vec{X: tan(forward), Y: tan(left), Z: 1})
}

// Rise returns by how many millimetres the level grows for one along the stick: the
// cosine of its lean from plumb. A stick that does not rise shows nothing.
func (s Stick) Rise(c *Contents) float64 { return r3.Dot(c.Up, s.Direction) }

// Level returns the level of the surface that wets the stick up to so many mm from its
// foot.
func (s Stick) Level(c *Contents, along float64) float64 {
	return r3.Dot(c.Up, s.Foot) + along*s.Rise(c)
}

// Litres returns the litres that wet the stick up to so many mm from its foot.
func (s Stick) Litres(c *Contents, along float64) float64 { return c.Litres(s.Level(c, along)) }

// Along returns how far from its foot so many litres wet the stick, mm; below 0 where
// they do not reach the foot.
func (s Stick) Along(c *Contents, litres float64) float64 {
	return (c.Level(litres) - r3.Dot(c.Up, s.Foot)) / s.Rise(c)
}

// ErrBeside is returned for a stick beside the tank.
var ErrBeside = errors.New("not over the tank")

// A BlockedError is returned where something in the tank is in the way of a stick.
type BlockedError struct {
	By string // the body that displaces fuel there; empty for the tank's own wall
	At r3.Vec // where the stick meets it, mm
}

func (e *BlockedError) Error() string {
	by := "the tank's wall"
	if e.By != "" {
		by = e.By
	}
	return fmt.Sprintf("%s is in the way at (%.4g, %.4g, %.4g) mm", by, e.At.X, e.At.Y, e.At.Z)
}

// columnSteps is the number of steps in which a line through a tank is searched for its
// walls.
const columnSteps = 2000

// Footing returns the lowest place inside a tank on the line through a point in a
// direction, a unit vector that points up, or [ErrBeside].
func Footing(shape geometry.Composite, through, direction r3.Vec) (r3.Vec, error) {
	low, high := shape.Extent(direction)
	on := func(t float64) r3.Vec {
		return r3.Add(through, r3.Scale(t-r3.Dot(through, direction), direction))
	}
	inside := func(t float64) bool { return shape.Encloses(on(t)) }
	step := (high - low) / columnSteps
	for i := range columnSteps + 1 {
		t := low + float64(i)*step
		if !inside(t) {
			continue
		}
		if i > 0 {
			t = geometry.LastInside(inside, t, t-step)
		}
		return on(t), nil
	}
	return r3.Vec{}, ErrBeside
}

// Top returns how far from its foot a stick leaves the tank, mm, or a [BlockedError]
// where it cannot be put in from there: a body that displaces fuel is in the way, or
// the tank goes on behind a wall.
func (s Stick) Top(shape geometry.Composite) (float64, error) {
	at := func(along float64) r3.Vec { return r3.Add(s.Foot, r3.Scale(along, s.Direction)) }
	holding := geometry.Composite{}
	for _, b := range shape.Bodies {
		if !b.Displaces {
			holding.Bodies = append(holding.Bodies, b)
		}
	}
	top := geometry.Reach(holding, s.Foot, s.Direction)
	for i := range columnSteps + 1 {
		p := at(top * float64(i) / columnSteps)
		for _, b := range shape.Bodies {
			if b.Displaces && b.Solid.Contains(p) {
				return 0, &BlockedError{By: b.Name, At: p}
			}
		}
	}
	_, high := shape.Extent(s.Direction)
	rest := high - r3.Dot(s.Direction, s.Foot) - top
	for i := 1; i <= columnSteps; i++ {
		if gap := rest * float64(i) / columnSteps; gap > sliver*math.Abs(high) && holding.Contains(at(top+gap)) {
			return 0, &BlockedError{At: at(top)}
		}
	}
	return top, nil
}

// sliver is how far beyond a wall, as a share of its height, a tank is not yet behind
// it: rounding.
const sliver = 1e-6
