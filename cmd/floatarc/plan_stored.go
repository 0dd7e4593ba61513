package main

import (
	"fmt"
	"io"
	"math"
	"slices"

	"floatarc/gauge"
	"floatarc/tanks/quantity"
)

// A storedRow is a pair that the box holds today, and what it should be.
type storedRow struct {
	Input    number `json:"input_ohms"`
	Position number `json:"position"`
	Litres   number `json:"litres"`        // that the input stands for
	True     number `json:"true_position"` // where the needle must stand with them
	Own      number `json:"true_input_ohms"`
	Alone    number `json:"alone_input_ohms"` // best input if this pair alone is moved
	Left     number `json:"alone_worst_pct"`  // worst error that is then left
}

// storedLines is what the box shows today; nil if the file does not tell.
func (j *job) storedLines() *gauge.Lines {
	stored := j.rig.Conditioner.Stored
	if stored == nil {
		return nil
	}
	lines, err := j.rig.Conditioner.Lines(stored)
	if err != nil {
		return nil
	}
	return lines
}

// storedRows tells what is wrong with each stored pair on level ground, by input.
func (v *survey) storedRows() []storedRow {
	lines := v.storedLines()
	rows := []storedRow{}
	if lines == nil {
		return rows
	}
	stored := slices.SortedFunc(slices.Values(v.rig.Conditioner.Stored), gauge.ByInput)
	moves := v.level.With(lines).Moves(v.rig.Conditioner, stored)
	for i, p := range stored {
		litres := v.rig.LitresNear(v.rig.Level, p.Input)
		share := v.rig.Dial.ShareAt(p.Position)
		rows = append(rows, storedRow{
			Input: number(p.Input), Position: number(p.Position), Litres: number(litres),
			True: number(v.rig.Dial.Position(v.rig.Dial.Share(litres))),
			Own:  number(v.rig.Input(v.rig.Level, v.rig.Dial.Litres(share))), Alone: number(moves[i].To), Left: number(moves[i].Percent),
		})
	}
	return rows
}

func (s *pointsSheet) writeStored(w io.Writer) {
	if len(s.stored) == 0 {
		return
	}
	v := s.sys.Volume
	fmt.Fprintln(w)
	writeWrapped(w, "", "What the conditioner holds today, on level ground; and each pair moved alone, to where the worst error is least.")
	fmt.Fprintln(w)
	g := grid{heads: []string{"stored Ω", "needle\nat %", "in the tank\n" + v.Symbol, "right\nneedle %", "right Ω", "off by Ω", "alone\nto Ω", "then\nworst %"}}
	first := s.stored[0]
	for _, r := range s.stored {
		g.add(one(float64(r.Input)), one(100*float64(r.Position)), v.Number(float64(r.Litres)), one(100*float64(r.True)), one(float64(r.Own)),
			fmt.Sprintf("%+.1f", float64(r.Input-r.Own)+0), one(float64(r.Alone)), quantity.Fixed(float64(r.Left), 2))
		if r.Left < first.Left {
			first = r
		}
	}
	g.write(w)
	lines := s.storedLines()
	today := s.level.With(lines).WorstPercent(lines)
	if math.Abs(float64(first.Alone-first.Input)) < s.rig.Step()/2 || float64(first.Left) > 0.98*today {
		fmt.Fprint(w, "\nMoving one pair alone gains next to nothing.\n")
		return
	}
	fmt.Fprintln(w)
	writeWrapped(w, "", fmt.Sprintf("If only one pair is moved, move %s Ω (needle %s) to %s Ω: the worst error goes from %s to %s %%.",
		one(float64(first.Input)), s.place(float64(first.Position)), one(float64(first.Alone)), quantity.Fixed(today, 2), quantity.Fixed(float64(first.Left), 2)))
}
