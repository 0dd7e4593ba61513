package calibration

import (
	"floatarc/float"
	"floatarc/gauge"
	"floatarc/volume"
)

// NearEmpty is the share of the fuel between the marks below which showing too much
// strands somebody.
const NearEmpty = 0.25

// Worth is by how much, in percent of the dial, a part must lessen the worst error to be
// counted.
const Worth = 0.005

// A Match is a gauge wired straight to the sender, or through parts.
type Match struct {
	Network gauge.Network
	Level   float64 // worst error on level ground, in percent of the dial
	Worst   Worst
	Over    float64 // shown too much near empty on falling fuel, in percent of the dial
}

// A Matching looks for the parts through which a gauge without a conditioner lies least.
type Matching struct {
	rig             *Rig
	level           *Curve // on which parts are chosen
	judged, falling *Curve // on which errors are told
	order           []Sample
}

// Matching prepares the search. Parts are those of level ground, errors those of the
// attitude of a relation.
func (r *Rig) Matching(rel *volume.Relation) *Matching {
	m := &Matching{rig: r, level: r.Curve(r.Level), falling: r.Curve(r.way(rel, float.Falling))}
	m.judged = m.level
	if rel != r.Level {
		m.judged = r.Curve(rel)
	}
	m.order = scattered(m.level.Samples)
	return m
}

// scattered returns samples in an order in which each few of them are spread over all:
// steps of the golden section, so that a bad choice is known for one by the first few.
func scattered(samples []Sample) []Sample {
	n := len(samples)
	step := max(1, int(0.618*float64(n)))
	for gcd(step, n) != 1 {
		step++
	}
	out := make([]Sample, n)
	for i := range out {
		out[i] = samples[i*step%n]
	}
	return out
}

func gcd(a, b int) int {
	for b != 0 {
		a, b = b, a%b
	}
	return a
}

// Judge returns how far a gauge lies behind a network.
func (m *Matching) Judge(needle gauge.Indicator, n gauge.Network) Match {
	ind := gauge.Through{Network: n, Gauge: needle}
	return Match{
		Network: n, Level: m.level.With(ind).WorstPercent(ind), Worst: m.judged.With(ind).Worst(ind),
		Over: max(0, m.falling.Over(ind, NearEmpty)),
	}
}

// A Choice is what each kind of network does for a gauge; nil where it lessens the worst
// error by less than [Worth] below what fewer parts do.
type Choice struct {
	Straight               Match
	Series, Parallel, Both *Match
}

// Best returns the match with the least worst error on level ground.
func (c Choice) Best() Match {
	best := c.Straight
	for _, m := range []*Match{c.Series, c.Parallel, c.Both} {
		if m != nil && m.Level < best.Level {
			best = *m
		}
	}
	return best
}

// Choose finds the best parts of a stock, which rises, for a gauge: no other one, or two,
// lessen the worst error on level ground by [Worth] more. Two of one value are taken only
// if twins says that there are two of each, or if the stock lists the value twice.
func (m *Matching) Choose(needle gauge.Indicator, stock []float64, twins bool) Choice {
	c := Choice{Straight: m.Judge(needle, gauge.Network{})}
	s := &scan{matching: m, needle: needle}
	take := func(below float64, all networks) *Match {
		n, ok := s.least(below-Worth, all)
		if !ok {
			return nil
		}
		match := m.Judge(needle, n)
		return &match
	}
	c.Series = take(c.Straight.Level, singles(stock, func(r float64) gauge.Network { return gauge.Network{Series: r} }))
	c.Parallel = take(c.Straight.Level, singles(stock, func(r float64) gauge.Network { return gauge.Network{Parallel: r} }))
	c.Both = take(c.Best().Level, pairs(stock, twins))
	return c
}

// Spread returns the greatest worst error, in percent of the dial, behind a network whose
// parts are each a share more or less than they are meant to be.
func (m *Matching) Spread(needle gauge.Indicator, n gauge.Network, tolerance float64) float64 {
	most := 0.0
	for _, series := range []float64{1 - tolerance, 1 + tolerance} {
		for _, parallel := range []float64{1 - tolerance, 1 + tolerance} {
			off := n
			off.Series, off.Parallel = n.Series*series, n.Parallel*parallel
			ind := gauge.Through{Network: off, Gauge: needle}
			most = max(most, m.judged.With(ind).WorstPercent(ind))
		}
	}
	return most
}
