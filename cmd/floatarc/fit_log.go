package main

import (
	"errors"
	"fmt"
	"math"
	"strings"

	"floatarc/calibration/fit"
	"floatarc/float"
	"floatarc/geometry"
	"floatarc/tanks"
	"floatarc/tanks/logfile"
	"floatarc/tanks/quantity"
	"floatarc/volume"
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
	path string
	file *logfile.Log
	fit  *fit.Log
	// foundStart says that the start was not known, so that the readings tell it.
	foundStart bool
	water      bool
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
		q, err := s.dim.Parse(s.text)
		if err == nil && !(q.Value > 0) {
			err = fmt.Errorf("%q, expected more than 0", s.text)
		}
		if err != nil {
			return nil, nil, misusef("--%s: %v", s.name, err)
		}
		*s.into = func(float64) float64 { return q.Value }
	}
	return pour, meter, nil
}

// takeRows turns the rows of the file into those of the fit.
func (j *job) takeRows(l *loadedLog, flags logFlags) error {
	pour, meter, err := flags.sigmas()
	if err != nil {
		return err
	}
	reader, err := j.reader(l, meter)
	if err != nil {
		return err
	}
	fuel := j.fluid(l)
	moves := l.moves(flags.start == drained)
	for i, row := range l.file.Rows {
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

// A move is what went in, or below 0 out, since the row before, and on which way of the
// fuel the row was then read.
type move struct {
	amount float64
	sense  float.Sense
}

// moves returns those of a log. Where nothing moved the sense stays what it was; first
// it is that of a tank that was drained or, where nobody knows, the mean. A float that was
// tapped free stands on the mean.
func (l *loadedLog) moves(drained bool) []move {
	out := make([]move, len(l.file.Rows))
	before, sense := 0.0, float.Mean
	if drained {
		sense = float.Falling
	}
	for i, row := range l.file.Rows {
		amount := row.Amount
		if l.file.Totals {
			amount, before = row.Amount-before, row.Amount
		}
		switch {
		case amount > 0 || i == 0 && l.file.Totals:
			sense = float.Rising
		case amount < 0:
			sense = float.Falling
		}
		out[i] = move{amount, sense}
		if tapped(row) {
			out[i].sense = float.Mean
		}
	}
	return out
}

// The words of a note that say how to take a row.
func spilled(row logfile.Row) bool  { return noted(row, "spill") }
func doubtful(row logfile.Row) bool { return noted(row, "doubt") }
func tapped(row logfile.Row) bool   { return noted(row, "tapped") }

func noted(row logfile.Row, word string) bool {
	return strings.Contains(strings.ToLower(row.Note), word)
}

// A fluid is what was poured, at the temperature of the rig's fuel where a row does not
// tell its own.
type fluid struct {
	volume.Fuel
	temperature float64
	told        bool // the float lies in it otherwise than in the rig's own fuel
}

func (j *job) fluid(l *loadedLog) fluid {
	f := fluid{Fuel: j.file.Fuel.Liquid(), temperature: j.file.Fuel.Temperature, told: l.water || l.file.Warm}
	if l.water {
		f.Fuel = volume.Water
	}
	return f
}

func (f fluid) celsius(row logfile.Row) float64 {
	if math.IsNaN(row.Temperature) {
		return f.temperature
	}
	return row.Temperature
}

// density returns that of a row, or 0 where it is the rig's own in every row.
func (f fluid) density(row logfile.Row) float64 {
	if !f.told {
		return 0
	}
	return f.DensityAt(f.celsius(row))
}

// reader returns what turns a row into ohms at the terminals, with its uncertainty, a
// winding's steps included.
func (j *job) reader(l *loadedLog, meter func(float64) float64) (func(logfile.Row) (ohms, sigma float64, err error), error) {
	plain, err := j.plainReader(l, meter)
	if err != nil {
		return nil, err
	}
	return func(row logfile.Row) (float64, float64, error) {
		if math.IsNaN(row.Reading) {
			return math.NaN(), 1, nil
		}
		ohms, sigma, err := plain(row)
		return ohms, math.Hypot(sigma, j.turn(ohms)/math.Sqrt(12)), err // anywhere in a turn alike
	}, nil
}

// turn returns the ohms from one turn of the winding, or one contact, to the next.
func (j *job) turn(input float64) float64 {
	w := j.file.Sender.Winding()
	at := j.rig.TravelAt(input)
	return math.Abs(j.rig.EvenAt(at+w.Width/2) - j.rig.EvenAt(at-w.Width/2))
}

// plainReader does so for a smooth track.
func (j *job) plainReader(l *loadedLog, meter func(float64) float64) (func(logfile.Row) (ohms, sigma float64, err error), error) {
	if l.file.Reads == logfile.Ohms {
		return func(row logfile.Row) (float64, float64, error) {
			if row.ReadingSigma > 0 {
				return row.Reading, row.ReadingSigma, nil
			}
			return row.Reading, meter(row.Reading), nil
		}, nil
	}
	d, feed := j.rig.Conditioner.Divider(), j.rig.Conditioner.Feed
	full, what := feed.Supply, "conditioner.supply"
	step := func(row logfile.Row) float64 { return math.Max(row.ReadingSigma, voltShare*row.Reading) }
	if l.file.Reads == logfile.Counts {
		full, what = 0, "conditioner.adc_bits"
		if feed.Converter != nil {
			full = feed.Converter.Steps() / feed.Converter.Full
		}
		step = func(row logfile.Row) float64 { return math.Max(row.ReadingSigma, 1) }
	}
	switch {
	case d == nil:
		return nil, j.file.Refuse("conditioner.law", "not a divider, but the log reads %s, expected law = \"divider\" with its pull_up", l.file.Reads)
	case !(full > 0):
		return nil, j.file.Refuse(what, "not given, but the log reads %s, expected it", l.file.Reads)
	}
	return func(row logfile.Row) (float64, float64, error) {
		reading := row.Reading
		if l.file.Reads == logfile.Counts {
			reading += 0.5 // the middle of what counts so
		}
		if reading >= full {
			return 0, 0, l.refuse(row.Line, "%s: %g, expected less than %g, which is an open wire", l.file.Reads, row.Reading, full)
		}
		x := reading / full
		slope := d.PullUp / ((1 - x) * (1 - x)) // of the ohms
		return d.Ohms(x), slope * step(row) / full, nil
	}, nil
}
