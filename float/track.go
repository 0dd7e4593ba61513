package float

import (
	"fmt"
	"slices"
	"sort"

	"gonum.org/v1/gonum/interp"
)

// Lines is a track of straight lines between measured points.
type Lines struct {
	travel, ohms []float64 // travel rising, ohms rising or falling
	forward      interp.PiecewiseLinear
	back         interp.PiecewiseLinear
}

// NewLines returns the track through points (travel, ohm). The travel must
// rise from point to point, and the ohms must all rise or all fall.
func NewLines(points [][2]float64) (*Lines, error) {
	if len(points) < 2 {
		return nil, fmt.Errorf("%d points, expected 2 or more", len(points))
	}
	t := &Lines{}
	for i, p := range points {
		if i > 0 && p[0] <= points[i-1][0] {
			return nil, fmt.Errorf("%.6g follows %.6g, expected a rising order", p[0], points[i-1][0])
		}
		t.travel, t.ohms = append(t.travel, p[0]), append(t.ohms, p[1])
	}
	for i := 1; i < len(points); i++ {
		if step := t.ohms[i] - t.ohms[i-1]; step == 0 || (step > 0) != (t.ohms[1] > t.ohms[0]) {
			return nil, fmt.Errorf("%g ohm follows %g ohm, expected ohms that all rise or all fall", t.ohms[i], t.ohms[i-1])
		}
	}
	if err := t.forward.Fit(t.travel, t.ohms); err != nil {
		return nil, err
	}
	o, q := slices.Clone(t.ohms), slices.Clone(t.travel)
	if o[0] > o[1] {
		slices.Reverse(o)
		slices.Reverse(q)
	}
	return t, t.back.Fit(o, q)
}

// Ohms implements [Track].
func (t *Lines) Ohms(travel float64) float64 { return t.forward.Predict(travel) }

// Travel implements [Track].
func (t *Lines) Travel(ohms float64) float64 { return t.back.Predict(ohms) }

// Ends returns the first and last travel of the track.
func (t *Lines) Ends() (low, high float64) { return t.travel[0], t.travel[len(t.travel)-1] }

// Knots implements [Track].
func (t *Lines) Knots(low, high float64) []float64 {
	i := sort.SearchFloat64s(t.travel, low)
	j := sort.SearchFloat64s(t.travel, high)
	if i < j && t.travel[i] == low {
		i++
	}
	return t.travel[i:j]
}
