package main

import (
	"cmp"
	"math"
	"slices"

	"github.com/spf13/cobra"

	"floatarc/calibration"
	"floatarc/gauge"
	"floatarc/volume"
)

// ownGauge names the gauge of the file in JSON.
const ownGauge = "gauge.response"

func newMatch(o *options) *cobra.Command {
	var att attitude
	var measured readings
	var parts benchFlags
	c := &cobra.Command{
		Use:   "match [FILE]",
		Short: "The sender wired straight to other gauges, or through a resistor or two",
		Long: `match wires the sender of the rig, in its tank, straight to gauges of the common
resistance ranges, to those of [[gauge.range]] and to its own, and prints how far
each needle then lies: straight, and behind the best single resistor in series,
the best in parallel, and the best of both. Some need no conditioner. With an
attitude the parts stay those of level ground; the error is that of the attitude.`,
		Args: oneAtMost,
		RunE: func(c *cobra.Command, args []string) error {
			stock, series, err := parts.chosen(c)
			if err != nil {
				return err
			}
			j, rel, p, err := o.loadPlan(named(args), att, planFlags{method: atMarks, measured: measured})
			if err != nil {
				return err
			}
			s := j.matchSheet(rel, p, stock, series)
			answer := s.answer()
			return o.print(c.OutOrStdout(), answer, answer.csvRows(), s.write)
		},
	}
	parts.registerStock(c)
	registerMeasured(c, &measured)
	att.register(c)
	return c
}

// A matchSheet is everything that match tells.
type matchSheet struct {
	*job
	rel         *volume.Relation
	plan        *plan
	series      gauge.Series
	gauges      []matched // the best first; those that run backwards last
	matching    *calibration.Matching
	marks, free *calibration.Worst // with a conditioner; nil if nothing can be stored
	warnings    []warning
	backwards   []warning // of the rig's own gauge

	least, most float64 // ohm at the terminals between the marks on level ground
}

// A matched is one gauge wired to the sender.
type matched struct {
	gauge.Range
	own      bool // the rig's own
	obstacle gauge.Obstacle
	choice   calibration.Choice
	best     *calibration.Match // nil where the sense is reversed
	reason   string
}

// level is the worst error that can be had on level ground, by which gauges are sorted.
func (m matched) level() float64 {
	if m.best == nil {
		return m.choice.Straight.Level
	}
	return m.best.Level
}

func (m matched) reversed() bool { return m.obstacle == gauge.Reversed }

// matchSheet wires the sender to every gauge.
func (j *job) matchSheet(rel *volume.Relation, p *plan, stock []float64, series gauge.Series) *matchSheet {
	s := &matchSheet{job: j, rel: rel, plan: p, series: series}
	empty, full := j.rig.Input(j.rig.Level, j.rig.Dial.Empty), j.rig.Input(j.rig.Level, j.rig.Dial.Full)
	s.least, s.most = math.Min(empty, full), math.Max(empty, full)
	s.matching = j.rig.Matching(rel)
	for _, r := range j.ranges() {
		s.gauges = append(s.gauges, s.matched(r, stock, empty, full))
	}
	slices.SortStableFunc(s.gauges, func(a, b matched) int {
		if a.reversed() != b.reversed() {
			return cmp.Compare(order(a.reversed()), order(b.reversed()))
		}
		return cmp.Compare(a.level(), b.level())
	})
	s.marks = s.conditioned(p)
	if best, err := j.plan(planFlags{method: free, neverOver: quarter}); err == nil {
		s.free = s.conditioned(best)
	}
	s.warnings = s.matchWarnings()
	return s
}

// order puts what is true behind what is not.
func order(last bool) int {
	if last {
		return 1
	}
	return 0
}

// ranges returns the gauges to be wired: the rig's own, those of the file, the common ones.
func (j *job) ranges() []gauge.Range {
	var out []gauge.Range
	if own := j.file.Gauge.Response; own != nil {
		out = append(out, gauge.ResponseRange(ownGauge, own, j.file.Gauge.Ends[0], j.file.Gauge.Ends[1]))
	}
	return slices.Concat(out, j.file.Gauge.Ranges, gauge.CommonRanges())
}

// conditioned returns how far the needle lies with points of a conditioner.
func (s *matchSheet) conditioned(p *plan) *calibration.Worst {
	worst := s.rig.Curve(s.rel, p.lines).Worst(p.lines)
	return &worst
}

func (s *matchSheet) matched(r gauge.Range, stock []float64, empty, full float64) matched {
	m := matched{Range: r, own: r.Name == ownGauge, obstacle: r.Obstacle(empty, full)}
	if m.reversed() {
		m.choice.Straight = s.matching.Judge(r.Needle, gauge.Network{})
	} else {
		m.choice = s.matching.Choose(r.Needle, stock, s.series.Name != drawer)
		best := m.choice.Best()
		m.best = &best
	}
	m.reason = s.reason(m, empty, full)
	return m
}

// trifle is by how much, in percent of the dial, one part more must lessen the worst error
// before it is advised.
const trifle = 0.1

// advised returns the match of the fewest parts that is as good as the best one.
func (m matched) advised() calibration.Match {
	for _, fewer := range []*calibration.Match{&m.choice.Straight, m.choice.Series, m.choice.Parallel} {
		if fewer != nil && fewer.Level <= m.best.Level+trifle {
			return *fewer
		}
	}
	return *m.best
}

// spread returns the worst error with parts anywhere in their tolerance.
func (s *matchSheet) spread(m matched, parts calibration.Match) float64 {
	return s.matching.Spread(m.Needle, parts.Network, s.series.Tolerance)
}

// matchWarnings tell what no gauge mends, and of the rig's own gauge and wiring.
func (s *matchSheet) matchWarnings() []warning {
	out := []warning{}
	told := s.rig.Told(s.rig.Level)
	for _, q := range s.plan.points {
		if q.Blind {
			out = append(out, s.blindWarning(q, told))
		}
	}
	for _, m := range s.gauges {
		if m.own && m.reversed() {
			s.backwards = s.gaugeWarnings()
		}
	}
	return append(out, s.installedWarnings()...)
}
