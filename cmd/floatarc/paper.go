package main

import (
	"github.com/spf13/cobra"

	"floatarc/plots/ink"
	"floatarc/tanks/quantity"
)

// A paperFlag is the paper asked for; none: what people use.
type paperFlag struct{ name string }

// register adds the flag to a command. What is printed on it goes before its words.
func (f *paperFlag) register(c *cobra.Command, of string) {
	c.Flags().StringVar(&f.name, "paper", "", of+"`PAPER` to print on: a4 or letter (letter with --units us unless given)")
}

// of returns the paper asked for, or the usual one where people read in a system of units.
func (f paperFlag) of(sys quantity.System) (ink.Paper, error) {
	if f.name == "" {
		if sys.Name == quantity.US.Name {
			return ink.Letter, nil
		}
		return ink.A4, nil
	}
	paper, err := ink.PaperNamed(f.name)
	if err != nil {
		return paper, misusef("--paper %v", err)
	}
	return paper, nil
}
