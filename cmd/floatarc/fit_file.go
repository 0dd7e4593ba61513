package main

import (
	"errors"
	"fmt"
	"math"

	"floatarc/calibration/fit"
	"floatarc/tanks"
)

// writeRig writes the rig's file with the fitted values and what remains uncertain of
// them, if it then loads; comments and order stay. What was left at its prior is left in
// the file, too.
func (s *fitSheet) writeRig(path string, force bool) error {
	var moved []tanks.Measure
	for i, m := range s.measures {
		p := s.outcome.Parameters[i]
		if p.Left != fit.NotLeft {
			continue
		}
		m.Value, m.Sigma = p.After, p.AfterSigma
		if m.Key == "wiring.ground" {
			m.Value = math.Max(0, m.Value) // a warning says so
		}
		moved = append(moved, m)
	}
	text, err := s.file.Rewritten(moved)
	if err != nil {
		return err
	}
	if err := tanks.Check(path, text); err != nil {
		var e *tanks.Error
		if errors.As(err, &e) {
			return fmt.Errorf("%w (nothing was written)", e)
		}
		return err
	}
	return writeFile(path, []byte(text), force)
}
