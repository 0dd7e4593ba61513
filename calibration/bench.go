package calibration

import (
	"cmp"
	"math"
	"slices"

	"floatarc/float"
	"floatarc/gauge"
	"floatarc/volume"
)

// A Setting is a resistance to dial on a bench, and what must then be seen.
type Setting struct {
	Label    string
	Between  string  // label of the point after it, for one half way between two
	Input    float64 // at the terminals, ohm
	Sender   float64 // at the sender's end of the wiring, ohm
	Position float64 // where the needle must stand
	// Litres that stand for it: on the mean, and on rising and falling fuel.
	Litres, Rising, Falling float64
	Tolerance               float64 // ± of the position
	PerOhm                  float64 // change of the position per ohm, on the steeper side
	Blind                   bool
	End                     End // of what the conditioner is told of, if it is blind
}

// Midpoint tells whether the setting is an acceptance check between two points.
func (s Setting) Midpoint() bool { return s.Between != "" }

// Accuracy of a gauge: ±1.5 degrees of the needle at the points that it is
// calibrated at and ±3 between them (SAE J1810, its summary page), over the sweep
// of the dial.
const (
	degreesAtPoints = 1.5
	degreesBetween  = 3
)

// Bench returns the schedule for a decade box: every point, from the empty side
// up, and half way in resistance between neighbours an acceptance check. The litres
// are those of a relation; sweep is the dial's, in degrees.
func (r *Rig) Bench(rel *volume.Relation, points []Point, lines *gauge.Lines, sweep float64) []Setting {
	b := schedule{rig: r, rel: rel, rising: r.way(rel, float.Rising), falling: r.way(rel, float.Falling), lines: lines, sweep: sweep}
	sorted := slices.SortedStableFunc(slices.Values(points), func(a, b Point) int { return cmp.Compare(a.Travel, b.Travel) })
	var out []Setting
	for i, p := range sorted {
		s := b.at(p.InputOhms, degreesAtPoints)
		s.Label, s.Blind, s.End = p.Label, p.Blind, p.End
		if math.Abs(s.Position-p.Position) < 1e-9 { // else the needle cannot reach it
			s.Position = p.Position
		}
		if p.Blind {
			s.Litres, s.Rising, s.Falling = p.Litres, p.Litres, p.Litres
		}
		out = append(out, s)
		if i+1 < len(sorted) {
			next := sorted[i+1]
			m := b.at((p.InputOhms+next.InputOhms)/2, degreesBetween)
			m.Label, m.Between = p.Label, next.Label
			out = append(out, m)
		}
	}
	return out
}

// A schedule holds what every setting is told from.
type schedule struct {
	rig                  *Rig
	rel, rising, falling *volume.Relation
	lines                *gauge.Lines
	sweep                float64
}

func (b schedule) at(input, degrees float64) Setting {
	const probe = 0.05 // ohm
	shown := b.lines.Show(input)
	perOhm := (b.lines.Show(input+probe) - shown) / probe
	if below := (shown - b.lines.Show(input-probe)) / probe; math.Abs(below) > math.Abs(perOhm) {
		perOhm = below // at an end point the needle is held to the other side
	}
	return Setting{
		Input: input, Sender: b.rig.Wiring.Sender(input), Position: shown,
		Litres: b.rig.LitresNear(b.rel, input), Rising: b.rig.LitresNear(b.rising, input), Falling: b.rig.LitresNear(b.falling, input),
		Tolerance: degrees / b.sweep,
		PerOhm:    perOhm,
	}
}
