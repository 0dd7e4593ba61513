package main

import (
	"fmt"
	"math"

	"floatarc/tanks/quantity"
)

// A proof is what somebody saw the needle do at a row of the log.
type proof struct {
	seen, within float64 // positions
	right        float64 // where it must stand with what is in the tank
	box          float64 // where the box must put it with the reading
	corrected    float64 // where the corrected points would
	verdict      proofVerdict
}

// A proofVerdict is what the needle proves.
type proofVerdict string

// The verdicts.
const (
	proved   proofVerdict = "right"
	points   proofVerdict = "points" // the needle does what the box is told, which is wrong: move a pair
	bent     proofVerdict = "bent"   // the same, but the corrected points bend there, too: near a stop, or between two
	needle   proofVerdict = "gauge"  // it does not do what the box is told
	unproven proofVerdict = "close"  // wrong by no more than the eye and the litres tell
)

// needleSlack is what a calibrated gauge may be off by, as a share of a sweep of ninety
// degrees (SAE J1810: 1.5 degrees at a point, from memory).
const needleSlack = 1.5 / 90

// proveRows judges every row in which somebody looked at the needle.
func (s *fitSheet) proveRows() error {
	s.proofs = make([]*proof, len(s.outcome.Rows))
	lines, err := s.after.rig.Conditioner.Lines(s.stored)
	if err != nil {
		return err
	}
	for i, r := range s.outcome.Rows {
		row := s.log.file.Rows[i]
		if row.Needle == "" {
			continue
		}
		dial := s.after.rig.Dial
		seen, within, err := dial.Seen(row.Needle)
		if err != nil {
			return s.log.refuse(row.Line, "%w", err)
		}
		p := &proof{seen: seen, within: within, right: dial.Position(dial.Share(r.Litres)), box: math.NaN(), corrected: math.NaN()}
		if !math.IsNaN(r.Input) {
			p.box, p.corrected = lines.Show(r.Input), s.plan.lines.Show(r.Input)
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
	case !math.IsNaN(p.box) && math.Abs(p.seen-p.box) > slack:
		p.verdict = needle
	case math.Abs(p.corrected-p.right) > slack:
		p.verdict = bent
	default:
		p.verdict = points
	}
}

// off tells whether the needle was wrong.
func (p *proof) off() bool { return p.verdict != proved && p.verdict != unproven }

// proofWords tells the verdict on a row in a word or two.
func (s *fitSheet) proofWords(p *proof) string {
	if p == nil {
		return ""
	}
	off := quantity.Signed(100*(p.seen-p.right), 0) + " %"
	switch p.verdict {
	case proved:
		return "right"
	case unproven:
		return "close"
	case points:
		return off + ": move a pair"
	case bent:
		return off + ": lines bend"
	}
	return fmt.Sprintf("%s: not what the box gives, %.0f %%", off, 100*p.box)
}
