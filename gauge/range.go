package gauge

import (
	"fmt"
	"math"
)

// A Range is the resistances of a gauge that a sender is wired straight to.
type Range struct {
	Name        string
	Empty, Full float64 // ohm on the empty and on the full mark
	Needle      Indicator
	Linear      bool // the needle is taken as linear in the ohms
}

// common resistances on the empty and on the full mark, ohm (common practice, no source).
var common = [][2]float64{{240, 33}, {10, 180}, {0, 90}, {0, 30}, {73, 10}}

// CommonRanges returns the common ranges, and each of them the other way round.
func CommonRanges() []Range {
	var out []Range
	for _, ends := range common {
		for _, r := range [][2]float64{ends, {ends[1], ends[0]}} {
			made, err := LinearRange(fmt.Sprintf("%g–%g ohm", r[0], r[1]), r[0], r[1])
			if err == nil {
				out = append(out, made)
			}
		}
	}
	return out
}

// LinearRange returns a range with a needle that is linear in the ohms, from the empty to
// the full mark. It refuses two equal ends.
func LinearRange(name string, empty, full float64) (Range, error) {
	lines, err := NewLines(Resistance{}, []Pair{{empty, 0}, {full, 1}})
	return Range{Name: name, Empty: empty, Full: full, Needle: lines, Linear: true}, err
}

// ResponseRange returns the range of a gauge of which the needle's line is known, with its
// first and last pair.
func ResponseRange(name string, needle Indicator, first, last Pair) Range {
	if first.Position > last.Position {
		first, last = last, first
	}
	return Range{Name: name, Empty: first.Input, Full: last.Input, Needle: needle}
}

// An Obstacle is why no parts let a gauge show both its ends with a sender.
type Obstacle string

// The obstacles.
const (
	NoObstacle Obstacle = ""
	Reversed   Obstacle = "reversed" // the sender's ohms go the other way
	NoSpan     Obstacle = "span"     // the sender's ohms change by too little
	NoRatio    Obstacle = "ratio"    // its least ohms are too many beside its most
)

// slight is the share of a gauge's span, in ohms or in siemens, that may lack before it
// is an obstacle: half of it is left at either end (common practice, no source).
const slight = 0.05

// Obstacle tells why no network lets the gauge show both its ends with a wire that shows
// so many ohms on empty and on full. A series part leaves the span in ohms as it is and
// takes from the span in siemens; a parallel part leaves the span in siemens and takes
// from that in ohms. Where the sender has both spans, (R + Series) ∥ Parallel has a
// solution for both ends, or (R ∥ Parallel) + Series.
func (r Range) Obstacle(empty, full float64) Obstacle {
	if (full > empty) != (r.Full > r.Empty) || full == empty {
		return Reversed
	}
	least, most := math.Min(empty, full), math.Max(empty, full)
	low, high := math.Min(r.Empty, r.Full), math.Max(r.Empty, r.Full)
	switch wanted := 1/low - 1/high; {
	case high-low > (most-least)*(1+slight):
		return NoSpan
	case least-low <= slight*(high-low): // near enough as it is
	case low == 0 || wanted > (1/least-1/most)*(1+slight):
		return NoRatio
	}
	return NoObstacle
}

// Left returns the most ohms that parts leave of a wire's most when they bring its least
// down to so many, above 0: a parallel part alone, which takes the same siemens from both.
func Left(least, most, low float64) float64 { return 1 / (1/low - 1/least + 1/most) }
