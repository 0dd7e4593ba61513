package main

import (
	"errors"
	"fmt"
	"math"

	"floatarc/calibration/fit"
	"floatarc/geometry"
	"floatarc/tanks"
	"floatarc/tanks/logfile"
	"floatarc/tanks/quantity"
)

// logFlags say what a log leaves out.
type logFlags struct {
	start, can, pour, meter, fluid string
}

// What a pour and a reading are uncertain by where nobody says (common practice, no
// source): two hundredths of a litre and half a percent; 0.3 ohm and a fifth of a percent,
// half a percent of a voltage, a count of a converter.
const (
	pourLitres = 0.02
	pourShare  = 0.005
	meterOhms  = 0.3
	meterShare = 0.002
	voltShare  = 0.005
)

// A loaded log is a log as its file tells it and as it is fitted.
type loadedLog struct {
	path  string
	file  *logfile.Log
	fit   *fit.Log
	water bool
}

// refuse returns the error of a line.
func (l *loadedLog) refuse(line int, format string, args ...any) error {
	if line == 0 {
		return fmt.Errorf("%s: %w", l.path, fmt.Errorf(format, args...))
	}
	return fmt.Errorf("%s:%d: %w", l.path, line, fmt.Errorf(format, args...))
}

// readLog reads the file of a log.
func readLog(path string) (*loadedLog, error) {
	l := &loadedLog{path: path}
	data, err := tanks.ReadLog(path)
	if err != nil {
		return nil, l.refuse(0, "%w, expected a fill log, a CSV such as floatarc fit --plan \"10 L\" --csv writes", err)
	}
	l.file, err = logfile.Parse(data)
	var e *logfile.Error
	if errors.As(err, &e) {
		return nil, l.refuse(e.Line, "%w", e)
	}
	return l, err
}

// loadLog reads a log and turns its readings into ohms and its amounts into litres of
// the rig.
func (j *job) loadLog(path string, flags logFlags) (*loadedLog, error) {
	l, err := readLog(path)
	if err != nil {
		return nil, err
	}
	l.fit = &fit.Log{}
	if l.fit.Can, err = flags.canShare(); err != nil {
		return nil, err
	}
	if l.water, err = flags.isWater(); err != nil {
		return nil, err
	}
	l.water = l.water && j.file.Fuel.Kind != "water"
	if err := j.takeRows(l, flags); err != nil {
		return nil, err
	}
	if err := j.takeStart(l, flags); err != nil {
		return nil, err
	}
	if err := l.fit.Check(); err != nil {
		return nil, l.refuse(0, "%w", err)
	}
	return l, j.plausible(l)
}

// canShare returns the uncertainty of the can's size as a share.
func (f logFlags) canShare() (float64, error) {
	if f.can == "" {
		return 0, nil
	}
	q, err := quantity.Volume.Parse(f.can)
	if err == nil && !(q.Value > 0 && q.Sigma > 0 && q.Sigma < q.Value/2) {
		err = fmt.Errorf("%q, expected its size and how well that is known, such as \"20 L ± 0.2 L\"", f.can)
	}
	if err != nil {
		return 0, misusef("--can: %v", err)
	}
	return q.Sigma / q.Value, nil
}

func (f logFlags) isWater() (bool, error) {
	switch f.fluid {
	case "", "fuel":
		return false, nil
	case "water":
		return true, nil
	}
	return false, misusef("--fluid %s, expected fuel or water", f.fluid)
}

// sigmas returns the uncertainties of a pour (litres) and of a reading in ohms, as
// functions of their size.
func (f logFlags) sigmas() (pour, meter func(float64) float64, err error) {
	pour = func(litres float64) float64 { return math.Hypot(pourLitres, pourShare*litres) }
	meter = func(ohms float64) float64 { return math.Hypot(meterOhms, meterShare*ohms) }
	for _, s := range []struct {
		name, text string
		dim        *quantity.Dimension
		into       *func(float64) float64
	}{{"pour", f.pour, quantity.Volume, &pour}, {"meter", f.meter, quantity.Resistance, &meter}} {
		if s.text == "" {
			continue
		}
		q, dim, err := quantity.ParseAny(s.text, s.dim, quantity.Share)
		if err == nil && !(q.Value > 0) {
			err = fmt.Errorf("%q, expected more than 0", s.text)
		}
		if err != nil {
			return nil, nil, misusef("--%s: %v", s.name, err)
		}
		*s.into = func(size float64) float64 {
			if dim == quantity.Share {
				return math.Max(1e-6, q.Value*math.Abs(size))
			}
			return q.Value
		}
	}
	return pour, meter, nil
}

// takeRows turns the rows of the file into those of the fit.
func (j *job) takeRows(l *loadedLog, flags logFlags) error {
	pour, meter, err := flags.sigmas()
	if err != nil {
		return err
	}
	reader, err := j.reader(l, meter, flags.meter != "")
	if err != nil {
		return err
	}
	fuel := j.fluid(l)
	moves := l.moves(flags.start == drained || flags.start == empty)
	before := 0.0 // density of the row before
	for i, row := range l.file.Rows {
		if density := fuel.density(row); l.file.Totals && !l.file.ByMass && i > 0 && density > 0 { // what was there has swollen
			moves[i].amount = row.Amount - l.file.Rows[i-1].Amount*before/density
		}
		before = fuel.density(row)
		litres := 1.0 // in what the log counts in
		if l.file.ByMass {
			litres = 1000 / fuel.DensityAt(fuel.celsius(row))
		}
		r := fit.Row{
			Poured: moves[i].amount * litres, Sense: moves[i].sense, Density: fuel.density(row),
			Attitude: geometry.Attitude{NoseUp: row.NoseUp, LeftUp: row.LeftUp}, Spilled: spilled(row), Doubtful: doubtful(row),
		}
		if r.PouredSigma = row.AmountSigma * litres; r.PouredSigma == 0 && r.Poured != 0 {
			r.PouredSigma = pour(r.Poured)
		}
		if r.Input, r.InputSigma, err = reader(row); err != nil {
			return err
		}
		l.fit.Rows = append(l.fit.Rows, r)
	}
	return nil
}
