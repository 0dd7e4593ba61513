package main

import (
	"math"

	"floatarc/tanks/quantity"
)

// What was in the tank before the first pour, but for litres.
const (
	drained  = "drained"
	empty    = "empty" // the same
	unusable = "unusable"
	unknownL = "unknown"
)

// takeStart takes what was in the tank before the first row. Totals tell it themselves.
func (j *job) takeStart(l *loadedLog, flags logFlags) error {
	if l.file.Totals {
		if flags.start != "" {
			return misusef("--start %s: the log tells totals, which start from an empty tank, expected no --start", flags.start)
		}
		return nil
	}
	return j.takeStartOf(l, flags)
}

// takeStartOf takes it of a log that tells what went in and out.
func (j *job) takeStartOf(l *loadedLog, flags logFlags) error {
	switch flags.start {
	case drained, empty:
	case unusable:
		l.fit.Start = j.rig.Level.Contents.Unusable
		l.fit.StartSigma = startUnusable * l.fit.Start
	case "", unknownL:
		l.fit.FindStart(j.rig)
	default:
		q, err := quantity.Volume.Parse(flags.start)
		if err != nil || q.Value < 0 {
			return misusef("--start %q, expected drained, unusable, unknown or litres such as \"5 L ± 0.5 L\"", flags.start)
		}
		l.fit.Start, l.fit.StartSigma = q.Value, q.Sigma
	}
	return nil
}

// startUnusable is the share to which the unusable litres that a pump leaves behind are
// known (common practice, no source).
const startUnusable = 0.2

// Of what cannot be: how far a reading may lie beyond all that the sender shows, as a share
// of that, and how much more than the capacity a log may tell, before it is refused.
const (
	beyondSender   = 0.15
	beyondCapacity = 0.1
)

// plausible refuses readings that the sender cannot make, and litres that the tank cannot
// hold.
func (j *job) plausible(l *loadedLog) error {
	low, high := j.rig.Sender.Stops()
	least, most := j.rig.InputAt(low), j.rig.InputAt(high)
	least, most = math.Min(least, most), math.Max(least, most)
	slack := beyondSender * (most - least)
	litres := l.fit.Litres(l.fit.Start, 0)
	for i, r := range l.fit.Rows {
		line := l.file.Rows[i].Line
		switch {
		case r.Doubtful:
		case r.Input < least-slack || r.Input > most+slack:
			return l.refuse(line, "%s: %.5g ohm at the terminals, expected about %.4g to %.4g ohm, all that the sender and its wiring can show (a doubtful reading is marked so in the column note)", l.file.Reads, r.Input, least, most)
		case litres[i] > j.file.Tank.Capacity*(1+beyondCapacity) && !l.fit.Found:
			return l.refuse(line, "%.4g L in the tank, expected at most its capacity, %.4g L", litres[i], j.file.Tank.Capacity)
		case litres[i] < -beyondCapacity*j.file.Tank.Capacity && !l.fit.Found:
			return l.refuse(line, "%.4g L drained from a tank that held %.4g L, expected no more than was in it (--start says what was)", -r.Poured, litres[i]-r.Poured)
		}
	}
	return nil
}

// holds refuses a log that, from the start that was found, comes to more than the tank
// holds, or to less than nothing.
func (s *fitSheet) holds() error {
	capacity := s.file.Tank.Capacity
	for i, r := range s.outcome.Rows {
		if r.Litres < -beyondCapacity*capacity || r.Litres > (1+beyondCapacity)*capacity {
			return s.log.refuse(s.log.file.Rows[i].Line, "%.4g L in the tank, from a start of %.4g L that the readings tell, expected 0 to its capacity, %.4g L: is it this tank, and are the amounts in the unit of the heading? (--start says what was in it)", r.Litres, r.Litres-s.poured(i), capacity)
		}
	}
	return nil
}

// poured returns the litres that went in up to a row.
func (s *fitSheet) poured(row int) float64 { return s.log.fit.Litres(0, 0)[row] }
