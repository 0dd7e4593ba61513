package fault

import "math"

// Densities of readings, per ohm or per volt. All have a floor: a reading may be a slip,
// whatever the cause.

// slip is how often a reading is taken, or written down, otherwise than it was (common
// practice, no source).
const slip = 0.02

// around is a reading near a value, within an absolute and a relative standard deviation.
func around(x, mean, absolute, relative float64) float64 {
	if math.IsInf(x, 1) || math.IsInf(mean, 1) {
		return 0
	}
	s := math.Hypot(absolute, relative*mean)
	z := (x - mean) / s
	return math.Exp(-z*z/2) / (s * math.Sqrt(2*math.Pi))
}

// anywhere is a reading of any size from low to high alike, by its logarithm.
func anywhere(x, low, high float64) float64 {
	if x < low || x > high {
		return 0
	}
	return 1 / (x * math.Log(high/low))
}

// within is a reading anywhere between two values, blurred at its ends by an absolute
// and a relative error of the meter and of the values.
func within(x, a, b, absolute, relative float64) float64 {
	if math.IsInf(x, 1) {
		return 0
	}
	low, high := math.Min(a, b), math.Max(a, b)
	s := math.Hypot(absolute, relative*high)
	phi := func(z float64) float64 { return 0.5 * math.Erfc(-z/math.Sqrt2) }
	if high-low < s {
		return around(x, (low+high)/2, s, 0)
	}
	return (phi((x-low)/s) - phi((x-high)/s)) / (high - low)
}

// ohmsAtAll is the density of a slip.
func ohmsAtAll(x float64) float64 {
	if math.IsInf(x, 1) {
		return 0.2
	}
	return 0.8 * anywhere(math.Max(x, 0.05), 0.04, 1e5)
}

// blend is a density with its share of slips.
func blend(d, of float64) float64 { return (1-slip)*d + slip*of }
