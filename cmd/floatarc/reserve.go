package main

import (
	"math"
	"slices"

	"github.com/spf13/cobra"

	"floatarc/calibration"
	"floatarc/calibration/reserve"
	"floatarc/gauge"
)

// A lampSheet is the answer for people.
type lampSheet struct {
	*job
	reserveAnswer
	*lampFound
	plan  *plan
	flags lampFlags

	unplanned error // why there are no points
}

// lampFlags are the flags of the command.
type lampFlags struct {
	plan        planFlags
	ordinary    share
	card, cures bool
	uncertain   uncertainFlags
}

// halfOfIt is the share of the slopes that ordinary driving is taken to cover
// (common practice, no source).
const halfOfIt = 0.5

func newReserve(o *options) *cobra.Command {
	flags := lampFlags{ordinary: halfOfIt}
	c := &cobra.Command{
		Use:   "reserve [FILE]",
		Short: "The low-fuel warning that still holds on a hill",
		Long: `reserve finds at which resistance to light the low-fuel lamp, so that the reserve
of [use] can be driven wherever on its slopes the lamp lights, rising or falling,
at the unlucky end of the sender's tolerance and winding, even if the last litre
is needed on the worst other slope. Where no lamp does that it says what would
cure it, and exits with 1.

Aircraft: a low-fuel warning there is a matter of regulation (such as 14 CFR
27.1305, about 10 minutes of usable fuel, independent of the gauge) and of
certified people. These figures do not replace them.`,
		Args: oneAtMost,
		RunE: func(c *cobra.Command, args []string) error {
			if err := flags.uncertain.check(c); err != nil {
				return err
			}
			j, err := o.loadWired(named(args), flags.plan)
			if err != nil {
				return err
			}
			sheet, err := j.lampSheet(flags)
			if err != nil {
				return err
			}
			if err := o.print(c.OutOrStdout(), sheet.reserveAnswer, sheet.rows(), sheet.write); err != nil {
				return err
			}
			return sheet.refusal()
		},
	}
	flags.plan.register(c)
	flags.uncertain.register(c)
	c.Flags().Var(&flags.ordinary, "ordinary", "share of the slopes that ordinary driving covers, over which a lit lamp stays lit")
	c.Flags().BoolVar(&flags.card, "table", false, "litres in the tank to what is left, for a card in the glove box")
	c.Flags().BoolVar(&flags.cures, "cures", false, "what would let the lamp light later (told by itself where none keeps the promise)")
	return c
}

// lampSheet finds the lamp of [use].
func (j *job) lampSheet(flags lampFlags) (*lampSheet, error) {
	progress, finish := watch("slopes")
	defer finish()
	found := j.findLamp(progress)
	if found.err != nil {
		return nil, found.err
	}
	p := found.promise
	s := &lampSheet{job: j, lampFound: found, reserveAnswer: blankReserve(), flags: flags}
	s.Reserve, s.Ordinary, s.Lights = number(p.Reserve), number(flags.ordinary), map[bool]string{true: "above", false: "below"}[p.Falls()]
	s.NoseUp, s.LeftUp = number(p.Envelope.NoseUp), number(p.Envelope.LeftUp)
	s.takeChoices()
	if s.refused != nil || flags.cures {
		if err := s.takeCures(); err != nil {
			return nil, err
		}
	}
	if s.refused != nil {
		s.takeWarnings()
		return s, nil
	}
	s.Possible = true
	if s.plan, s.unplanned = j.plan(flags.plan); s.unplanned != nil {
		s.plan = nil // a box that stores nothing still lights a lamp
	}
	s.takeRanges()
	out, err := p.Out(s.warning.Chosen, envelopeOf(smaller(j.file.Use, float64(flags.ordinary))))
	if err != nil {
		return nil, err
	}
	s.takeOut(out)
	s.takeDelay()
	if flags.card {
		s.Table = s.cardRows()
	}
	s.takeWarnings()
	if flags.uncertain.asked {
		finish() // of the bar
		return s, s.takeUncertainty(flags.uncertain)
	}
	return s, nil
}

// rows are those of the CSV.
func (s *lampSheet) rows() any {
	if s.flags.card {
		return s.Table
	}
	return s.Attitudes
}

// refusal is the error that no lamp keeps the promise, if none does.
func (s *lampSheet) refusal() error {
	if s.refused == nil {
		return nil
	}
	return s.file.Refuse("use.reserve", "%s, expected a smaller reserve or smaller slopes, or the pickup or the sender in another place", s.refusedWords())
}

// takeChoices takes what the lamp, and the two simpler ones, come to.
func (s *lampSheet) takeChoices() {
	w := s.warning
	choice := func(c reserve.Choice, latest reserve.Spot) lampChoice {
		out := lampChoice{On: number(c.On), Warn: number(s.promise.Level(c)), Latest: unknown, Left: unknown, Short: unknown, AtStop: c.AtStop}
		if c.Possible() {
			left := latest.Litres - w.Unusable.Litres
			out.Latest, out.Left, out.Short = number(latest.Litres), number(left), number(math.Max(0, s.promise.Reserve-left))
		}
		return out
	}
	s.Chosen, s.Level, s.Steady = choice(w.Chosen, w.Latest), choice(w.LevelOnly, w.LevelOnlyLatest), choice(w.Steady, w.SteadyLatest)
	s.Worst, s.Unusable, s.LevelOnly = number(w.Unusable.Litres), spotOf(w.Unusable), s.Level.Warn
	if s.refused == nil {
		s.Latest, s.Earliest = spotOf(w.Latest), spotOf(w.Earliest)
		if a := w.Sticks.Attitude; !math.IsInf(w.Sticks.Angle, 1) {
			s.Sticks = stick{number(a.NoseUp), number(a.LeftUp), number(w.Sticks.Angle)}
		}
	}
	s.On, s.Warn = s.Chosen.On, s.Chosen.Warn
	s.WarnUsable = s.Warn - number(s.rig.Level.Contents.Unusable)
	for _, r := range w.Rows {
		s.Attitudes = append(s.Attitudes, attitudeRow{
			NoseUp: number(r.Attitude.NoseUp), LeftUp: number(r.Attitude.LeftUp),
			LightsAt: number(r.LightsAt), Unusable: number(r.Unusable), Usable: number(r.Usable()),
		})
	}
}

// takeRanges takes how far the fuel goes when the lamp lights: on level ground, at
// the worst and at the best of all slopes and senders.
func (s *lampSheet) takeRanges() {
	use, w := s.file.Use, s.warning
	worst, best := w.Latest.Litres-w.Unusable.Litres, math.Min(w.Earliest.Litres, s.rig.Tank.Full)-w.Least.Litres
	s.Range, s.RangeWorst, s.RangeBest = number(use.Range(float64(s.WarnUsable))), number(use.Range(worst)), number(use.Range(best))
	s.Hours, s.HoursWorst, s.HoursBest = number(use.Hours(float64(s.WarnUsable))), number(use.Hours(worst)), number(use.Hours(best))
}

// takeOut takes where the lamp goes out, and both ends as other boxes tell them.
func (s *lampSheet) takeOut(out reserve.Out) {
	s.Off, s.OffLitres, s.OffLimited = number(out.Off), number(s.promise.OutAt(out.Off)), out.Limited
	onSet, offSet := s.promise.Settings(float64(s.On), out.Off)
	s.OnSet, s.OffSet = number(onSet), number(offSet)
	s.WarnSet, s.OutSet = number(s.promise.LightsAt(onSet)), number(s.promise.OutAt(offSet))
	proof := float64(s.On)
	if !math.IsNaN(onSet) {
		proof = onSet
	}
	least, most := s.promise.LightsBetween(proof)
	s.ProofLeast, s.ProofMost = number(least), number(math.Min(most, s.rig.Tank.Full))
	s.OnSender, s.OffSender = number(s.rig.Wiring.Sender(float64(s.On))), number(s.rig.Wiring.Sender(float64(s.Off)))
	if d := s.rig.Conditioner.Divider(); d != nil && s.rig.Conditioner.Feed.Supply > 0 {
		volts := s.rig.Conditioner.Feed.Supply
		s.OnVolts, s.OffVolts = number(volts*d.X(float64(s.On))), number(volts*d.X(float64(s.Off)))
	}
	if s.plan == nil {
		return
	}
	first, last := s.plan.ends()
	for _, at := range []struct {
		input        number
		place, drive *number
	}{{s.On, &s.OnPlace, &s.OnDrive}, {s.Off, &s.OffPlace, &s.OffDrive}} {
		if input := float64(at.input); input > first && input < last {
			*at.place, *at.drive = number(s.plan.lines.Show(input)), number(s.plan.lines.Drive(input))
		}
	}
}

// ends returns the least and the greatest input of the points.
func (p *plan) ends() (least, most float64) {
	pairs := calibration.Pairs(p.points)
	return slices.MinFunc(pairs, gauge.ByInput).Input, slices.MaxFunc(pairs, gauge.ByInput).Input
}

// takeDelay takes how long the lamp waits, and what the engine takes meanwhile.
func (s *lampSheet) takeDelay() {
	wait, ok := s.promise.Wait(s.warning.Chosen)
	if !ok {
		return
	}
	s.Slosh = sloshFigures{Period: number(wait.Period), Length: number(wait.Length), Depth: number(wait.Depth), Round: wait.Round, Cycles: wait.Cycles}
	s.Delay = number(wait.Seconds)
	if use := s.file.Use; use.PerTime > 0 {
		s.DelayTakes = number(use.ForHours(wait.Seconds / 3600))
	}
}
