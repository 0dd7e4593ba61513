package main

import (
	"fmt"

	"github.com/spf13/cobra"

	"floatarc/tanks/quantity"
	"floatarc/volume"
)

type pointRow struct {
	Label    string `json:"label"`
	Share    number `json:"share"`
	Position number `json:"position"`
	Litres   number `json:"litres"`
	Angle    number `json:"angle_deg"`
	Sender   number `json:"sender_ohms"`
	Input    number `json:"input_ohms"`
	Blind    bool   `json:"blind"`
	Place    string `json:"place"` // of the needle, in words
	Drive    number `json:"drive"` // of a gauge that is not linear in it
}

type pointsAnswer struct {
	Method    string           `json:"method"`
	Rounded   bool             `json:"rounded"`
	NeverOver number           `json:"never_over"` // share; null with the method marks
	Points    []pointRow       `json:"points"`
	Error     errorsAnswer     `json:"error"`
	Floor     number           `json:"floor_pct"`
	Least     number           `json:"least_pct"` // proven least on the samples
	Between   number           `json:"between_pct"`
	Away      number           `json:"least_away_pct"` // the same from one step beside a blind band on
	Numbers   []numberRow      `json:"by_number"`
	Stored    []storedRow      `json:"stored"`
	Installed *installedAnswer `json:"installed"`
	Uncertain *pointsUncertain `json:"uncertain,omitempty"`
	Warnings  []warning        `json:"warnings"`
}

func newPoints(o *options) *cobra.Command {
	var att attitude
	var flags planFlags
	var lookup lookupFlags
	var uncertain uncertainFlags
	c := &cobra.Command{
		Use:   "points [FILE]",
		Short: "The calibration points to store, and the error before and after",
		Long: `points prints the pairs of input resistance and dial position that the
conditioner is to store, and how far the needle then lies at worst. With an
attitude the pairs stay those of level ground; the error is that of the attitude.

--method marks puts a pair at each printed mark. --method best puts them where
the needle lies least, free in input and in position: no other choice of so many
has a smaller worst error.`,
		Args: oneAtMost,
		RunE: func(c *cobra.Command, args []string) error {
			if err := lookup.check(c); err != nil {
				return err
			}
			if err := uncertain.check(c); err != nil {
				return err
			}
			if lookup.format != "" && uncertain.asked {
				return misusef("points: --uncertain with --table, expected one of them")
			}
			if lookup.format != "" {
				j, err := o.loadWired(named(args), flags)
				if err != nil {
					return err
				}
				return j.writeLookup(c.OutOrStdout(), lookup)
			}
			j, rel, p, err := o.loadPlan(named(args), att, flags)
			if err != nil {
				return err
			}
			sheet, err := j.pointsSheet(rel, p, flags)
			if err != nil {
				return err
			}
			sheet.warn(c.Flags().Changed("never-over"))
			if uncertain.asked {
				if sheet.uncertain, err = sheet.uncertainty(uncertain); err != nil {
					return err
				}
			}
			answer := sheet.answer()
			return o.print(c.OutOrStdout(), answer, answer.Points, sheet.write)
		},
	}
	flags.register(c)
	flags.registerRound(c)
	lookup.register(c)
	uncertain.register(c)
	att.register(c)
	return c
}

// A pointsSheet is everything that points tells.
type pointsSheet struct {
	*survey
	plan     *plan
	errors   errorsSheet
	numbers  []numberRow
	stored   []storedRow
	warnings []warning

	uncertain *pointsUncertain // nil if nobody asked
}

func (j *job) pointsSheet(rel *volume.Relation, p *plan, f planFlags) (*pointsSheet, error) {
	v, err := j.survey(rel, p, float64(f.neverOver))
	if err != nil {
		return nil, err
	}
	s := &pointsSheet{survey: v, plan: p, numbers: v.byNumber(), stored: v.storedRows()}
	s.errors, err = v.errorsSheet(p)
	return s, err
}

// warn finds the warnings; asked says that a promise was asked for in so many words.
func (s *pointsSheet) warn(asked bool) {
	s.warnings = s.pointWarnings(s.plan)
	if s.broken() {
		s.warnings = append(s.warnings, warning{"promise_broken", fmt.Sprintf("The best points do not keep the promise: near E the needle shows up to %s %% too much, since it cannot go lower (gauge.needle).", quantity.Fixed(s.errors.best.over, 1))})
	}
	if asked && s.plan.method == atMarks {
		s.warnings = append(s.warnings, warning{"never_over_unused", "--never-over is kept by --method best alone: with points at the marks the needle is right on every mark and bends between them."})
	}
}

// broken tells whether the best points show too much near empty on level ground, where
// they promise not to.
func (s *pointsSheet) broken() bool {
	const slack = 0.01 // percent of the dial
	return s.rel == s.rig.Level && s.errors.best.over > slack
}

func (s *pointsSheet) answer() pointsAnswer {
	p := s.plan
	a := pointsAnswer{
		Method: p.method, Rounded: p.rounded, NeverOver: unknown, Error: s.errors.answer(), Numbers: s.numbers, Stored: s.stored,
		Floor: unknown, Least: unknown, Between: unknown, Away: unknown, Installed: s.installedAnswer(), Uncertain: s.uncertain, Warnings: s.warnings,
	}
	if p.search != nil {
		a.NeverOver, a.Floor, a.Between = number(s.below), number(p.search.Floor), number(p.search.Between)
		a.Least, a.Away = number(p.best.Least), number(p.best.Live)
	}
	for _, q := range p.points {
		row := pointRow{
			Label: q.Label, Share: number(q.Share), Position: number(q.Position), Litres: number(q.Litres), Angle: s.angle(q.Travel),
			Sender: number(q.SenderOhms), Input: number(q.InputOhms), Blind: q.Blind, Place: s.place(q.Position), Drive: unknown,
		}
		if n := s.rig.Conditioner.Needle; n != nil {
			row.Drive = number(n.Drive(q.Position))
		}
		a.Points = append(a.Points, row)
	}
	return a
}
