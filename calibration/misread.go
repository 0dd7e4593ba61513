package calibration

import "math"

// Misread returns the most litres, between the marks on level ground, by which the
// contents differ at a reading whose ohms come out a share more or less than they
// are: a divider's pull-up that is a share off does that to every reading, since
// R/(R+p) sees no difference between a smaller R and a larger p.
func (r *Rig) Misread(share float64) float64 {
	most := 0.0
	for _, s := range r.Curve(r.Level).Samples {
		litres := r.LitresNear(r.Level, s.Input)
		for _, factor := range []float64{1 + share, 1 / (1 + share)} {
			most = math.Max(most, math.Abs(r.LitresNear(r.Level, s.Input*factor)-litres))
		}
	}
	return most
}
