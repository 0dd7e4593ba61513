package geometry

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// ball is the unit ball about the origin. Its cuts are the spherical caps of the
// handbooks; ellipsoids are balls in a stretched frame.
type ball struct{}

const ballVolume = 4 * math.Pi / 3

func (ball) Contains(p r3.Vec) bool { return r3.Norm(p) <= 1+Nearness }

func (ball) Clearance(p r3.Vec) float64 { return math.Abs(1 - r3.Norm(p)) }

func (ball) Extent(n r3.Vec) (lo, hi float64) { return -r3.Norm(n), r3.Norm(n) }

func (ball) Cut(n r3.Vec) Cut {
	length := r3.Norm(n)
	return ballCut{up: r3.Scale(1/length, n), length: length}
}

type ballCut struct {
	up     r3.Vec
	length float64
}

// height returns the level over the centre, within [-1, 1].
func (c ballCut) height(h float64) float64 { return math.Max(-1, math.Min(1, h/c.length)) }

func (c ballCut) Volume(h float64) float64 {
	d := 1 + c.height(h)
	return math.Pi * d * d * (3 - d) / 3
}

func (c ballCut) Surface(h float64) float64 {
	z := c.height(h)
	return math.Pi * (1 - z) * (1 + z) / c.length
}

// Moment implements [Cut]: ∫ π z (1 - z²) dz.
func (c ballCut) Moment(h float64) r3.Vec {
	z := c.height(h)
	q := (1 - z) * (1 + z)
	return r3.Scale(-math.Pi*q*q/4, c.up)
}

func (c ballCut) FreeSurface(h float64) FreeSurface {
	z := c.height(h)
	q := (1 - z) * (1 + z)
	aside := Beside(c.up)
	return FreeSurface{
		Area: math.Pi * q, First: r3.Vec{Z: math.Pi * q * z},
		Second: Symmetric{XX: math.Pi * q * q / 4, YY: math.Pi * q * q / 4, ZZ: math.Pi * q * z * z},
	}.In(Frame{U: aside, V: r3.Cross(c.up, aside), W: c.up}).Times(1 / c.length)
}

func (c ballCut) Error() float64 { return closed * ballVolume }

// Ellipsoid returns the inside of an ellipsoid that stands with the least corner
// of its box at the origin; sizes along x, y, z in mm. Equal sizes make a
// sphere. A wall above 0 makes the sizes outside sizes, and every half axis
// smaller by the wall; for a sphere that is the parallel surface.
func Ellipsoid(length, width, height, wall float64) (Solid, error) {
	return ellipsoidOf([3]string{"length", "width", "height"}, [3]float64{length, width, height}, wall)
}

// Sphere returns the inside of a sphere that stands with the least corner of its
// box at the origin, diameter and wall in mm.
func Sphere(diameter, wall float64) (Solid, error) {
	return ellipsoidOf([3]string{"diameter", "diameter", "diameter"}, [3]float64{diameter, diameter, diameter}, wall)
}

func ellipsoidOf(names [3]string, sizes [3]float64, wall float64) (Solid, error) {
	var half [3]float64
	for i, s := range sizes {
		if err := positive(names[i], s); err != nil {
			return nil, err
		}
		if err := wallFits(wall, names[i], s); err != nil {
			return nil, err
		}
		half[i] = s/2 - wall
	}
	f := Frame{
		Origin: r3.Vec{X: sizes[0] / 2, Y: sizes[1] / 2, Z: sizes[2] / 2},
		U:      r3.Vec{X: half[0]}, V: r3.Vec{Y: half[1]}, W: r3.Vec{Z: half[2]},
	}
	return ellipsoid{Solid: Place(ball{}, f), centre: f.Origin, half: half}, nil
}

// An ellipsoid is a stretched ball that knows its clearance.
type ellipsoid struct {
	Solid
	centre r3.Vec
	half   [3]float64 // axes, mm
}

func (e ellipsoid) Clearance(p r3.Vec) float64 {
	d := r3.Sub(p, e.centre)
	return ellipsoidDistance(e.half, [3]float64{math.Abs(d.X), math.Abs(d.Y), math.Abs(d.Z)})
}

// ellipsoidDistance returns the distance from y, in the positive octant, to the
// ellipsoid with half axes e. The nearest point is x with x_i = e_i² y_i/(t + e_i²)
// for the greatest root t of Σ (e_i y_i/(t + e_i²))² = 1; where y lies on the
// plane across the shortest axis and has no such root, the nearest point leaves
// that plane (D. Eberly, "Distance from a Point to an Ellipse, an Ellipsoid, or a
// Hyperellipsoid", 2013, from memory).
func ellipsoidDistance(e, y [3]float64) float64 {
	short := 0
	for i := range e {
		if e[i] < e[short] {
			short = i
		}
	}
	beyond := func(t float64) bool { // short of the root
		sum := 0.0
		for i := range e {
			q := e[i] * y[i] / (t + e[i]*e[i])
			sum += q * q
		}
		return !(sum <= 1)
	}
	low, high := -e[short]*e[short], 0.0
	for i := range e {
		high += e[i] * e[i] * y[i] * y[i]
	}
	t := LastInside(beyond, low, math.Sqrt(high)+low+1)
	sum, missing := 0.0, 1.0
	var x [3]float64
	for i := range e {
		if i == short && y[i] == 0 {
			continue
		}
		if d := t + e[i]*e[i]; d > 0 {
			x[i] = e[i] * e[i] * y[i] / d
		}
		missing -= x[i] * x[i] / (e[i] * e[i])
	}
	if y[short] == 0 {
		x[short] = e[short] * math.Sqrt(math.Max(0, missing))
	}
	for i := range e {
		sum += (x[i] - y[i]) * (x[i] - y[i])
	}
	return math.Sqrt(sum)
}
