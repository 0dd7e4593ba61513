package main

import (
	"fmt"
	"io"
	"math"

	"github.com/spf13/cobra"

	"floatarc/tanks/quantity"
	"floatarc/volume"
)

type curveRow struct {
	Angle  number `json:"angle_deg"`
	Level  number `json:"level_mm"`
	Litres number `json:"litres"`
	Usable number `json:"usable_l"`
	Sender number `json:"sender_ohms"`
	Input  number `json:"input_ohms"`
}

type curveAnswer struct {
	Rows []curveRow `json:"rows"`
}

func newCurve(o *options) *cobra.Command {
	var att attitude
	var steps int
	c := &cobra.Command{
		Use:   "curve [FILE]",
		Short: "Arm angle to litres and ohms, at an attitude",
		Long: `curve follows the arm through the part of its swing that the tank leaves free,
and prints what each angle means in litres and ohms.`,
		Args: cobra.MaximumNArgs(1),
		RunE: func(c *cobra.Command, args []string) error {
			if err := checkSteps(steps); err != nil {
				return err
			}
			j, rel, err := o.loadAt(named(args), att)
			if err != nil {
				return err
			}
			if rel.Low > j.rig.Low || rel.High < j.rig.High {
				warn("the arm follows the fuel only from %.1f° to %.1f° here; beyond, it would swing past the vertical and sticks", rel.Low, rel.High)
			}
			answer := j.curve(rel, steps)
			return o.print(c.OutOrStdout(), answer, answer.Rows, func(w io.Writer) { answer.write(w, j, rel) })
		},
	}
	att.register(c)
	c.Flags().IntVar(&steps, "steps", 20, "`NUMBER` of even steps of the angle")
	return c
}

func (j *job) curve(rel *volume.Relation, steps int) curveAnswer {
	var answer curveAnswer
	track := j.rig.Sender.Track()
	for i := 0; i <= steps; i++ {
		t := rel.Low + (rel.High-rel.Low)*float64(i)/float64(steps)
		litres, ohms := rel.Litres(t), track.Ohms(t)
		answer.Rows = append(answer.Rows, curveRow{
			Angle: number(t), Level: number(j.rig.Sender.Level(t, rel.Contents.Up)), Litres: number(litres),
			Usable: number(litres - rel.Contents.Unusable), Sender: number(ohms), Input: number(j.rig.Wiring.Input(ohms)),
		})
	}
	return answer
}

func (a curveAnswer) write(w io.Writer, j *job, rel *volume.Relation) {
	fmt.Fprintf(w, "%s\n%s\n\n", j.file.Name, attitudeWords(rel.Contents.Attitude, j.file.Mount))
	sys := j.sys
	g := grid{heads: []string{"arm °", "level " + sys.Length.Symbol, sys.Volume.Symbol, "usable " + sys.Volume.Symbol, "sender Ω", "terminals Ω"}}
	for _, r := range a.Rows {
		g.add(quantity.Fixed(float64(r.Angle), 1), sys.Length.Finer(1).Number(float64(r.Level)), sys.Volume.Number(float64(r.Litres)),
			known(float64(r.Usable), sys.Volume.Number), ohmText(r.Sender), ohmText(r.Input))
	}
	g.write(w)
}

func ohmText(n number) string { return quantity.Fixed(float64(n), 1) }

// known writes a number, or a dash where it is not known.
func known(v float64, write func(float64) string) string {
	if math.IsNaN(v) {
		return "–"
	}
	return write(v)
}
