package fit

import (
	"math"

	"floatarc/calibration"
)

// An Expected is what a rig as measured must show at a row of a log to come.
type Expected struct {
	Litres      float64 // in the tank
	Input       float64 // ohm
	Sigma       float64 // standard uncertainty of a reading: of the measures, pours and meter
	Change      float64 // ohm since the row before; NaN at the first
	ChangeSigma float64 // of that, in which much of what is uncertain falls out
	Blind       bool    // the sender rests on its stop
}

// Coverage is the number of standard uncertainties on either side that hold 95 of 100
// normal values.
const Coverage = 1.959963984540054

// Shown returns what a rig shows at each row, ohm; its readings are not looked at.
func Shown(rig *calibration.Rig, l *Log) ([]float64, error) {
	return newLook(l.Rows).sharp(rig, l.Litres(l.Start, 0))
}

// Plan tells what each row of a log must show; its readings are not looked at, but for
// their uncertainty.
func Plan(f *calibration.Family, l *Log) ([]Expected, error) {
	if len(l.Rows) == 0 {
		return nil, nil
	}
	u := newUnknowns(f, l)
	k := newLook(l.Rows)
	s, err := u.state(k, make([]float64, len(u.measures)))
	if err != nil {
		return nil, err
	}
	t, err := u.tangent(k, s)
	if err != nil {
		return nil, err
	}
	rels, err := k.relations(s.rig)
	if err != nil {
		return nil, err
	}
	inputs, err := k.sharp(s.rig, s.litres)
	if err != nil {
		return nil, err
	}
	out := make([]Expected, len(l.Rows))
	for i, r := range l.Rows {
		low, high := rels[i].Reach()
		e := Expected{Litres: s.litres[i], Input: inputs[i], Blind: s.litres[i] <= low || s.litres[i] >= high}
		e.Sigma = math.Sqrt(u.variance(t, i, -1) + square(r.InputSigma) + square(t.beside[i]))
		e.Change = math.NaN()
		if i > 0 {
			e.Change = inputs[i] - inputs[i-1]
			e.ChangeSigma = math.Sqrt(u.variance(t, i, i-1) + square(r.InputSigma) + square(l.Rows[i-1].InputSigma) + square(t.beside[i]) + square(t.beside[i-1]))
		}
		out[i] = e
	}
	return out, nil
}

func square(v float64) float64 { return v * v }

// variance returns that of a reading, less another one where less is not below 0, which
// measures and pours cause.
func (u *unknowns) variance(t *tangent, row, less int) float64 {
	sum := 0.0
	for j := range u.measures {
		d := t.design.At(row, j)
		if less >= 0 {
			d -= t.design.At(less, j)
		}
		sum += d * d
	}
	rows := u.log.Rows
	for k := range row + 1 {
		effect := t.slopes[row] * rows[k].density() / rows[row].density()
		if less >= 0 && k <= less {
			effect -= t.slopes[less] * rows[k].density() / rows[less].density()
		}
		sum += square(effect * rows[k].PouredSigma)
	}
	return sum
}
