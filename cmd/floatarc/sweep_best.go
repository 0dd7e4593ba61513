package main

import "math"

// An aim is a figure of a rig that is to be small.
type aim func(*weighed) float64

func leastMarks(w *weighed) float64   { return float64(w.MarksAway) }
func leastBest(w *weighed) float64    { return float64(w.BestAway) }
func leastOverall(w *weighed) float64 { return float64(w.Best) }
func widestBand(w *weighed) float64   { return float64(w.LiveLow - w.LiveHigh) }
func latestLamp(w *weighed) float64   { return float64(w.Warn) }

// allMarks is told, but nothing to aim at: a blind band hides everything else in it.
func allMarks(w *weighed) float64 { return float64(w.Marks) }

// hundredth is how near two figures are as good as one another: of a percent of the dial it is
// less than anybody sets, of a litre less than anybody pours.
const hundredth = 0.01

// bestOf returns the row in which a figure is least: the one of the file, if it is as good as
// any, or else the first; nil if it is known of none.
func (s *sweep) bestOf(a aim) *weighed {
	var best *weighed
	const alike = 1e-9
	for _, w := range s.rows {
		v := a(w)
		switch {
		case w.refused != nil || math.IsNaN(v):
		case best == nil, v < a(best)-alike:
			best = w
		case v <= a(best)+alike && (w.Current || !isKnown(best.bare)): // a row without a value is no answer
			best = w
		}
	}
	return best
}

// now is the row of what the file holds, if that makes a rig.
func (s *sweep) now() *weighed {
	for _, w := range s.rows {
		if w.Current && w.refused == nil {
			return w
		}
	}
	return nil
}

// gains tells whether a row is better than that of the file, or there is none.
func (s *sweep) gains(a aim, best *weighed) bool {
	now := s.now()
	return now == nil || math.IsNaN(a(now)) || a(now)-a(best) > hundredth
}

// changes tells whether a figure differs anywhere in the sweep, or is there only at times.
func (s *sweep) changes(a aim) bool {
	least, most, known, rows := math.Inf(1), math.Inf(-1), 0, 0
	for _, w := range s.rows {
		if w.refused != nil {
			continue
		}
		rows++
		if v := a(w); !math.IsNaN(v) {
			known++
			least, most = math.Min(least, v), math.Max(most, v)
		}
	}
	return known > 0 && (known < rows || most-least > hundredth/2)
}

func isKnown(v float64) bool { return !math.IsNaN(v) }
