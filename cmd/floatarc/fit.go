package main

import (
	"io"
	"math"
	"strings"

	"github.com/spf13/cobra"

	"floatarc/calibration"
	"floatarc/calibration/fit"
	"floatarc/gauge"
	"floatarc/tanks"
)

// fitFlags are the flags of fit.
type fitFlags struct {
	log    logFlags
	plan   planFlags
	can    string // of --plan
	poured string
	write  string
	force  bool
}

func newFit(o *options) *cobra.Command {
	var f fitFlags
	c := &cobra.Command{
		Use:   "fit [FILE] [LOG]",
		Short: "A fill log against the rig: what the measures must be, and how sure we are",
		Long: `fit takes a fill log, known amounts that were poured into the tank or drained from
it and what the meter showed after each, and finds the measures of the rig that the
log makes the likeliest: arm, pivot, stops, ohms at the stops, joints, the tank as a
whole. Each starts from its measured value with its stated uncertainty ("210 ± 3
mm") or that of usual care. It prints what remains uncertain, what the log cannot
tell, which rows do not fit, and the corrected points.

The log is CSV with a heading: litres_added (and litres_removed), or litres_total,
and ohms at the conditioner's terminals (or volts, counts); optional needle, nose_up,
left_up, temperature, note. us_gal_added, kg_added and the like work, too. Notes
mark rows: spilled, doubtful, tapped.

Without any file it fits the built-in demo log to the demo rig. fit --plan "10 L" prints the log to fill in, with what the meter must show after
each can. fit --poured "57 L" LOG turns a log alone into a rig.`,
		Args: func(_ *cobra.Command, args []string) error {
			if len(args) > 2 {
				return misusef("fit: %q is left over, expected a FILE and a LOG at most; a value with a space stands in quotes, such as --plan \"10 L\"", args[2])
			}
			return nil
		},
		RunE: func(c *cobra.Command, args []string) error { return o.fit(c, args, f) },
	}
	flags := c.Flags()
	flags.StringVar(&f.can, "plan", "", "print the log to fill in, for cans of so much (`VOLUME`, \"10 L\")")
	flags.StringVar(&f.poured, "poured", "", "nothing was measured but a tank of such a capacity (`VOLUME`): the log alone becomes the rig")
	flags.StringVar(&f.write, "write", "", "write the rig with the fitted values to this new `FILE`, comments and order kept")
	flags.BoolVar(&f.force, "force", false, "with --write: over a file that exists")
	flags.StringVar(&f.log.start, "start", "", "what was in the tank before the first row: drained, unusable (a pump left it), `LITRES` (\"5 L ± 0.5 L\"), or unknown, which the log then tells (the usual; totals tell it themselves)")
	flags.StringVar(&f.log.can, "can", "", "the can and how well its size is known, which all pours share (`VOLUME ± VOLUME`, \"20 L ± 0.2 L\"); exact unless given")
	flags.StringVar(&f.log.pour, "pour", "", "standard uncertainty of reading one pour (`VOLUME`); 0.02 L and 0.5 % unless given")
	flags.StringVar(&f.log.meter, "meter", "", "standard uncertainty of one reading of the meter (`OHMS`); 0.3 ohm and 0.2 % unless given")
	flags.StringVar(&f.log.fluid, "fluid", "fuel", "what was poured: fuel, or `water`, in which the float lies higher; the fit is carried over to the fuel")
	f.plan.registerMethod(c)
	return c
}

func (o *options) fit(c *cobra.Command, args []string, f fitFlags) error {
	switch {
	case f.can != "" && f.poured != "":
		return misusef("fit: --plan and --poured, expected one of them")
	case f.can != "":
		return o.fitPlan(c, args, f)
	case f.poured != "":
		return o.fitPoured(c, args, f)
	}
	if err := inOrder(args); err != nil {
		return err
	}
	rig, log := tanks.Demo, tanks.DemoLog
	switch len(args) {
	case 0:
		if f.log.start == "" {
			f.log.start = drained // as its note says
		}
	case 1:
		log = args[0]
		warn("no FILE before the log: fitted to the built-in demo rig")
	default:
		rig, log = args[0], args[1]
	}
	if f.write != "" && len(o.set) > 0 {
		return misusef("fit: --write with --set, expected one of them: what is set for one run does not stand in the file")
	}
	j, err := o.load(rig)
	if err != nil {
		return err
	}
	s, err := j.fitSheet(log, f)
	if err != nil {
		return err
	}
	if f.write != "" {
		if err := s.writeRig(f.write, f.force); err != nil {
			return err
		}
	}
	answer := s.answer()
	if err := o.print(c.OutOrStdout(), answer, answer.Rows, func(w io.Writer) { s.write(w, answer) }); err != nil {
		return err
	}
	if f.write != "" {
		warn("wrote %s; look at it with: floatarc check %s", f.write, f.write)
	}
	return nil
}

// inOrder refuses a rig where a log is expected, and the other way round.
func inOrder(args []string) error {
	isRig := func(name string) bool { return strings.HasSuffix(name, ".toml") }
	switch {
	case len(args) == 1 && isRig(args[0]):
		return misusef("fit %s: no log, expected fit FILE LOG, a CSV; fit --plan \"10 L\" FILE prints one to fill in", args[0])
	case len(args) == 2 && isRig(args[1]) && !isRig(args[0]):
		return misusef("fit %s %s: the other way round, expected fit FILE LOG, the rig first", args[0], args[1])
	}
	return nil
}

// A fitSheet is everything that fit tells.
type fitSheet struct {
	*job     // as measured
	log      *loadedLog
	measures []tanks.Measure
	outcome  *fit.Outcome
	after    *job // as fitted

	before, plan *plan
	stored       []gauge.Pair // in the box while the log was taken
	storedKnown  bool         // the file tells them
	moves        []storedRow
	proofs       []*proof
	worst        float64   // standard uncertainty of the litres behind a reading, at worst
	next         *fit.Next // nil if no further reading tells anything
	warnings     []warning
}

func (j *job) fitSheet(path string, f fitFlags) (*fitSheet, error) {
	s := &fitSheet{job: j, measures: j.file.Doubts()}
	var err error
	if s.log, err = j.loadLog(path, f.log); err != nil {
		return nil, err
	}
	if s.outcome, err = fit.Run(j.family(s.measures), s.log.fit); err != nil {
		return nil, s.log.refuse(0, "%w", err)
	}
	if err := s.holds(); err != nil {
		return nil, err
	}
	if s.after, err = j.varied(s.measures, s.outcome.Values); err != nil {
		return nil, err
	}
	if err := s.takePoints(f); err != nil {
		return nil, err
	}
	if err := s.proveRows(); err != nil {
		return nil, err
	}
	return s, s.takeNext(f.log)
}

// takePoints plans the points before and after, and looks at those of the box.
func (s *fitSheet) takePoints(f fitFlags) error {
	var err error
	if s.before, err = s.job.plan(f.plan); err != nil {
		return err
	}
	if s.plan, err = s.after.plan(f.plan); err != nil {
		return err
	}
	s.stored, s.storedKnown = s.rig.Conditioner.Stored, s.rig.Conditioner.Stored != nil
	if !s.storedKnown {
		s.stored = calibration.Pairs(s.before.points)
	}
	s.after.rig.Conditioner.Stored = s.stored
	v, err := s.after.survey(s.after.rig.Level, s.plan, float64(f.plan.neverOver))
	if err != nil {
		return err
	}
	s.moves = v.storedRows()
	s.warnings = s.fitWarnings()
	return nil
}

// takeNext looks for the one further fill point that tells the most.
func (s *fitSheet) takeNext(f logFlags) error {
	p, err := s.outcome.Prospect()
	if err != nil {
		return err
	}
	pour, meter, err := f.sigmas()
	if err != nil {
		return err
	}
	s.worst = p.Worst()
	last := s.outcome.Rows[len(s.outcome.Rows)-1].Litres
	sigma := math.Hypot(meter(s.rig.InputAt(s.rig.High)), s.turn(s.rig.InputAt(s.rig.High)))
	if next, ok := p.Next(sigma, func(litres float64) float64 { return pour(litres - last) }); ok {
		s.next = &next
	}
	return nil
}
