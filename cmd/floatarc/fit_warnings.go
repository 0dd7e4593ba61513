package main

import (
	"fmt"
	"math"

	"floatarc/calibration/fit"
	"floatarc/tanks/quantity"
)

// fitWarnings tells what a log may hide.
func (s *fitSheet) fitWarnings() []warning {
	out := []warning{}
	add := func(code, format string, args ...any) {
		out = append(out, warning{code, fmt.Sprintf(format, args...)})
	}
	if s.outcome.Stuck {
		add("stuck", "The search for the likeliest measures ended where nothing near is better, but not as flat as it should be: a wall or a stop lies there. What is told is less sure than its ±.")
	}
	for i, r := range s.outcome.Rows {
		line := s.log.file.Rows[i].Line
		if r.Flag == fit.BadRead {
			add("reading_off", "Line %d: %s ohm where %s were to be expected. It was left out of the fit; a slip of the pen, or a joint that moved.", line, one(r.Input), one(r.Expected))
		}
		switch {
		case r.Vague && !r.Spilled:
			add("pour_off", "Line %d: from here on the log goes with about %s in the tank than it says: a can forgotten, counted twice or spilled?", line, s.moreWords(i))
		case r.Vague:
			add("pour_spilled", "Line %d, marked spilled: about %s went in than the log says.", line, s.moreWords(i))
		}
	}
	for _, p := range s.outcome.Parameters {
		if p.Name == "wiring.ground" && p.After < 0 {
			add("joints_below_zero", "The joints come out at %s ohm, below 0: no joint does that. The meter's own leads, or ohms at the stops that were measured otherwise; a file that is written has them in these.", quantity.Fixed(p.After, 2))
		}
		if p.Name == "tank.scale" && math.Abs(p.Moved) > farMoved {
			add("scale_far", "The tank holds %s %% otherwise than its sizes say: a size, the wall, or a can that does not hold what it says.", quantity.Signed(100*(p.After-1), 1))
		}
	}
	if s.log.water && s.file.Sender.Poured {
		add("water_poured", "The log was taken with water, and nothing is known of the float: in fuel it sits deeper, and the same litres read as less.")
	} else if s.log.water && s.file.Sender.Buoy() == nil && s.file.Sender.Kind != "probe" {
		add("water_float", "The log was taken with water, but the file tells nothing of the float (sender.float), which sits deeper in fuel: readings carried over are off by some millimetres of level.")
	}
	if s.log.water {
		add("water", "Water leads: a bare track that stands in it reads low. Dry the tank, the sender and the lines before fuel goes in.")
	}
	return out
}

// moreWords tells how many litres more, or less, went in at a row than its log says.
func (s *fitSheet) moreWords(row int) string {
	more := s.missing(row)
	if more < 0 {
		return s.sys.Volume.Text(-more) + " less"
	}
	return s.sys.Volume.Text(more) + " more"
}

// missing returns how many litres more went in at a row than its log says.
func (s *fitSheet) missing(row int) float64 {
	start, can := s.log.fit.Start, 0.0
	for _, p := range s.outcome.Parameters {
		switch p.Name {
		case fit.StartName:
			start = p.After
		case fit.CanName:
			can = p.After
		}
	}
	logged := s.log.fit.Litres(start, can)
	before := 0.0
	if row > 0 {
		before = s.outcome.Rows[row-1].Litres - logged[row-1]
	}
	return s.outcome.Rows[row].Litres - logged[row] - before
}
