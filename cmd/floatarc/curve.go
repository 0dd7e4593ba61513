package main

import (
	"fmt"
	"io"
	"math"
	"slices"

	"github.com/spf13/cobra"

	"floatarc/float"
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
	var rising, falling bool
	c := &cobra.Command{
		Use:   "curve [FILE]",
		Short: "Arm angle to litres and ohms, at an attitude",
		Long: `curve follows the sender through the part of its travel that the tank leaves
free, and prints what each place of it means in litres and ohms: on the mean, or
on rising or falling fuel, for which a dragging axle holds the float deeper or
higher.`,
		Args: oneAtMost,
		RunE: func(c *cobra.Command, args []string) error {
			if err := checkSteps(steps); err != nil {
				return err
			}
			if rising && falling {
				return misusef("--rising and --falling, expected one of the two")
			}
			j, rel, err := o.loadAt(named(args), att)
			if err != nil {
				return err
			}
			for i, asked := range []bool{rising, falling} {
				if !asked {
					continue
				}
				var ok bool
				if rel, ok = j.rig.On(rel, ways[i].sense); !ok {
					return fmt.Errorf("on %s fuel the friction holds the arm at every angle, expected a float that moves it", ways[i].name)
				}
			}
			if j.sticks(rel) {
				why := "it would swing past the vertical and sticks"
				if (rising || falling) && j.dragged() {
					why = "near the vertical, the friction holds it"
				}
				warn("the arm follows the fuel only from %.1f° to %.1f° here; beyond, %s", rel.Low, rel.High, why)
			}
			answer := j.curve(rel, steps)
			return o.print(c.OutOrStdout(), answer, answer.Rows, func(w io.Writer) { answer.write(w, j, rel) })
		},
	}
	att.register(c)
	c.Flags().IntVar(&steps, "steps", 20, "`NUMBER` of even steps of the angle")
	c.Flags().BoolVar(&rising, "rising", false, "on rising fuel, instead of the mean")
	c.Flags().BoolVar(&falling, "falling", false, "on falling fuel, instead of the mean")
	return c
}

// ways are the two ways of the fuel, with their names.
var ways = []struct {
	sense float.Sense
	name  string
}{{float.Rising, "rising"}, {float.Falling, "falling"}}

// angle is a travel where that is the angle of an arm; others have none.
func (j *job) angle(travel float64) number {
	if j.file.Sender.Arm == nil {
		return unknown
	}
	return number(travel)
}

// level is a level; a tank known by litres alone has none.
func (j *job) level(h float64) number {
	if j.file.Sender.Poured {
		return unknown
	}
	return number(h)
}

func (j *job) curve(rel *volume.Relation, steps int) curveAnswer {
	var answer curveAnswer
	track := j.rig.Sender.Track()
	for i := 0; i <= steps; i++ {
		t := rel.Low + (rel.High-rel.Low)*float64(i)/float64(steps)
		litres, ohms := rel.Litres(t), track.Ohms(t)
		answer.Rows = append(answer.Rows, curveRow{
			Angle: j.angle(t), Level: j.level(rel.Level(t)), Litres: number(litres),
			Usable: number(litres - rel.Contents.Unusable), Sender: number(ohms), Input: number(j.rig.Wiring.Input(ohms)),
		})
	}
	return answer
}

func (a curveAnswer) write(w io.Writer, j *job, rel *volume.Relation) {
	fmt.Fprintf(w, "%s\n%s\n\n", j.file.Name, attitudeWords(rel.Contents.Attitude, j.file.Mount))
	sys := j.sys
	g := grid{heads: []string{sys.Volume.Symbol, "usable " + sys.Volume.Symbol, "sender Ω", "terminals Ω"}}
	hasLevel, onArm := !math.IsNaN(float64(a.Rows[0].Level)), j.file.Sender.Arm != nil
	if hasLevel {
		g.heads = slices.Insert(g.heads, 0, "level "+sys.Length.Symbol)
	}
	if onArm {
		g.heads = slices.Insert(g.heads, 0, "arm °")
	}
	for _, r := range a.Rows {
		row := []string{sys.Volume.Number(float64(r.Litres)), known(float64(r.Usable), sys.Volume.Number), ohmText(r.Sender), ohmText(r.Input)}
		if hasLevel {
			row = slices.Insert(row, 0, sys.Length.Finer(1).Number(float64(r.Level)))
		}
		if onArm {
			row = slices.Insert(row, 0, one(float64(r.Angle)))
		}
		g.add(row...)
	}
	g.write(w)
}

// one writes a number with one decimal.
func one(v float64) string { return quantity.Fixed(v, 1) }

func ohmText(n number) string { return quantity.Fixed(float64(n), 1) }

// known writes a number, or a dash where it is not known.
func known(v float64, write func(float64) string) string {
	if math.IsNaN(v) {
		return "–"
	}
	return write(v)
}
