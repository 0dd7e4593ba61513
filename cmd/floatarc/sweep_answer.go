package main

type sweepRow struct {
	Value         number `json:"value"` // in the key's own unit
	Shown         string `json:"shown"`
	Current       bool   `json:"current"`
	LiveLow       number `json:"live_low_l"`
	LiveHigh      number `json:"live_high_l"`
	LiveLowShare  number `json:"live_low_share"` // of empty to full
	LiveHighShare number `json:"live_high_share"`
	Marks         number `json:"marks_pct"`
	MarksLitres   number `json:"marks_l"`
	MarksLive     number `json:"marks_live_pct"`
	MarksAway     number `json:"marks_away_pct"` // from one step beside a blind band on
	Best          number `json:"best_pct"`
	BestLitres    number `json:"best_l"`
	BestLive      number `json:"best_live_pct"`
	BestAway      number `json:"best_away_pct"`
	Straight      number `json:"straight_pct"`
	Warn          number `json:"warn_l"`
	NoLamp        string `json:"no_lamp"` // why none lights in time
	Refused       string `json:"refused"` // why there is no such rig
}

// A sweepBest is at which value each figure is best; null for the rig as it is, where that
// has no value, and where nothing is known.
type sweepBest struct {
	Marks   number `json:"marks"` // least error away from the stops
	Best    number `json:"best"`
	Overall number `json:"overall"` // least error of the best points, blind bands included
	Live    number `json:"live"`    // widest live band
	Warn    number `json:"warn"`    // latest lamp
}

// blank forgets all figures.
func (r *sweepRow) blank() {
	for _, n := range []*number{
		&r.LiveLow, &r.LiveHigh, &r.LiveLowShare, &r.LiveHighShare, &r.Marks, &r.MarksLitres, &r.MarksLive, &r.MarksAway,
		&r.Best, &r.BestLitres, &r.BestLive, &r.BestAway, &r.Straight, &r.Warn,
	} {
		*n = unknown
	}
}

type sweepAnswer struct {
	Key     string     `json:"key"`
	Unit    string     `json:"unit"`
	Rows    []sweepRow `json:"rows"`
	BestAt  sweepBest  `json:"best_at"`
	Picture string     `json:"picture,omitempty"`
}

func (s *sweep) answer() sweepAnswer {
	a := sweepAnswer{Key: s.figure.Key, BestAt: sweepBest{unknown, unknown, unknown, unknown, unknown}, Picture: s.picture}
	if s.figure.Dimension != nil {
		a.Unit = s.figure.Dimension.Bare
	}
	for _, w := range s.rows {
		row := w.sweepRow
		row.Value, row.Shown, row.Refused = number(w.bare), s.shown(w), w.why(s.figure.Key)
		a.Rows = append(a.Rows, row)
	}
	for _, g := range []struct {
		of   aim
		into *number
	}{{leastMarks, &a.BestAt.Marks}, {leastBest, &a.BestAt.Best}, {leastOverall, &a.BestAt.Overall}, {widestBand, &a.BestAt.Live}, {latestLamp, &a.BestAt.Warn}} {
		if w := s.bestOf(g.of); w != nil {
			*g.into = number(w.bare)
		}
	}
	return a
}
