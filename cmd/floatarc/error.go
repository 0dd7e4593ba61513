package main

import (
	"fmt"
	"io"
	"slices"

	"github.com/spf13/cobra"

	"floatarc/tanks/quantity"
	"floatarc/volume"
)

type errorRow struct {
	Litres      number `json:"litres"`
	Share       number `json:"share"`
	Before      number `json:"before_pct"`
	Stored      number `json:"stored_pct"`
	After       number `json:"after_pct"`
	AfterLitres number `json:"after_l"`
}

type errorAnswer struct {
	Rows []errorRow `json:"rows"`
}

func newError(o *options) *cobra.Command {
	var att attitude
	var flags planFlags
	var steps int
	c := &cobra.Command{
		Use:   "error [FILE]",
		Short: "The needle error along the whole tank",
		Long: `error prints how far the needle lies at quantities from empty to full, position
shown less position true: wired straight to the gauge, and with the points.`,
		Args: oneAtMost,
		RunE: func(c *cobra.Command, args []string) error {
			if err := checkSteps(steps); err != nil {
				return err
			}
			j, rel, p, err := o.loadPlan(named(args), att, flags)
			if err != nil {
				return err
			}
			answer := j.errorRows(rel, p, steps)
			return o.print(c.OutOrStdout(), answer, answer.Rows, func(w io.Writer) { answer.write(w, j, p, rel) })
		},
	}
	flags.register(c)
	flags.registerRound(c)
	att.register(c)
	c.Flags().IntVar(&steps, "steps", 40, "`NUMBER` of even steps from an empty tank to a full one")
	return c
}

func (j *job) errorRows(rel *volume.Relation, p *plan, steps int) errorAnswer {
	var answer errorAnswer
	curve := j.rig.Curve(rel, p.lines)
	stored := j.storedLines()
	for i := 0; i <= steps; i++ {
		s := curve.At(j.rig.Tank.Full * float64(i) / float64(steps))
		after, litres := curve.Off(p.lines, s)
		row := errorRow{
			Litres: number(s.Litres), Share: number(j.rig.Dial.Share(s.Litres)), Before: unknown, Stored: unknown,
			After: number(100 * after), AfterLitres: number(litres),
		}
		if direct := j.file.Gauge.Response; direct != nil {
			before, _ := curve.Off(direct, s)
			row.Before = number(100 * before)
		}
		if stored != nil {
			today, _ := curve.Off(stored, s)
			row.Stored = number(100 * today)
		}
		answer.Rows = append(answer.Rows, row)
	}
	return answer
}

func (a errorAnswer) write(w io.Writer, j *job, p *plan, rel *volume.Relation) {
	sys := j.sys
	fmt.Fprintf(w, "%s\nNeedle error, shown less true. %s\n\n", j.file.Name, attitudeWords(rel.Contents.Attitude, j.file.Mount))
	name := map[string]string{atMarks: "at the marks", free: "best"}[p.method]
	g := grid{heads: []string{"in the tank " + sys.Volume.Symbol, "share %", "straight %", name + " %", name + " " + sys.Volume.Symbol}}
	signed := func(v float64) string { return quantity.Signed(v, 2) }
	if j.storedLines() != nil {
		g.heads = slices.Insert(g.heads, 3, "as stored today %")
	}
	for _, r := range a.Rows {
		row := []string{sys.Volume.Number(float64(r.Litres)), quantity.Fixed(100*float64(r.Share), 1), known(float64(r.Before), signed),
			signed(float64(r.After)), signed(sys.Volume.Of(float64(r.AfterLitres)))}
		if j.storedLines() != nil {
			row = slices.Insert(row, 3, known(float64(r.Stored), signed))
		}
		g.add(row...)
	}
	g.write(w)
	fmt.Fprintf(w, "\nBeyond the end marks a right needle stands on them; %s are told from what the needle says to what there is.\n", sys.Volume.Symbol)
}
