package fullsize

import (
	"math"
	"strings"

	"floatarc/plots/ink"
	"floatarc/tanks/quantity"
)

// ladder returns the steps from least to most at which a scale may be ruled, in the
// units that people read: 1, 2 and 5 times a power of ten; of gallons a quarter in place
// of a fifth.
func ladder(units quantity.System, least, most float64) []float64 {
	var out []float64
	for power := math.Floor(math.Log10(least)); power <= math.Ceil(math.Log10(most)); power++ {
		for _, k := range []float64{1, 2, 5} {
			step := k * math.Pow(10, power)
			if gallons(units) && k == 2 && power == -1 {
				step = 0.25
			}
			if step >= least*(1-1e-9) && step <= most {
				out = append(out, step)
			}
		}
	}
	return out
}

func gallons(units quantity.System) bool { return units.Name != quantity.Metric.Name }

// finest is the smallest step of any scale, in the units that people read, and mostTicks
// the greatest number of them.
const (
	finest    = 0.001
	mostTicks = 2000
	mostMinor = 10 // between two labelled ones
)

// A scale is ruled at the multiples of two steps, in the units that people read.
type scale struct {
	major, minor float64
	fractions    bool // quarters are written as such
}

// scaleFor returns the finest scale from low to high that leaves a pitch between
// labels, and less between ticks. The place of a quantity on paper, mm, must not fall; it is
// not a number where there is none.
func scaleFor(units quantity.System, low, high, labels, ticks float64, place func(float64) float64) scale {
	steps := ladder(units, math.Max(finest, (high-low)/mostTicks), math.Max(finest, high-low))
	s := scale{major: high - low, minor: high - low}
	for i, step := range steps {
		if !roomy(low, high, step, labels, place) {
			continue
		}
		s.major, s.minor = step, step
		for _, finer := range steps[:i] {
			parts := step / finer
			if math.Abs(parts-math.Round(parts)) < 1e-9 && parts <= mostMinor && roomy(low, high, finer, ticks, place) {
				s.minor = finer
				break
			}
		}
		break
	}
	quarters := func(step float64) bool { return math.Abs(4*step-math.Round(4*step)) < 1e-9 }
	s.fractions = gallons(units) && quarters(s.major) && (quarters(s.minor) || s.major < 1)
	return s
}

// roomy tells whether the multiples of a step lie a pitch apart on paper, or more. Places
// may be dear: no more of them are asked for than there is room for.
func roomy(low, high, step, pitch float64, place func(float64) float64) bool {
	last := math.Inf(-1)
	for _, v := range multiples(low, high, step) {
		at := place(v)
		if math.IsNaN(at) {
			continue
		}
		if at-last < pitch*(1-1e-9) {
			return false
		}
		last = at
	}
	return true
}

// multiples returns those of a step from low to high, without 0.
func multiples(low, high, step float64) []float64 {
	var out []float64
	for k := math.Ceil(low/step - 1e-9); k <= high/step+1e-9 && len(out) <= mostTicks; k++ {
		if k != 0 {
			out = append(out, k*step)
		}
	}
	return out
}

// whole tells whether a value is a multiple of a step.
func whole(value, step float64) bool {
	parts := value / step
	return math.Abs(parts-math.Round(parts)) < 1e-6
}

var quarterSigns = []string{"", "¼", "½", "¾"}

// label writes a value of the scale.
func (s scale) label(v float64) string {
	if !s.fractions || !whole(v, 0.25) {
		return ink.Minus(quantity.Trimmed(v, 3))
	}
	quarters := int(math.Round(4 * v))
	out := quantity.Trimmed(float64(quarters/4), 0) + quarterSigns[quarters%4]
	if quarters%4 != 0 && quarters < 4 {
		out = strings.TrimPrefix(out, "0")
	}
	return out
}

// round is the power of ten above the greater step: its multiples stand out.
func (s scale) round() float64 { return math.Pow(10, math.Floor(math.Log10(s.major)+1e-9)+1) }

// labelsMinor tells whether a value between the labelled ones may have a label of its
// own: not among fractions, if it is none.
func (s scale) labelsMinor(v float64) bool {
	return s.minor < s.major && (!s.fractions || whole(v, 0.25))
}

// clearOf returns the greatest place from lo to hi that keeps clear of others by a
// distance, or the one that keeps clearest.
func clearOf(places []float64, lo, hi, distance float64) float64 {
	best, most := hi, math.Inf(-1)
	for at := hi; at >= lo; at -= 0.25 {
		clear := math.Inf(1)
		for _, p := range places {
			clear = math.Min(clear, math.Abs(p-at))
		}
		if clear > most {
			best, most = at, clear
		}
		if clear >= distance {
			break
		}
	}
	return best
}
