package main

import (
	"errors"
	"io"
	"slices"

	"github.com/spf13/cobra"

	"floatarc/plots/ink"
	"floatarc/tanks"
)

// sweepFlags are the flags of the command.
type sweepFlags struct {
	neverOver share
	output    string
	force     bool
}

func newSweep(o *options) *cobra.Command {
	f := sweepFlags{neverOver: quarter}
	c := &cobra.Command{
		Use:   "sweep KEY FROM:TO:STEP [FILE]",
		Short: "One key of the rig varied: which arm, which pull-up, how many points",
		Long: `sweep varies one key of the rig file, plans the points anew for every value, and
tells what comes of it: the live band, the worst error with points at the marks
and with the best ones, and with how much the low-fuel lamp lights.

KEY is any that --set takes and that holds a number. FROM:TO:STEP is in the key's
own unit or in that written behind the numbers; a list works, too:
  floatarc sweep sender.arm 200:260:10
  floatarc sweep sender.arm "8 in:12 in:1/2 in" my-rig.toml
  floatarc sweep use.grade "10 %:30 %:5 %"
  floatarc sweep conditioner.pull_up 100,150,220,330 -o pull-up.svg`,
		Args: sweepArgs,
		RunE: func(c *cobra.Command, args []string) error {
			s, err := o.sweep(args[0], args[1], named(args[2:]), float64(f.neverOver))
			if err != nil {
				return err
			}
			if f.output != "" {
				if err := s.draw(f); err != nil {
					return err
				}
			}
			answer := s.answer()
			return o.print(c.OutOrStdout(), answer, answer.Rows, func(w io.Writer) { s.write(w, answer) })
		},
		ValidArgsFunction: completeSweep,
	}
	c.Flags().Var(&f.neverOver, "never-over", "below this share the best points never show more than there is on falling fuel; 0 turns it off")
	c.Flags().StringVarP(&f.output, "output", "o", "", "a picture besides: the `FILE` to write, which ends in .svg, .png or .pdf")
	c.Flags().BoolVar(&f.force, "force", false, "write over a file that exists")
	return c
}

// sweepArgs takes a key, a range and a rig at most, and refuses what cannot be a range before
// anything is read.
func sweepArgs(c *cobra.Command, args []string) error {
	if len(args) < 2 {
		return misusef("sweep: expected KEY FROM:TO:STEP [FILE], such as sweep sender.arm 200:260:10")
	}
	if _, _, err := cutRange(args[1]); err != nil {
		return err
	}
	if out := c.Flags().Lookup("output"); out.Changed {
		if _, err := ink.FormatOf(out.Value.String()); err != nil {
			return misusef("-o %s: %v", out.Value, err)
		}
	}
	return oneAtMost(c, args[2:])
}

func completeSweep(c *cobra.Command, args []string, word string) ([]string, cobra.ShellCompDirective) {
	if len(args) == 2 {
		return completeFile(c, nil, word)
	}
	return nil, cobra.ShellCompDirectiveNoFileComp
}

// A sweep is a rig with one key at many values.
type sweep struct {
	figure *tanks.Figure
	read   reading
	rows   []*weighed
	sample *job // one of the rigs, for its name and its units

	picture string // the file that was drawn
}

// sweep weighs the values of a range, and the one that the file holds.
func (o *options) sweep(key, text, file string, neverOver float64) (*sweep, error) {
	parts, _, err := cutRange(text)
	if err != nil {
		return nil, err
	}
	figure, err := tanks.FigureOf(file, o.set, key, parts[0])
	if err != nil {
		return nil, err
	}
	settings, read, err := rangeOf(text, figure, o.system())
	if err != nil {
		return nil, err
	}
	s := &sweep{figure: figure, read: read}
	for _, at := range settings {
		s.rows = append(s.rows, &weighed{setting: at})
	}
	s.addCurrent()
	s.weigh(o, file, neverOver)
	return s, s.possible(file)
}

// possible refuses a sweep of which no value makes a rig, and finds one that does.
func (s *sweep) possible(file string) error {
	var first *weighed
	for _, w := range s.rows {
		if w.refused == nil {
			s.sample = w.job
		}
		if first == nil && !w.own {
			first = w
		}
	}
	if slices.ContainsFunc(s.rows, func(w *weighed) bool { return !w.own && w.refused == nil }) {
		return nil
	}
	var e *tanks.Error
	if errors.As(first.refused, &e) && e.Key == s.figure.Key && e.Line == 0 { // it is no --set that it comes from
		return &tanks.Error{File: file, Key: e.Key, Reason: e.Reason + " (the first value; no other makes a rig)"}
	}
	return first.refused
}
