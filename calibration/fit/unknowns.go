package fit

import (
	"slices"

	"floatarc/calibration"
)

// The names of the unknowns that no key of a rig tells.
const (
	StartName = "start" // litres in the tank before the first row
	CanName   = "can"   // the share by which the can holds more than it says
)

// unknowns are all that a log may tell of: the measures of a family, and the log's own.
// Pours of which nothing is known become what the readings say in a copy of the log.
type unknowns struct {
	family     *calibration.Family
	log        *Log
	measures   []calibration.Measure
	start, can int // index; below 0 for one that is known
}

func newUnknowns(f *calibration.Family, l *Log) *unknowns {
	own := *l
	own.Rows = slices.Clone(l.Rows)
	u := &unknowns{family: f, log: &own, start: -1, can: -1}
	u.measures = append(u.measures, f.Measures...)
	if l.StartSigma > 0 {
		u.start = len(u.measures)
		u.measures = append(u.measures, calibration.Measure{Name: StartName, Unit: "L", Value: l.Start, Sigma: l.StartSigma})
	}
	if l.Can > 0 {
		u.can = len(u.measures)
		u.measures = append(u.measures, calibration.Measure{Name: CanName, Sigma: l.Can})
	}
	return u
}

// values returns the unknowns in their own units for some in prior uncertainties.
func (u *unknowns) values(at []float64) []float64 {
	out := make([]float64, len(at))
	for i, m := range u.measures {
		out[i] = m.Value + at[i]*m.Sigma
	}
	return out
}

// rig returns the rig of values.
func (u *unknowns) rig(values []float64) (*calibration.Rig, error) {
	return u.family.Rig(values[:len(u.family.Measures)])
}

// litres returns what is in the tank at each row, for values.
func (u *unknowns) litres(values []float64) []float64 {
	start, can := u.log.Start, 0.0
	if u.start >= 0 {
		start = values[u.start]
	}
	if u.can >= 0 {
		can = values[u.can]
	}
	return u.log.Litres(start, can)
}
