package main

import (
	"fmt"
	"io"
	"slices"

	"floatarc/calibration"
	"floatarc/gauge"
	"floatarc/tanks/quantity"
)

// worst is how far a needle lies at most.
type worst struct {
	Percent number `json:"worst_pct"`
	Litres  number `json:"worst_l"`
	Live    number `json:"worst_live_pct"`
	At      number `json:"worst_at_l"`
	Shows   string `json:"shows"`          // what the driver sees there
	Over    number `json:"over_pct"`       // shown too much on falling fuel, below a share
	Away    number `json:"worst_away_pct"` // in the live band, from one step beside a blind band on
}

// errorsAnswer holds the needle against the truth, wired and stored in every way;
// null where the file does not tell of one.
type errorsAnswer struct {
	Before *worst `json:"before"` // wired straight to the gauge
	Stored *worst `json:"stored"` // with what the box holds today
	Marks  *worst `json:"marks"`
	Best   *worst `json:"best"`
	After  worst  `json:"after"` // with the points asked for
}

// An errorsSheet is the same as the commands compute with it.
type errorsSheet struct {
	*survey
	plan                          *plan
	straight, stored, marks, best *verdict
}

// A verdict is how far a needle lies at worst.
type verdict struct {
	calibration.Worst
	over  float64 // shown too much, in percent
	shows string  // what the driver sees at worst
}

// errorsSheet holds every way of wiring and storing against the truth.
func (v *survey) errorsSheet(p *plan) (errorsSheet, error) {
	s := errorsSheet{survey: v, plan: p}
	if direct := v.file.Gauge.Response; direct != nil {
		s.straight = v.judge(direct)
	}
	if stored := v.storedLines(); stored != nil {
		s.stored = v.judge(stored)
	}
	after := v.judge(p.lines)
	if p.method == free {
		s.best = after
		q, err := v.job.plan(planFlags{method: atMarks})
		if err != nil {
			return s, err
		}
		s.marks = v.judge(q.lines)
		return s, nil
	}
	s.marks = after
	lines, err := v.lines(v.best.Points)
	if err != nil {
		return s, err
	}
	s.best = v.judge(lines)
	return s, nil
}

func (v *survey) judge(ind gauge.Indicator) *verdict {
	w := verdict{Worst: v.curve.With(ind).Worst(ind)}
	if v.below > 0 {
		w.over = max(0, v.falling.Over(ind, v.below))
	}
	w.shows = fmt.Sprintf("shows %s, holds %s", onPlace(v.place(ind.Show(w.At.Input))), v.sys.Volume.Text(w.At.Litres))
	return &w
}

// chosen is the verdict on the points that were asked for.
func (s errorsSheet) chosen() *verdict {
	if s.plan.method == free {
		return s.best
	}
	return s.marks
}

func (s errorsSheet) told(v *verdict) *worst {
	if v == nil {
		return nil
	}
	w := &worst{number(v.Percent), number(v.Litres), number(v.LivePercent), number(v.At.Litres), v.shows, unknown, number(v.AwayPercent)}
	if s.below > 0 {
		w.Over = number(v.over)
	}
	return w
}

func (s errorsSheet) answer() errorsAnswer {
	return errorsAnswer{Before: s.told(s.straight), Stored: s.told(s.stored), Marks: s.told(s.marks), Best: s.told(s.best), After: *s.told(s.chosen())}
}

func (s errorsSheet) write(w io.Writer) {
	v := s.sys.Volume
	fmt.Fprintf(w, "\nHow far the needle lies at worst, from the empty to the full mark.\n%s\n\n", attitudeWords(s.rel.Contents.Attitude, s.file.Mount))
	g := grid{heads: []string{"", "worst %\nof dial", "worst\n" + v.Symbol, "at worst it"}, labels: true, notes: true}
	blind := s.blind()
	row := func(name string, e *verdict) {
		if e == nil {
			return
		}
		if e == s.chosen() {
			name += " (above)"
		}
		cells := []string{name, quantity.Fixed(e.Percent, 2), v.Number(e.Litres), e.shows}
		if blind {
			cells = slices.Insert(cells, 3, quantity.Fixed(e.AwayPercent, 2))
		}
		if s.below > 0 {
			cells = slices.Insert(cells, len(cells)-1, quantity.Fixed(e.over, 2))
		}
		g.add(cells...)
	}
	if blind {
		g.heads = slices.Insert(g.heads, 3, "away from\nthe stops %")
	}
	promise := ""
	if s.below > 0 {
		g.heads = slices.Insert(g.heads, len(g.heads)-1, "too much\nnear E %")
		promise = "*"
	}
	row("straight to the gauge", s.straight)
	row("as stored today", s.stored)
	row("points at the marks", s.marks)
	best := "best points" + promise
	if s.plan.rounded && s.plan.method == atMarks {
		best += ", not rounded"
	}
	row(best, s.best)
	g.write(w)
	if s.below > 0 {
		fmt.Fprintln(w)
		writeWrapped(w, "", fmt.Sprintf("* The best points of which the needle never shows too much below %s of the way from empty to full, on falling fuel and level ground; --never-over 0 lifts that.", shareWords(s.below)))
	}
}

// onPlace leaves out the "on" of a place that is told after "shows".
func onPlace(place string) string {
	if len(place) > 3 && place[:3] == "on " {
		return place[3:]
	}
	return place
}
