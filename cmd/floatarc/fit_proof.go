package main

import (
	"fmt"
	"math"

	"floatarc/gauge"
)

// A proof is what somebody saw the needle do at a row of the log.
type proof struct {
	seen, within float64 // positions
	right        float64 // where it must stand with what is in the tank
	box          float64 // where the box must put it with the reading
	verdict      proofVerdict
}

// A proofVerdict is what the needle proves.
type proofVerdict string

// The verdicts.
const (
	proved   proofVerdict = "right"
	points   proofVerdict = "points" // the needle does what the box is told, which is wrong: move a pair
	needle   proofVerdict = "gauge"  // it does not do what the box is told
	unproven proofVerdict = "close"  // wrong by no more than the eye and the litres tell
)

// needleSlack is what a calibrated gauge may be off by, as a share of a sweep of ninety
// degrees (SAE J1810: 1.5 degrees at a point, from memory).
const needleSlack = 1.5 / 90

// proveRows judges every row in which somebody looked at the needle.
func (s *fitSheet) proveRows() error {
	s.proofs = make([]*proof, len(s.outcome.Rows))
	var lines *gauge.Lines
	if s.stored != nil {
		var err error
		if lines, err = s.after.rig.Conditioner.Lines(s.stored); err != nil {
			return err
		}
	}
	for i, r := range s.outcome.Rows {
		row := s.log.file.Rows[i]
		if row.Needle == "" {
			continue
		}
		dial := s.after.rig.Dial
		seen, within, err := dial.Seen(row.Needle)
		if err != nil {
			return s.log.refuse(row.Line, "needle: %w", err)
		}
		p := &proof{seen: seen, within: within, right: dial.Position(dial.Share(r.Litres)), box: math.NaN()}
		if lines != nil && !math.IsNaN(r.Input) {
			p.box = lines.Show(r.Input)
		}
		p.judge()
		s.proofs[i] = p
	}
	return nil
}

// judge says what is wrong, if anything is.
func (p *proof) judge() {
	slack := p.within + needleSlack
	off := math.Abs(p.seen - p.right)
	switch {
	case off <= slack/2:
		p.verdict = proved
	case off <= slack:
		p.verdict = unproven
	case math.IsNaN(p.box) || math.Abs(p.seen-p.box) <= slack:
		p.verdict = points
	default:
		p.verdict = needle
	}
}

// proofWords tells the verdict on a row.
func (s *fitSheet) proofWords(p *proof) string {
	if p == nil {
		return ""
	}
	off := fmt.Sprintf("%+.0f %%", 100*(p.seen-p.right))
	switch p.verdict {
	case proved:
		return "right"
	case unproven:
		return "right as far as an eye tells"
	case points:
		return off + ": move a pair"
	}
	return fmt.Sprintf("%s: the box puts it %s", off, onPlace(s.after.place(p.box)))
}
