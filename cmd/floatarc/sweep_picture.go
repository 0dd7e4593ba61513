package main

import (
	"bytes"
	"fmt"

	"floatarc/plots"
	"floatarc/plots/ink"
)

// swept is the sweep as a picture shows it.
func (s *sweep) swept() plots.Swept {
	out := plots.Swept{
		Name: s.sample.file.Name, Key: s.figure.Key, Unit: s.read.symbol, Count: s.read.whole, Now: s.read.of(s.figure.Value), Units: s.sample.sys,
		Away: s.blind(),
	}
	for _, w := range s.rows {
		if !isKnown(w.bare) {
			continue // the rig as it is, which has no place on the axis
		}
		out.Rows = append(out.Rows, plots.Varied{
			Value: w.read, Marks: float64(w.MarksAway), Best: float64(w.BestAway),
			Low: float64(w.LiveLow), High: float64(w.LiveHigh), Lamp: float64(w.Warn),
		})
	}
	return out
}

// draw writes the picture.
func (s *sweep) draw(f sweepFlags) error {
	format, err := ink.FormatOf(f.output)
	if err != nil {
		return misusef("-o %s: %v", f.output, err)
	}
	drawn := plots.Sweep(s.swept())
	var buf bytes.Buffer
	w, h := drawn.Size()
	if err := format.Write(&buf, drawn.Title(), w, h, drawn.Paint); err != nil {
		return fmt.Errorf("%s: %w", f.output, err)
	}
	s.picture = f.output
	return writeFile(f.output, buf.Bytes(), f.force)
}
