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
	if s.verdict() == wrong && !force {
		return s.log.refuse(0, "the log and the rig do not go together, and %s was not written, expected a log that fits (without --write the report tells more; --force writes it all the same)", path)
	}
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
