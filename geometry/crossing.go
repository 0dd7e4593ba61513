package geometry

import "math"

// Crossing returns where a continuous function that is below 0 at from and not at to
// passes 0, to the last bits, in far fewer steps than halving takes; or if it does not,
// the end next to which it would. It goes by quadratic interpolation the other way round
// where the last three values allow it, and halves elsewhere (T. R. Chandrupatla,
// Advances in Engineering Software 28, 145, 1997; from memory), as it does where the
// function is not a number.
func Crossing(f func(float64) float64, from, to float64) float64 {
	a, b := to, from
	fa, fb := f(a), f(b)
	switch {
	case fb >= 0:
		return from
	case fa < 0:
		return to
	}
	c, fc := a, fa
	t := 0.5
	for range 100 {
		x := a + t*(b-a)
		fx := f(x)
		if math.IsNaN(fx) || math.IsNaN(fa) || math.IsNaN(fb) {
			return LastInside(func(x float64) bool { return f(x) < 0 }, from, to)
		}
		if (fx < 0) == (fa < 0) {
			c, fc = a, fa
		} else {
			c, fc, b, fb = b, fb, a, fa
		}
		a, fa = x, fx
		best := a
		if math.Abs(fb) < math.Abs(fa) {
			best = b
		}
		least := rounding * math.Max(math.Abs(best), 1e-3*math.Abs(to-from)) / math.Abs(b-a)
		if fa == 0 || fb == 0 || least > 0.5 {
			return best
		}
		t = math.Max(least, math.Min(1-least, interpolated(a, b, c, fa, fb, fc)))
	}
	return a
}

// rounding is the share of a number to which a crossing is found, but near 0 of a
// thousandth of the way that is searched.
const rounding = 4e-16

// interpolated returns where, as a share of the way from a to b, the quadratic through
// three values read the other way round passes 0; half way where it is no guide.
func interpolated(a, b, c, fa, fb, fc float64) float64 {
	xi, phi := (a-b)/(c-b), (fa-fb)/(fc-fb)
	if !(phi*phi < xi && (1-phi)*(1-phi) < 1-xi) {
		return 0.5
	}
	return fa/(fb-fa)*fc/(fb-fc) + (c-a)/(b-a)*fa/(fc-fa)*fb/(fc-fb)
}
