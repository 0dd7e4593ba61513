package float

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"floatarc/geometry"
)

// A Swing is the part of an arm's way between its stops that the tank leaves
// free, in degrees.
type Swing struct {
	Low, High float64
	// Where the arm meets a wall before its stop, in degrees; NaN where it
	// reaches the stop.
	WallLow, WallHigh float64
}

// A Container tells whether fuel, and so a float, can be at a point.
type Container interface {
	Contains(p r3.Vec) bool
}

// scan is the number of steps in which the way between the stops is searched
// for walls; an obstacle thinner than a step can be missed.
const scan = 2000

// Swing returns the longest stretch between the stops in which the float centre
// is inside the tank. It does not depend on the attitude.
func (a *Arm) Swing(tank Container) (Swing, error) {
	at := func(i int) float64 {
		if i == scan {
			return a.High
		}
		return a.Low + (a.High-a.Low)*float64(i)/float64(scan)
	}
	inside := func(t float64) bool { return tank.Contains(a.Centre(t)) }
	best, start := Swing{Low: math.Inf(1), High: math.Inf(-1)}, -1
	for i := 0; i <= scan+1; i++ {
		if i <= scan && inside(at(i)) {
			if start < 0 {
				start = i
			}
			continue
		}
		if start < 0 {
			continue
		}
		s := Swing{Low: at(start), High: at(i - 1), WallLow: math.NaN(), WallHigh: math.NaN()}
		if start > 0 {
			s.Low = geometry.LastInside(inside, at(start), at(start-1))
			s.WallLow = s.Low
		}
		if i <= scan {
			s.High = geometry.LastInside(inside, at(i-1), at(i))
			s.WallHigh = s.High
		}
		if s.High-s.Low > best.High-best.Low || math.IsInf(best.Low, 1) {
			best = s
		}
		start = -1
	}
	if best.High-best.Low <= 0 || math.IsInf(best.Low, 1) {
		return Swing{}, fmt.Errorf("the float centre is inside the tank at no angle from %g° to %g°, expected an arm that swings in the tank", a.Low, a.High)
	}
	return best, nil
}
