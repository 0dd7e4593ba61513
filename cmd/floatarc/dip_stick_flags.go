package main

import (
	"path/filepath"
	"strings"

	"github.com/spf13/cobra"
	"gonum.org/v1/gonum/spatial/r3"

	"floatarc/tanks/quantity"
)

// stickFlags are the flags of dip for a printed dipstick.
type stickFlags struct {
	on            bool
	path, foot    string
	paper         paperFlag
	forward, left angle
	force         bool
}

// stickOnly are the flags that go with --stick only, and notStick those that do not go
// with it.
var (
	stickOnly = []string{"output", "force", "foot", "lean-forward", "lean-left", "paper"}
	notStick  = []string{"grid", "at", "steps", "nose-ups", "left-ups"}
)

func (f *stickFlags) register(c *cobra.Command) {
	c.Flags().BoolVar(&f.on, "stick", false, "a dipstick to print at its true size, with the litres along it (needs -o)")
	c.Flags().StringVarP(&f.path, "output", "o", "", "write the dipstick to this `FILE.pdf`")
	c.Flags().BoolVar(&f.force, "force", false, "write over a file that exists")
	c.Flags().StringVar(&f.foot, "foot", "", "`PLACE` of the stick's foot in plan, \"300, 170\": forward and left in the tank frame (default: below the fill mouth of a rig that gives fill.at, else the middle of the tank)")
	c.Flags().Var(&f.forward, "lean-forward", "the stick's top leans forward, in the tank frame")
	c.Flags().Var(&f.left, "lean-left", "the stick's top leans left, in the tank frame")
	f.paper.register(c, "")
}

// check refuses flags that do not go together.
func (f *stickFlags) check(c *cobra.Command, o *options) error {
	flags, words := stickOnly, "goes with --stick only"
	if f.on {
		flags, words = notStick, "does not go with --stick"
	}
	for _, name := range flags {
		if c.Flags().Changed(name) {
			return misusef("--%s %s", name, words)
		}
	}
	switch {
	case !f.on:
		return nil
	case f.path == "" && !o.json && !o.csv:
		return misusef("--stick without -o, expected -o FILE.pdf to write the dipstick to (or --json or --csv for its graduations)")
	case f.path != "" && !strings.EqualFold(filepath.Ext(f.path), ".pdf"):
		return misusef("-o %s, expected a name that ends in .pdf", f.path)
	}
	_, err := f.paper.of(quantity.Metric)
	return err
}

// place returns the plan position of --foot.
func (f *stickFlags) place() (r3.Vec, error) {
	parts := strings.Split(f.foot, ",")
	if len(parts) != 2 {
		return r3.Vec{}, misusef("--foot %q, expected two lengths with a comma between, forward and left, such as \"300, 170\"", f.foot)
	}
	var xy [2]float64
	for i, part := range parts {
		q, err := quantity.Length.Parse(strings.TrimSpace(part))
		if err != nil {
			return r3.Vec{}, misusef("--foot %v", err)
		}
		xy[i] = q.Value
	}
	return r3.Vec{X: xy[0], Y: xy[1]}, nil
}
