package main

import (
	"fmt"
	"io"
	"slices"

	"floatarc/calibration"
	"floatarc/tanks/quantity"
)

// A numberRow is what so many points leave, by each method; worst error in percent
// of the dial.
type numberRow struct {
	Points int    `json:"points"`
	Marks  number `json:"marks_pct"`
	Best   number `json:"best_pct"`
	Away   number `json:"best_away_pct"`       // from one step beside a blind band on
	Free   number `json:"best_unpromised_pct"` // if the needle may show too much near empty
}

// mostNumbers is up to how many points the methods are told side by side.
const mostNumbers = 16

// byNumber tells both methods, on level ground, for every number of points that the
// conditioner can store, and for one more.
func (v *survey) byNumber() []numberRow {
	all, _ := v.rig.AtMarks()
	rows := []numberRow{}
	for n := 2; n <= min(v.rig.Conditioner.Places+1, mostNumbers); n++ {
		row := numberRow{Points: n, Marks: v.worstOf(v.level.Choose(all, n)), Best: unknown, Away: unknown, Free: unknown}
		if b, err := v.bestOf(n); err == nil {
			row.Best, row.Away = v.worstOf(b.Points), number(b.Live)
			row.Free = row.Best
		}
		if v.free != v.promised {
			if b, err := v.free.Best(n); err == nil {
				row.Free = v.worstOf(b.Points)
			}
		}
		rows = append(rows, row)
	}
	return rows
}

// bestOf returns the best so many points that keep the promise.
func (v *survey) bestOf(n int) (calibration.Best, error) {
	if n == v.rig.Conditioner.Places {
		return v.best, nil
	}
	return v.promised.Best(n)
}

func (v *survey) worstOf(points []calibration.Point) number {
	lines, err := v.lines(points)
	if err != nil {
		return unknown
	}
	return number(v.level.With(lines).WorstPercent(lines))
}

// writeNumbers prints what one more point buys.
func (s *pointsSheet) writeNumbers(w io.Writer) {
	if len(s.numbers) == 0 {
		return
	}
	rounded := ""
	if s.plan.rounded {
		rounded = ", before rounding"
	}
	fmt.Fprintf(w, "\nWhat one more point buys: the worst error on level ground, in %% of the dial%s.\n\n", rounded)
	g := grid{heads: []string{"points", "at the\nmarks", "best", ""}, notes: true}
	blind, promised := s.blind(), s.below > 0
	if promised {
		g.heads[2] = "best*"
		g.heads = slices.Insert(g.heads, 3, "best\nwithout *")
	}
	if blind {
		g.heads = slices.Insert(g.heads, 3, g.heads[2]+", away\nfrom the stops")
	}
	percent := func(n number) string {
		return known(float64(n), func(v float64) string { return quantity.Fixed(v, 2) })
	}
	for _, r := range s.numbers {
		row := []string{fmt.Sprint(r.Points), percent(r.Marks), percent(r.Best)}
		if blind {
			row = append(row, percent(r.Away))
		}
		if promised {
			row = append(row, percent(r.Free))
		}
		note := ""
		if r.Points == s.rig.Conditioner.Places {
			note = "← this conditioner"
		}
		g.add(append(row, note)...)
	}
	g.write(w)
}

// blind tells whether a blind band lies between the marks on level ground.
func (j *job) blind() bool {
	told := j.rig.Told(j.rig.Level)
	return told.Low.Blind || told.High.Blind
}
