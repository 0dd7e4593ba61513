package main

import (
	"errors"
	"fmt"
	"os"
	"slices"
	"strings"

	"github.com/agnivade/levenshtein"
	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"floatarc/calibration"
	"floatarc/geometry"
	"floatarc/tanks"
	"floatarc/tanks/quantity"
	"floatarc/volume"
)

// options are the flags that every command takes.
type options struct {
	json, csv bool
	units     string
	set       []string
}

func newRoot() *cobra.Command {
	o := &options{}
	root := &cobra.Command{
		Use:   "floatarc",
		Short: "Make a fuel gauge tell the truth about its tank",
		Long: `floatarc computes, from the geometry of a fuel tank and the arm of its sender,
which resistance means which quantity, and the calibration points to store so
that the needle lies least.

FILE is a rig file, or the name of a built-in rig; left out, the built-in demo.
` + builtIn(),
		Args:          cobra.ArbitraryArgs,
		RunE:          unknownCommand,
		SilenceErrors: true,
		SilenceUsage:  true,
	}
	flags := root.PersistentFlags()
	flags.BoolVar(&o.json, "json", false, "print JSON: mm, L, degrees, ohms, whatever --units says")
	flags.BoolVar(&o.csv, "csv", false, "print CSV, in the same units as JSON")
	flags.StringVar(&o.units, "units", "metric", "the `SYSTEM` of units that people read: metric, us or imperial")
	flags.StringArrayVar(&o.set, "set", nil, "override one key of the file for this run, `KEY=VALUE`: sender.arm=230, tank.body[0].length=640")
	root.AddCommand(
		newWhy(o), newCheck(o), newDip(o), newCurve(o), newPoints(o), newError(o), newBench(o), newMatch(o), newAt(o), newReserve(o), newSweep(o), newFit(o), newPlot(o), newSheet(o), newNew(o), newVersion(o),
	)
	root.SetFlagErrorFunc(nearestFlag)
	// Everything that a command itself returns is about its input, unless it
	// says otherwise; everything that cobra returns is about its usage.
	for _, c := range root.Commands() {
		if inner := c.RunE; inner != nil {
			if strings.Contains(c.Use, "[FILE]") {
				c.ValidArgsFunction = completeFile
			}
			c.RunE = func(c *cobra.Command, args []string) error {
				err := o.check()
				if err == nil {
					err = inner(c, args)
				}
				return classify(err)
			}
		}
	}
	return root
}

// unknownCommand answers a first word that is no command; without any word it
// helps.
func unknownCommand(c *cobra.Command, args []string) error {
	if len(args) == 0 {
		return c.Help()
	}
	c.SuggestionsMinimumDistance = 2
	if near := c.SuggestionsFor(args[0]); len(near) > 0 {
		return misusef("%s: not a command, expected perhaps %q", args[0], near[0])
	}
	return misusef("%s: not a command, expected one that floatarc --help lists", args[0])
}

// nearestFlag adds the nearest known flag to the error about an unknown one.
func nearestFlag(c *cobra.Command, err error) error {
	name, unknown := strings.CutPrefix(err.Error(), "unknown flag: --")
	if strings.HasPrefix(err.Error(), "unknown shorthand flag") {
		return fmt.Errorf("%w, expected a flag; a value that begins with a minus stands behind -- at the end: floatarc %s … -- -20:40:20", err, c.Name())
	}
	if !unknown {
		return err
	}
	nearest, least := "", len(name)
	c.Flags().VisitAll(func(f *pflag.Flag) {
		if d := levenshtein.ComputeDistance(name, f.Name); d < least {
			nearest, least = f.Name, d
		}
	})
	if nearest == "" || least > 3 {
		return fmt.Errorf("%w, expected one that floatarc %s --help lists", err, c.Name())
	}
	return fmt.Errorf("%w, expected perhaps --%s", err, nearest)
}

// oneAtMost refuses words that are left over, most often those of a value with
// spaces that stands without its quotes.
func oneAtMost(c *cobra.Command, args []string) error {
	if len(args) > 1 {
		return misusef("%s: %q is left over, expected one FILE at most; a value with a space stands in quotes, such as --nose-up \"4 deg\"", c.Name(), args[1])
	}
	return nil
}

// completeFile offers the built-in names besides files.
func completeFile(_ *cobra.Command, args []string, _ string) ([]string, cobra.ShellCompDirective) {
	if len(args) > 0 {
		return nil, cobra.ShellCompDirectiveNoFileComp
	}
	rigs, bare := tanks.Names()
	return slices.Concat(rigs, bare), cobra.ShellCompDirectiveDefault
}

// A misuse is an error of the usage found by a command itself.
type misuse struct{ error }

func (m *misuse) Unwrap() error { return m.error }

func misusef(format string, args ...any) error { return &misuse{fmt.Errorf(format, args...)} }

func classify(err error) error {
	var m *misuse
	if err == nil || errors.As(err, &m) {
		return err
	}
	return &refusal{err}
}

func (o *options) check() error {
	if o.json && o.csv {
		return misusef("--json and --csv, expected one of them")
	}
	if _, err := quantity.Named(o.units); err != nil {
		return misusef("--%v", err)
	}
	return nil
}

// system returns the units in which people read; programs read JSON and CSV in
// metric ones whatever the flag says.
func (o *options) system() quantity.System {
	if o.json || o.csv {
		return quantity.Metric
	}
	sys, _ := quantity.Named(o.units) // checked before any command runs
	return sys
}

func builtIn() string {
	rigs, bare := tanks.Names()
	return "Built-in rigs: " + strings.Join(rigs, ", ") + ".\nBuilt-in tanks (for dip, and for [tank] file): " + strings.Join(bare, ", ") + "."
}

// named returns the file of an optional argument.
func named(args []string) string {
	if len(args) == 0 {
		return tanks.Demo
	}
	return args[0]
}

// A job is a rig as its file tells it, and as the commands compute with it.
type job struct {
	file *tanks.Rig
	rig  *calibration.Rig
	sys  quantity.System

	// throughSender says that in this run the wiring was measured with the sender at a place
	// of its own, so that its tolerance is in the readings.
	throughSender bool
}

// load reads the rig of a command.
func (o *options) load(file string) (*job, error) {
	f, err := tanks.Load(file, o.set)
	if err != nil {
		return nil, err
	}
	return jobOf(f, o.system()), nil
}

// jobOf returns a rig as its file tells it, ready to compute with.
func jobOf(f *tanks.Rig, sys quantity.System) *job {
	low, high := f.Sender.Free()
	return &job{file: f, sys: sys, rig: &calibration.Rig{
		Tank: f.Tank.Tank, Sender: f.Sender.Sender(), Low: low, High: high, Level: f.Level,
		Wiring: f.Wiring, Dial: f.Gauge.Dial, Conditioner: f.Conditioner,
	}}
}

// loadAt reads the rig of a command, and puts its sender into the tank at an
// attitude.
func (o *options) loadAt(file string, att attitude) (*job, *volume.Relation, error) {
	j, err := o.load(file)
	if err != nil {
		return nil, nil, err
	}
	rel, err := j.at(att)
	return j, rel, err
}

// at puts the sender into the tank at an attitude.
func (j *job) at(att attitude) (*volume.Relation, error) { return j.rig.At(geometry.Attitude(att)) }

// attitude holds the flags --nose-up and --left-up.
type attitude geometry.Attitude

func (a *attitude) register(c *cobra.Command) {
	c.Flags().Var((*angle)(&a.NoseUp), "nose-up", `front higher than rear: degrees, or a grade such as "12 %"`)
	c.Flags().Var((*angle)(&a.LeftUp), "left-up", "left side higher than right, the same way")
}

// angle is a flag that takes an angle as people write it.
type angle float64

func (a *angle) Set(text string) error {
	q, err := quantity.Angle.Parse(text)
	if err == nil && (q.Value <= -90 || q.Value >= 90) {
		err = fmt.Errorf("%g°, expected less than a right angle", q.Value)
	}
	*a = angle(q.Value)
	return err
}

func (a *angle) String() string { return fmt.Sprintf("%g", float64(*a)) }
func (a *angle) Type() string   { return "ANGLE" }

// warn writes a line for the user that is not part of the answer.
func warn(format string, args ...any) { fmt.Fprintf(os.Stderr, "floatarc: "+format+"\n", args...) }
