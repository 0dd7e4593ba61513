package geometry

import (
	"math"

	"gonum.org/v1/gonum/integrate/quad"
)

// A rule is a set of nodes and weights on [0, 1].
type rule struct{ x, w []float64 }

// legendre returns the n-point Gauss–Legendre rule on [0, 1].
func legendre(n int) rule {
	r := rule{x: make([]float64, n), w: make([]float64, n)}
	quad.Legendre{}.FixedLocations(r.x, r.w, 0, 1)
	return r
}

// softened returns the n-point Gauss–Legendre rule after the change of
// variable x = (1 - cos θ)/2. Where the surface meets or leaves a wall the area
// of a section goes like the 3/2 power, and its chord like the 1/2 power, of
// the distance from there; in θ both are smooth, so that the rule converges
// geometrically in n (Davis and Rabinowitz, Methods of Numerical Integration,
// 2nd ed. 1984, sec. 2.12, on removing end-point singularities; from memory).
func softened(n int) rule {
	r := legendre(n)
	for i, x := range r.x {
		sin, cos := math.Sincos(math.Pi * x)
		r.x[i] = (1 - cos) / 2
		r.w[i] *= math.Pi * sin / 2
	}
	return r
}

var (
	fine       = legendre(16)
	panelRough = softened(8)
	panelFine  = softened(16)
)

// Doubling the nodes of a Gauss rule squares its error on a smooth integrand
// (Trefethen, SIAM Review 50, 2008, theorem 4.5, from memory), so that a rough
// and a fine rule that agree to agreement leave the fine one wrong by about
// agreement squared.
const (
	agreement = 2e-6
	deepest   = 24 // halvings of a panel; the width is then below rounding
)

// integrate returns the integral of f from a to b, where f may start and end
// like a half-integer power. Panels are halved until the two rules agree to
// agreement times size, the size of the whole result.
func integrate(f func(float64) float64, a, b, size float64) float64 {
	return halve(f, a, b, agreement*size, deepest)
}

func halve(f func(float64) float64, a, b, tolerance float64, left int) float64 {
	rough, better := apply(panelRough, f, a, b), apply(panelFine, f, a, b)
	if left == 0 || !(math.Abs(better-rough) > tolerance) { // so that a NaN ends it too
		return better
	}
	mid := (a + b) / 2
	return halve(f, a, mid, tolerance, left-1) + halve(f, mid, b, tolerance, left-1)
}

func apply(r rule, f func(float64) float64, a, b float64) float64 {
	sum := 0.0
	for i, x := range r.x {
		sum += r.w[i] * f(a+x*(b-a))
	}
	return sum * (b - a)
}

// halves is integrate on the two halves of a panel, for telling how far off
// integrate is.
func halves(f func(float64) float64, a, b, size float64) float64 {
	mid := (a + b) / 2
	return integrate(f, a, mid, size) + integrate(f, mid, b, size)
}

// An integrator sums a function over a panel, as integrate and halves do.
type integrator func(f func(float64) float64, a, b, size float64) float64

// errorLevels is the number of levels at which the error of a cut is measured.
const errorLevels = 7

// achieved returns the greatest difference, at some levels from lo to hi, between
// a volume by panels and by their halves, and the rounding of a whole.
func achieved(lo, hi, whole float64, volume func(h float64, by integrator) float64) float64 {
	most := 0.0
	for i := range errorLevels {
		h := lo + (hi-lo)*(float64(i)+0.5)/errorLevels
		most = math.Max(most, math.Abs(volume(h, halves)-volume(h, integrate)))
	}
	return most + closed*whole
}
