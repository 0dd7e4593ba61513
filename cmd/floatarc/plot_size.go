package main

import (
	"fmt"
	"os"
	"slices"

	"github.com/spf13/cobra"

	"floatarc/tanks/quantity"
)

// sizeFlags ask for pictures at their true size.
type sizeFlags struct {
	scale, diameter, sweep string
	paper                  paperFlag
}

// trueSize is the only scale there is to ask for.
const trueSize = "1:1"

// usualDiameter is that of a gauge's face where nobody says, mm (common practice, no source).
const usualDiameter = "52"

func (f *sizeFlags) register(c *cobra.Command) {
	flags := c.Flags()
	flags.StringVar(&f.scale, "scale", "", "with dial: `SCALE` 1:1, a face at its true size to lay over the gauge")
	flags.StringVar(&f.diameter, "diameter", usualDiameter, "with --scale: how wide the gauge's face is, a `LENGTH`")
	flags.StringVar(&f.sweep, "sweep", "", "with --scale: `DEGREES` from the first mark to the last (gauge.sweep, or 90, unless given)")
	f.paper.register(c, "of what is true to size: ")
}

// lengthUnits are those that may stand behind a --diameter without its quotes.
var lengthUnits = []string{"mm", "cm", "in"}

// withoutUnit leaves out a unit that a shell took from its number: --diameter 52 mm.
func withoutUnit(args []string) []string {
	if len(args) > 0 && slices.Contains(lengthUnits, args[0]) {
		if _, err := os.Lstat(args[0]); err != nil {
			return args[1:]
		}
	}
	return args
}

// check refuses flags that do not go together, and gives a diameter its unit back.
func (f *sizeFlags) check(c *cobra.Command, args []string) ([]string, error) {
	rest := withoutUnit(args[1:])
	if len(rest) < len(args)-1 {
		if !c.Flags().Changed("diameter") {
			return nil, misusef("plot: %q is left over, expected a FILE", args[1])
		}
		f.diameter += " " + args[1]
	}
	switch {
	case f.scale != "" && f.scale != trueSize:
		return nil, misusef("--scale %s, expected %s: what is cut out must be true to size", f.scale, trueSize)
	case f.scale != "" && args[0] != "dial":
		return nil, misusef("plot %s --scale %s, expected it with dial (card and dip --stick are always true to size)", args[0], f.scale)
	}
	for _, name := range []string{"diameter", "sweep"} {
		if c.Flags().Changed(name) && f.scale == "" {
			return nil, misusef("plot: --%s, expected it with dial --scale %s", name, trueSize)
		}
	}
	if _, err := f.paper.of(quantity.Metric); err != nil {
		return nil, err
	}
	return append([]string{args[0]}, rest...), nil
}

// face returns the diameter, mm, and the sweep of a dial, degrees.
func (f *sizeFlags) face(usualSweep float64) (diameter, sweep float64, err error) {
	d, err := quantity.Length.Parse(f.diameter)
	if err == nil && !(d.Value > 0) {
		err = fmt.Errorf("%q, expected more than 0", f.diameter)
	}
	if err != nil {
		return 0, 0, misusef("--diameter: %v", err)
	}
	if f.sweep == "" {
		return d.Value, usualSweep, nil
	}
	s, err := quantity.Angle.Parse(f.sweep)
	if err == nil && !(s.Value > 0 && s.Value <= 360) {
		err = fmt.Errorf("%q, expected more than 0 and up to 360 degrees", f.sweep)
	}
	if err != nil {
		return 0, 0, misusef("--sweep: %v", err)
	}
	return d.Value, s.Value, nil
}
