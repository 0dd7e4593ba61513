package main

import (
	"math"

	"floatarc/tanks/logfile"
)

// reader returns what turns a row into ohms at the terminals, with its uncertainty, a
// winding's steps included.
func (j *job) reader(l *loadedLog, meter func(float64) float64, meterSaid bool) (func(logfile.Row) (ohms, sigma float64, err error), error) {
	plain, err := j.plainReader(l, meter, meterSaid)
	if err != nil {
		return nil, err
	}
	return func(row logfile.Row) (float64, float64, error) {
		if math.IsNaN(row.Reading) {
			return math.NaN(), 1, nil
		}
		ohms, sigma, err := plain(row)
		return ohms, math.Hypot(sigma, j.turn(ohms)), err
	}, nil
}

// turn returns the standard uncertainty, ohm, of a reading of which nobody knows where in
// a turn of the winding, or between two contacts, the sender stands: anywhere alike (JCGM
// 100:2008, 4.3.7).
func (j *job) turn(input float64) float64 {
	return j.rig.StepOhms(j.file.Sender.Winding(), input) / math.Sqrt(12)
}

// plainReader does so for a smooth track.
func (j *job) plainReader(l *loadedLog, meter func(float64) float64, meterSaid bool) (func(logfile.Row) (ohms, sigma float64, err error), error) {
	feed := j.rig.Conditioner.Feed
	if meterSaid && l.file.Reads != logfile.Ohms {
		return nil, misusef("--meter: the log reads %s, expected ± in its cells instead", l.file.Reads)
	}
	switch l.file.Reads {
	case logfile.Volts:
		return j.dividerReader(l, "conditioner.supply", feed.Supply > 0, func(row logfile.Row) (share, sigma float64) {
			return row.Reading / feed.Supply, stated(row, voltShare*row.Reading) / feed.Supply
		})
	case logfile.Counts:
		return j.dividerReader(l, "conditioner.adc_bits", feed.Converter != nil, func(row logfile.Row) (share, sigma float64) {
			return feed.Converter.Share(int(row.Reading)), stated(row, 1) * feed.Converter.Full / feed.Converter.Steps()
		})
	}
	return func(row logfile.Row) (float64, float64, error) {
		return row.Reading, stated(row, meter(row.Reading)), nil
	}, nil
}

// stated returns the uncertainty of a reading as its cell states it, or else another.
func stated(row logfile.Row, usual float64) float64 {
	if row.ReadingSigma > 0 {
		return row.ReadingSigma
	}
	return usual
}

// dividerReader reads ohms of a share of the supply, which a key of the rig must be there
// to tell.
func (j *job) dividerReader(l *loadedLog, key string, there bool, share func(logfile.Row) (share, sigma float64)) (func(logfile.Row) (ohms, sigma float64, err error), error) {
	d := j.rig.Conditioner.Divider()
	switch {
	case d == nil:
		return nil, j.file.Refuse("conditioner.law", "not a divider, but the log reads %s, expected law = \"divider\" with its pull_up", l.file.Reads)
	case !there:
		return nil, j.file.Refuse(key, "not given, but the log reads %s, expected it", l.file.Reads)
	}
	return func(row logfile.Row) (float64, float64, error) {
		x, sigma := share(row)
		if x >= 1 {
			return 0, 0, l.refuse(row.Line, "%s: %g, expected less: that is an open wire", l.file.Reads, row.Reading)
		}
		return d.Ohms(x), d.Slope(x) * sigma, nil
	}, nil
}
