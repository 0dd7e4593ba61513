package calibration

import (
	"math"

	"floatarc/gauge"
)

// networks goes over every network that a stock makes, leaving out all but each so many
// parts of it.
type networks func(every int, yield func(gauge.Network))

// singles goes over the parts of a stock, each by itself.
func singles(stock []float64, as func(ohms float64) gauge.Network) networks {
	return func(every int, yield func(gauge.Network)) {
		for i := 0; i < len(stock); i += every {
			yield(as(stock[i]))
		}
	}
}

// pairs goes over all pairs of a stock, in both layouts.
func pairs(stock []float64, twins bool) networks {
	return func(every int, yield func(gauge.Network)) {
		for i := 0; i < len(stock); i += every {
			for k := 0; k < len(stock); k += every {
				if i == k && !twins {
					continue
				}
				yield(gauge.Network{Series: stock[i], Parallel: stock[k]})
				yield(gauge.Network{Series: stock[i], Parallel: stock[k], AtSender: true})
			}
		}
	}
}

// A scan looks for the network behind which a needle lies least.
type scan struct {
	matching *Matching
	needle   gauge.Indicator
	culprit  int // sample that ruled the last network out: it often does the next one, too
}

// few is every how many parts of a stock a first look takes.
const few = 5

// least returns the network with the least worst error below a bound; false if there is
// none. No network is left out: one is dropped at the first sample at which it is worse
// than the best so far, and what no sample rules out is measured between them, too.
func (s *scan) least(bound float64, all networks) (best gauge.Network, found bool) {
	take := func(n gauge.Network, worst float64) {
		if worst < bound {
			best, bound, found = n, worst, true
		}
	}
	first, roughly := gauge.Network{}, bound
	all(few, func(n gauge.Network) {
		if worst := s.sampled(n, roughly); worst < roughly {
			first, roughly = n, worst
		}
	})
	if first.Count() > 0 {
		take(first, s.exact(first))
	}
	all(1, func(n gauge.Network) {
		if s.sampled(n, bound) < bound {
			take(n, s.exact(n))
		}
	})
	return best, found
}

// sampled returns the worst error at the samples, in percent; that at the first one that
// reaches a bound.
func (s *scan) sampled(n gauge.Network, bound float64) float64 {
	order := s.matching.order
	worst := s.off(n, order[s.culprit])
	for i := 0; i < len(order) && worst < bound; i++ {
		if off := s.off(n, order[i]); off > worst {
			worst, s.culprit = off, i
		}
	}
	return worst
}

func (s *scan) off(n gauge.Network, at Sample) float64 {
	return 100 * math.Abs(s.needle.Show(n.Seen(at.Input))-at.Position)
}

// exact returns the worst error between the samples, too.
func (s *scan) exact(n gauge.Network) float64 {
	ind := gauge.Through{Network: n, Gauge: s.needle}
	return s.matching.level.With(ind).WorstPercent(ind)
}
