package main

import (
	"slices"

	"floatarc/calibration"
)

// matchError is how far a needle lies at most.
type matchError struct {
	Percent number `json:"worst_pct"`
	Litres  number `json:"worst_l"`
	Over    number `json:"over_pct"` // shown too much on falling fuel, below a quarter
}

// matchParts are the parts behind which it does.
type matchParts struct {
	Series   number  `json:"series_ohms"`   // null for none
	Parallel number  `json:"parallel_ohms"` // null for none
	At       *string `json:"parallel_at"`   // "gauge" or "sender": on which side of the series part; null for none
	matchError
}

type matchGauge struct {
	Name     string      `json:"name"`
	Empty    number      `json:"empty_ohms"`
	Full     number      `json:"full_ohms"`
	Sense    string      `json:"sense"` // "same" or "reversed"
	Straight matchError  `json:"straight"`
	Best     *matchParts `json:"best"`          // without any parts where none helps; null where the sense is reversed
	Series   *matchParts `json:"best_series"`   // null where it does not help
	Parallel *matchParts `json:"best_parallel"` // the same
	Both     *matchParts `json:"best_both"`     // null where two do no better than one
	Spread   number      `json:"tolerance_pct"` // worst error with the best parts anywhere in their tolerance
	Watts    [2]number   `json:"watts"`         // at most, in the series part and in the parallel one
	Reason   string      `json:"reason"`        // why the gauge's ends are not met; "" if they are
}

type matchConditioner struct {
	Percent     number `json:"worst_pct"` // with points at the marks
	Litres      number `json:"worst_l"`
	BestPercent number `json:"best_pct"` // with the best points
	BestLitres  number `json:"best_l"`
}

type matchAnswer struct {
	Series      string           `json:"series"` // of the parts; or "drawer"
	Gauges      []matchGauge     `json:"gauges"`
	Conditioner matchConditioner `json:"conditioner"`
	Warnings    []warning        `json:"warnings"`
}

func toldError(m calibration.Match) matchError {
	return matchError{number(m.Worst.Percent), number(m.Worst.Litres), number(m.Over)}
}

func toldParts(m *calibration.Match) *matchParts {
	if m == nil {
		return nil
	}
	out := &matchParts{Series: unknown, Parallel: unknown, matchError: toldError(*m)}
	if m.Network.Series > 0 {
		out.Series = number(m.Network.Series)
	}
	if m.Network.Parallel > 0 {
		at := "gauge"
		if m.Network.AtSender {
			at = "sender"
		}
		out.Parallel, out.At = number(m.Network.Parallel), &at
	}
	return out
}

func (s *matchSheet) answer() matchAnswer {
	a := matchAnswer{
		Series: s.series.Name, Warnings: slices.Concat(s.backwards, s.warnings),
		Conditioner: matchConditioner{number(s.marks.Percent), number(s.marks.Litres), unknown, unknown},
	}
	if s.free != nil {
		a.Conditioner.BestPercent, a.Conditioner.BestLitres = number(s.free.Percent), number(s.free.Litres)
	}
	for _, m := range s.gauges {
		g := matchGauge{
			Name: m.Name, Empty: number(m.Empty), Full: number(m.Full), Sense: "same", Straight: toldError(m.choice.Straight), Best: toldParts(m.best),
			Series: toldParts(m.choice.Series), Parallel: toldParts(m.choice.Parallel), Both: toldParts(m.choice.Both),
			Spread: unknown, Watts: [2]number{unknown, unknown}, Reason: m.reason,
		}
		if m.reversed() {
			g.Sense = "reversed"
		}
		if m.best != nil && m.best.Network.Count() > 0 {
			g.Spread = number(s.spread(m, *m.best))
			series, parallel := m.best.Network.MostWatts(charging, s.least, s.most)
			if m.best.Network.Series > 0 {
				g.Watts[0] = number(series)
			}
			if m.best.Network.Parallel > 0 {
				g.Watts[1] = number(parallel)
			}
		}
		a.Gauges = append(a.Gauges, g)
	}
	return a
}

// matchCSV is a gauge on one line.
type matchCSV struct {
	Name            string `json:"name"`
	Empty           number `json:"empty_ohms"`
	Full            number `json:"full_ohms"`
	Sense           string `json:"sense"`
	StraightPercent number `json:"straight_pct"`
	StraightLitres  number `json:"straight_l"`
	StraightOver    number `json:"straight_over_pct"`
	Series          number `json:"series_ohms"`
	Parallel        number `json:"parallel_ohms"`
	At              string `json:"parallel_at"`
	Percent         number `json:"worst_pct"`
	Litres          number `json:"worst_l"`
	Over            number `json:"over_pct"`
	Reason          string `json:"reason"`
}

func (a matchAnswer) csvRows() []matchCSV {
	var out []matchCSV
	for _, g := range a.Gauges {
		row := matchCSV{
			g.Name, g.Empty, g.Full, g.Sense, g.Straight.Percent, g.Straight.Litres, g.Straight.Over,
			unknown, unknown, "", unknown, unknown, unknown, g.Reason,
		}
		if b := g.Best; b != nil {
			row.Series, row.Parallel, row.Percent, row.Litres, row.Over = b.Series, b.Parallel, b.Percent, b.Litres, b.Over
			if b.At != nil {
				row.At = *b.At
			}
		}
		out = append(out, row)
	}
	return out
}
