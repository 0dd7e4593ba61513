package fit

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"gonum.org/v1/gonum/interp"
)

// A Knot is litres in the tank and the ohms that stand for them.
type Knot struct{ Litres, Ohms float64 }

// A pool is readings taken together: those of one quantity, and neighbours that lie the
// wrong way round.
type pool struct {
	first, last  float64 // litres
	weight, ohms float64 // ohms times weight
	variance     float64 // of a single reading, the most
}

func (p pool) mean() float64 { return p.ohms / p.weight }

// between is into how many steps the way from one reading to the next is cut.
const between = 8

// reversal is by how many standard uncertainties of their difference readings may lie the
// wrong way round and still be taken as one.
const reversal = 3.5

// Poured turns a log alone into the resistance of a sender by litres, for a tank of which
// nothing else is known: a curve through the readings that bends nowhere between them
// that they do not (gonum's FritschButland; F. N. Fritsch and J. Butland, SIAM Journal on
// Scientific and Statistical Computing 5, 300, 1984), in so many points that straight lines between
// them come close to it. Where there are readings on rising and on falling fuel it is
// the mean of both. Readings at a stop are one point.
//
// Strays are knots that lie off the curve through their neighbours: a slip of the pen, or a
// kink of the tank.
func Poured(l *Log) (knots []Knot, strays []Stray, err error) {
	if err := l.Check(); err != nil {
		return nil, nil, err
	}
	litres := l.Litres(l.Start, 0)
	var curves []curve
	for _, pools := range bySense(l, litres) {
		c, err := curveOf(pools)
		if err != nil {
			return nil, nil, err
		}
		if len(c.knots) > 1 {
			curves, strays = append(curves, c), append(strays, c.strays()...)
		}
	}
	if len(curves) == 0 {
		return nil, nil, fmt.Errorf("the meter shows one and the same at every row, expected readings that change with the litres")
	}
	knots, err = blend(curves)
	return knots, strays, err
}

// A Stray is a knot, and the ohms that the curve through its neighbours has there.
type Stray struct {
	Knot
	Curve float64
}

// straying is how far off the curve through its neighbours a knot may lie, as a share of
// the ohms from one of them to the other.
const straying = 0.12

// strays returns the knots of a curve that lie off it, each the one that does so the most
// among its neighbours; but for its two ends either side, where the sender comes to its
// stop.
func (c *curve) strays() []Stray {
	n := len(c.knots)
	off, at := make([]float64, n), make([]float64, n)
	for i := 1; i+1 < n; i++ {
		var without curve
		without.knots = slices.Delete(slices.Clone(c.knots), i, i+1)
		if without.fit() == nil {
			at[i] = without.smooth.Predict(c.knots[i].Litres)
			off[i] = math.Abs((c.knots[i].Ohms - at[i]) / (c.knots[i+1].Ohms - c.knots[i-1].Ohms))
		}
	}
	var out []Stray
	for i := 2; i+2 < n; i++ {
		if off[i] > straying && off[i] >= off[i-1] && off[i] >= off[i+1] {
			out = append(out, Stray{c.knots[i], at[i]})
		}
	}
	return out
}

// fit puts the curve through its knots.
func (c *curve) fit() error {
	var xs, ys []float64
	for _, k := range c.knots {
		xs, ys = append(xs, k.Litres), append(ys, k.Ohms)
	}
	return c.smooth.Fit(xs, ys)
}

// A curve is the readings on one way of the fuel.
type curve struct {
	knots  []Knot
	smooth interp.FritschButland
}

// bySense returns the readings of each way of the fuel; a lone one, such as that before
// the first pour, goes with those of which there are most.
func bySense(l *Log, litres []float64) [][]pool {
	out := make([][]pool, 3)
	for i, r := range l.Rows {
		if r.read() {
			out[r.Sense+1] = append(out[r.Sense+1], pool{litres[i], litres[i], 1, r.Input, square(r.InputSigma)})
		}
	}
	slices.SortStableFunc(out, func(a, b []pool) int { return cmp.Compare(len(b), len(a)) })
	for i := 1; i < len(out); i++ {
		if len(out[i]) == 1 {
			out[0], out[i] = append(out[0], out[i]...), nil
		}
	}
	return out
}

// curveOf returns the curve of some; no knots where there are no two readings that differ.
func curveOf(pools []pool) (curve, error) {
	slices.SortStableFunc(pools, func(a, b pool) int { return cmp.Compare(a.first, b.first) })
	if len(pools) < 2 {
		return curve{}, nil
	}
	sign := math.Copysign(1, pools[len(pools)-1].mean()-pools[0].mean())
	pools, err := monotone(pools, sign)
	if err != nil || len(pools) < 2 {
		return curve{}, err
	}
	var c curve
	for i, p := range pools {
		at := (p.first + p.last) / 2
		switch i { // at a stop the point is where the sender starts to move
		case 0:
			at = p.last
		case len(pools) - 1:
			at = p.first
		}
		c.knots = append(c.knots, Knot{at, p.mean()})
	}
	return c, c.fit()
}

// monotone pools readings until their ohms all rise with the sign (M. Ayer et al., Annals
// of Mathematical Statistics 26, 641, 1955, from memory). It refuses readings that lie the wrong way round by more than their
// uncertainty.
func monotone(pools []pool, sign float64) ([]pool, error) {
	var out []pool
	for _, p := range pools {
		out = append(out, p)
		for n := len(out); n > 1 && (sign*(out[n-1].mean()-out[n-2].mean()) <= 0 || out[n-1].first == out[n-2].last); n = len(out) {
			a, b := out[n-2], out[n-1]
			if off := math.Abs(a.mean() - b.mean()); off > reversal*math.Sqrt(a.variance+b.variance) {
				return nil, fmt.Errorf("%.5g ohm at %.4g L and %.5g ohm at %.4g L, expected readings that all rise or all fall with the litres: a slip of the pen?", a.mean(), a.last, b.mean(), b.first)
			}
			out = append(out[:n-2], pool{a.first, b.last, a.weight + b.weight, a.ohms + b.ohms, math.Max(a.variance, b.variance)})
		}
	}
	return out, nil
}

// ends returns the litres between which a curve was read.
func (c *curve) ends() (low, high float64) {
	return c.knots[0].Litres, c.knots[len(c.knots)-1].Litres
}

// beyond returns the ohms of a curve at litres; where it was not read, those of another
// that was, as far from it as at the nearest litres that it holds.
func (c *curve) beyond(litres float64, other *curve) float64 {
	low, high := c.ends()
	end := math.Max(low, math.Min(high, litres))
	return c.smooth.Predict(end) + other.smooth.Predict(litres) - other.smooth.Predict(end)
}

// blend returns the mean of curves, each continued along another where it was not read,
// in many points.
func blend(curves []curve) ([]Knot, error) {
	var at []float64
	for i := range curves {
		c := &curves[i]
		for j := range i {
			low, high := c.ends()
			switch from, to := curves[j].ends(); {
			case from >= high || to <= low:
				return nil, fmt.Errorf("the rows that were poured and those that were drained have no litres in common, expected them to overlap")
			case c.rises() != curves[j].rises():
				return nil, fmt.Errorf("the ohms of the rows that were poured go the other way than those of the rows that were drained, expected one sender")
			}
		}
		for j, k := range c.knots {
			at = append(at, k.Litres)
			for step := 1; j > 0 && step < between; step++ {
				at = append(at, k.Litres+(c.knots[j-1].Litres-k.Litres)*float64(step)/between)
			}
		}
	}
	slices.Sort(at)
	least := (at[len(at)-1] - at[0]) * 1e-6
	var out []Knot
	for _, litres := range at {
		holds := &curves[slices.IndexFunc(curves, func(c curve) bool { low, high := c.ends(); return litres >= low && litres <= high })]
		sum := 0.0
		for i := range curves {
			sum += curves[i].beyond(litres, holds)
		}
		k := Knot{litres, sum / float64(len(curves))}
		if n := len(out); n > 0 && k.Litres-out[n-1].Litres <= least {
			continue
		} else if n > 0 && (k.Ohms > out[n-1].Ohms) != curves[0].rises() {
			return nil, fmt.Errorf("about %.4g L the rows that were poured and those that were drained lie too far apart, expected the same ohms but for the friction of a float", litres)
		}
		out = append(out, k)
	}
	return out, nil
}

// rises tells whether the ohms of a curve rise with the litres.
func (c *curve) rises() bool { return c.knots[len(c.knots)-1].Ohms > c.knots[0].Ohms }
