package fit

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/stat/distuv"
)

// A Flag is what is known against a row.
type Flag string

// The flags.
const (
	Fine     Flag = ""
	Doubtful Flag = "doubtful" // marked so in the log: not used
	Spilled  Flag = "spilled"  // marked so: how much went in is taken as unknown
	Unread   Flag = "unread"   // nobody read the meter
	BadRead  Flag = "reading"  // the reading goes with nothing: not used
	BadPour  Flag = "pour"     // what went in goes with nothing: taken as unknown
)

// falseAlarm is the chance that in a log in which nothing is wrong something is found.
const falseAlarm = 0.01

// mostOutliers is the share of the readings up to which outliers are looked for.
const mostOutliers = 1. / 3

// clear descends, and as long as a reading or a pour stands out, takes the worst as
// unknown and descends again.
func (o *Outcome) clear() error {
	d := o.descent
	for i, r := range d.log.Rows {
		switch {
		case math.IsNaN(r.Input):
			o.Rows[i].Flag = Unread
		case r.Doubtful:
			o.Rows[i].Flag = Doubtful
		case r.Spilled:
			o.Rows[i].Flag = Spilled
		}
	}
	if err := d.settle(); err != nil {
		return err
	}
	readings := 0
	for i := range d.log.Rows {
		if d.counts(i) {
			readings++
		}
	}
	most := min(int(mostOutliers*float64(readings)), readings-leastReadings)
	for found := 0; ; found++ {
		if err := d.descend(); err != nil {
			return err
		}
		row, flag, off := o.worst()
		if flag == Fine || found >= most {
			return nil
		}
		o.Rows[row].Flag, o.Rows[row].Off = flag, off
		if flag == BadRead {
			d.inputs[row] = math.Inf(1)
			d.system = nil
		} else {
			d.forget(row)
		}
	}
}

// worst returns the row of which the reading or the pour stands out the most, and by how
// many standard uncertainties; Fine if none stands out.
func (o *Outcome) worst() (row int, flag Flag, off float64) {
	d := o.descent
	s := d.system.surprise()
	// Over all that are looked at, a false alarm has the chance that it may have.
	limit := distuv.UnitNormal.Quantile(1 - falseAlarm/2/float64(len(s.readings)+len(s.pours)))
	most := limit
	reading := 0
	for i := range d.log.Rows {
		if d.counts(i) {
			if v := s.readings[reading]; math.Abs(v) > most {
				row, flag, off, most = i, BadRead, v, math.Abs(v)
			}
			reading++
		}
	}
	for i, v := range s.pours {
		// A wrong last pour is as likely a wrong last reading: that costs less.
		if math.Abs(v) > most*(1+1e-6) && !slices.Contains(d.vague, i) {
			row, flag, off, most = i, BadPour, v, math.Abs(v)
		}
	}
	return row, flag, off
}
