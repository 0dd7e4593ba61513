package geometry

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// sides of a tank, by the axis that a wall's outward normal follows most.
var sides = [3][2]string{{"rear", "front"}, {"right side", "left side"}, {"floor", "roof"}}

// WallAt names the wall nearest to p, where one meets it coming from a point
// inside: the body, and its floor, roof, front, rear, left or right side;
// no side for a body that displaces fuel.
func (c Composite) WallAt(p, from r3.Vec) (body, side string) {
	var met *Body
	least := math.Inf(1)
	for i := range c.Bodies {
		b := &c.Bodies[i]
		if d := b.Solid.Clearance(p); d < least {
			met, least = b, d
		}
	}
	if met == nil {
		return "", ""
	}
	if met.Displaces {
		return met.Name, ""
	}
	// Inward from the wall the clearance grows along its normal.
	inside := r3.Add(p, r3.Scale(0.05, r3.Sub(from, p)))
	step := 1e-3 * math.Max(1e-3, r3.Norm(r3.Sub(from, p)))
	along := func(axis r3.Vec) float64 {
		return met.Solid.Clearance(r3.Add(inside, r3.Scale(step, axis))) - met.Solid.Clearance(r3.Sub(inside, r3.Scale(step, axis)))
	}
	grows := [3]float64{along(r3.Vec{X: 1}), along(r3.Vec{Y: 1}), along(r3.Vec{Z: 1})}
	most := 0
	for i, g := range grows {
		if math.Abs(g) > math.Abs(grows[most]) {
			most = i
		}
	}
	if grows[most] > 0 {
		return met.Name, sides[most][0]
	}
	return met.Name, sides[most][1]
}
