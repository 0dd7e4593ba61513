package plots

import (
	"gonum.org/v1/plot/vg"

	"floatarc/plots/ink"
)

// lines breaks a text at words so that each line fits a width.
func lines(p pen, s string, width vg.Length) []string { return ink.Lines(p.font, s, width) }

// cut shortens a text to a width.
func (p pen) cut(s string, width vg.Length) string { return ink.Shortened(p.font, s, width) }
