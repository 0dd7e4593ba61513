package main

import (
	"slices"

	"gonum.org/v1/gonum/mat"

	"floatarc/calibration"
	"floatarc/tanks"
	"floatarc/tanks/quantity"
)

// varied returns the rig of a job with measures at other values.
func (j *job) varied(measures []tanks.Measure, values []float64) (*job, error) {
	at := append([]tanks.Measure{}, measures...)
	for i := range at {
		at[i].Value = values[i]
	}
	f, err := j.file.Vary(at)
	if err != nil {
		return nil, err
	}
	v := jobOf(f, j.sys)
	if j.file.Wiring.Installed == nil && j.rig.Wiring.Installed != nil {
		v.rig.Wiring = j.rig.Wiring // measured in this run
	}
	return v, nil
}

// family returns the rigs that may be meant, with some measures that are not known
// exactly.
func (j *job) family(measures []tanks.Measure) *calibration.Family {
	f := &calibration.Family{Rig: func(values []float64) (*calibration.Rig, error) {
		v, err := j.varied(measures, values)
		if err != nil {
			return nil, err
		}
		return v.rig, nil
	}}
	f.Correlation = j.together(measures)
	for _, m := range measures {
		f.Measures = append(f.Measures, calibration.Measure{Name: m.Key, Unit: m.Dimension.Bare, Value: m.Value, Sigma: m.Sigma, Usual: m.Usual})
	}
	return f
}

// together returns the correlation of measures of which a fill log found some, as the
// file holds it; nil if it holds none. What it does not name stands by itself.
func (j *job) together(measures []tanks.Measure) *mat.SymDense {
	fitted := j.file.Fitted
	if fitted.Correlation == nil || len(measures) == 0 {
		return nil
	}
	place := make([]int, len(measures)) // among the fitted ones; -1 for others
	for i, m := range measures {
		place[i] = slices.Index(fitted.Keys, m.Key)
	}
	out := mat.NewSymDense(len(measures), nil)
	for i := range measures {
		out.SetSym(i, i, 1)
		for k := range i {
			if place[i] >= 0 && place[k] >= 0 {
				out.SetSym(i, k, fitted.Correlation.At(place[i], place[k]))
			}
		}
	}
	return out
}

// A shown is a unit in which people read a measure, with the decimals that they need.
type shown struct {
	symbol   string
	of       func(bare float64) float64
	decimals int
}

// shownIn returns how people read measures of a bare unit.
func shownIn(unit string, sys quantity.System) shown {
	same := func(v float64) float64 { return v }
	switch unit {
	case quantity.Length.Bare:
		return shown{sys.Length.Symbol, sys.Length.Of, sys.Length.Decimals + 1}
	case quantity.Volume.Bare:
		return shown{sys.Volume.Symbol, sys.Volume.Of, 2}
	case quantity.Angle.Bare:
		return shown{"°", same, 2}
	case quantity.Resistance.Bare:
		return shown{"Ω", same, 2}
	case "":
		return shown{"", same, 4}
	}
	return shown{unit, same, 2}
}

// number writes a value without its unit.
func (u shown) number(bare float64) string { return quantity.Fixed(u.of(bare), u.decimals) }

// spread writes a value with its standard uncertainty, without the unit.
func (u shown) spread(bare, sigma float64) string {
	return u.number(bare) + " ± " + quantity.Fixed(u.of(sigma)-u.of(0), u.decimals)
}
