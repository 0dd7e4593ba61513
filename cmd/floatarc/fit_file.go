package main

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"gonum.org/v1/gonum/mat"

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
	var which []int
	for i, m := range s.measures {
		p := s.outcome.Parameters[i]
		if p.Left != fit.NotLeft {
			continue
		}
		which = append(which, i)
		m.Value, m.Sigma = p.After, p.AfterSigma
		moved = append(moved, m)
	}
	moved = s.aboveZero(moved)
	text, err := s.file.Rewritten(moved, s.together(which))
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

// aboveZero returns measures of the same rig without joints below 0, which no file may
// have: the ohms at both stops take them, if the file tells these.
func (s *fitSheet) aboveZero(moved []tanks.Measure) []tanks.Measure {
	of := func(key string) int {
		return slices.IndexFunc(moved, func(m tanks.Measure) bool { return m.Key == key })
	}
	ground := of("wiring.ground")
	if ground < 0 || moved[ground].Value >= 0 {
		return moved
	}
	below := moved[ground].Value
	moved[ground].Value = 0
	for _, key := range []string{"sender.resistance.low", "sender.resistance.high"} {
		m, told := s.file.Measure(key)
		if !told {
			continue
		}
		if i := of(key); i >= 0 {
			moved[i].Value = math.Max(0, moved[i].Value+below)
			continue
		}
		m.Value = math.Max(0, m.Value+below)
		moved = append(moved, m)
	}
	return moved
}

// together returns how fitted measures hang together, for the file.
func (s *fitSheet) together(which []int) tanks.Fitted {
	var f tanks.Fitted
	if len(which) == 0 {
		return f
	}
	f.Correlation = mat.NewSymDense(len(which), nil)
	for i, a := range which {
		f.Keys = append(f.Keys, s.measures[a].Key)
		for k, b := range which[:i+1] {
			f.Correlation.SetSym(i, k, s.outcome.Correlation.At(a, b))
		}
	}
	return f
}
