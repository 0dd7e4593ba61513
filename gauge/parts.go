package gauge

import (
	"fmt"
	"math"
	"slices"

	"gonum.org/v1/gonum/floats"
)

// A Series is a series of preferred numbers for resistors (IEC 60063, secondary
// copies), with the tolerance that goes with it.
type Series struct {
	Name      string
	Tolerance float64 // ±, a share
	decade    []float64
}

// The series. E96 is 100·10^(i/96) rounded to three digits.
var allSeries = []Series{
	{"E6", 0.20, []float64{1, 1.5, 2.2, 3.3, 4.7, 6.8}},
	{"E12", 0.10, []float64{1, 1.2, 1.5, 1.8, 2.2, 2.7, 3.3, 3.9, 4.7, 5.6, 6.8, 8.2}},
	{"E24", 0.05, []float64{1, 1.1, 1.2, 1.3, 1.5, 1.6, 1.8, 2, 2.2, 2.4, 2.7, 3, 3.3, 3.6, 3.9, 4.3, 4.7, 5.1, 5.6, 6.2, 6.8, 7.5, 8.2, 9.1}},
	{"E96", 0.01, rounded(96)},
}

// rounded returns a decade of n values of three digits.
func rounded(n int) []float64 {
	out := make([]float64, n)
	for i := range out {
		out[i] = math.Round(100*math.Pow(10, float64(i)/float64(n))) / 100
	}
	return out
}

// PreferredSeries returns the series of a name.
func PreferredSeries(name string) (Series, error) {
	for _, s := range allSeries {
		if s.Name == name {
			return s, nil
		}
	}
	return Series{}, fmt.Errorf("series %q, expected E6, E12, E24 or E96", name)
}

// decades of resistors that shops keep, from 1 ohm up (common practice, no source).
const decades = 7

// Values returns the resistors of the series from 1 ohm to below 10 Mohm, rising.
func (s Series) Values() []float64 {
	var out []float64
	for d := range decades {
		for _, v := range s.decade {
			// Through a whole number, so that 4.7 kohm is 4700.
			out = append(out, math.Round(100*v)*math.Pow(10, float64(d))/100)
		}
	}
	return out
}

// A Join is how parts are joined.
type Join string

// The joins.
const (
	Single   Join = "single"
	InSeries Join = "series"
	Parallel Join = "parallel"
)

// A Stand is one part or two that stand for a resistance.
type Stand struct {
	Parts []float64 // ohm, the smaller first
	Join  Join
	Ohms  float64
}

// Nearest returns the part of a stock, which rises, nearest to a resistance; no part
// of an empty one.
func Nearest(stock []float64, ohms float64) Stand {
	if len(stock) == 0 {
		return Stand{}
	}
	v := stock[floats.NearestIdx(stock, ohms)]
	return Stand{[]float64{v}, Single, v}
}

// NearestPair returns the two parts of a stock, in series or parallel, that come
// nearest to a resistance; false if the stock has no two. Two of one value are
// taken only if twins says that there are two of each, or if the stock lists the
// value twice.
func NearestPair(stock []float64, ohms float64, twins bool) (Stand, bool) {
	best, found := Stand{Ohms: math.Inf(1)}, false
	try := func(a, b float64, join Join, total float64) {
		if a > b || a == b && !twins && !twice(stock, a) {
			return
		}
		if math.Abs(total-ohms) < math.Abs(best.Ohms-ohms)-1e-12*ohms || !found {
			best, found = Stand{[]float64{a, b}, join, total}, true
		}
	}
	for _, a := range stock {
		for _, b := range around(stock, ohms-a) {
			try(a, b, InSeries, a+b)
			try(b, a, InSeries, a+b)
		}
		if a > 0 {
			mate := math.Inf(1)
			if a > ohms {
				mate = a * ohms / (a - ohms)
			}
			for _, b := range around(stock, mate) {
				if b > 0 {
					try(a, b, Parallel, a*b/(a+b))
					try(b, a, Parallel, a*b/(a+b))
				}
			}
		}
	}
	return best, found
}

// around returns the parts next to a resistance: two below it, and two from it up,
// so that leaving one out leaves a neighbour on either side.
func around(stock []float64, ohms float64) []float64 {
	i, _ := slices.BinarySearch(stock, ohms)
	return stock[max(0, i-2):min(len(stock), i+2)]
}

// twice tells whether a stock lists a value more than once.
func twice(stock []float64, v float64) bool {
	i, _ := slices.BinarySearch(stock, v)
	return i+1 < len(stock) && stock[i+1] == v
}

// Hottest returns the greatest power in one of the parts, W, with so many volts
// over all of them.
func (s Stand) Hottest(volts float64) float64 {
	most := 0.0
	for _, r := range s.Parts {
		over := volts
		if s.Join == InSeries {
			over = volts * r / s.Ohms
		}
		most = math.Max(most, over*over/r)
	}
	return most
}
