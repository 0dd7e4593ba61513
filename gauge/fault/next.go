package fault

import (
	"cmp"
	"math"
	"slices"
)

// A Question is a reading that was not taken, and how much it would tell.
type Question struct {
	Reading Reading
	Bits    float64 // by which it is expected to narrow down the causes
}

// Ask returns the readings that were not taken, the one that is expected to tell the most
// first: by how much the entropy of the causes would fall, over what the reading may come out
// as.
func (c Circuit) Ask(r Readings) ([]Question, error) {
	now, err := c.Diagnose(r)
	if err != nil {
		return nil, err
	}
	var out []Question
	for _, q := range c.with(r).untaken() {
		bits, err := c.gain(now, q.outcomes)
		if err != nil {
			return nil, err
		}
		out = append(out, Question{q.reading, bits})
	}
	slices.SortStableFunc(out, func(a, b Question) int { return cmp.Compare(b.Bits, a.Bits) })
	return out, nil
}

// An untaken reading with what it may come out as.
type untaken struct {
	reading  Reading
	outcomes []Readings
}

// untaken returns the readings that are still to be had.
func (s *scene) untaken() []untaken {
	var out []untaken
	with := func(reading Reading, taken bool, change func(*Readings, int), n int) {
		if taken {
			return
		}
		u := untaken{reading: reading}
		for k := range n {
			r := s.Readings
			change(&r, k)
			u.outcomes = append(u.outcomes, r)
		}
		out = append(out, u)
	}
	low, high := 20., 150.
	if s.ranged() {
		low, high = math.Min(s.empty, s.full), math.Max(s.empty, s.full)
	}
	own := (low + high) / 2
	if took(s.AtSender) && !math.IsInf(s.AtSender, 1) {
		own = s.AtSender
	}
	ohms := []float64{0.3, 0.8*low + 0.2*high, own, 0.2*low + 0.8*high, math.Inf(1)}
	ends := []float64{0.5, 0.5 * own, own + usualWire, own + 8, own + 40, math.Inf(1)}
	moves := []Move{ToFull, ToEmpty, Stays}
	with(Needle, len(s.Readings.Needle) > 0, func(r *Readings, k int) { r.Needle = []Symptom{Symptoms[k]} }, len(Symptoms))
	with(Fuel, took(s.Fuel), func(r *Readings, k int) { r.Fuel = []float64{0.05, 0.5, 0.95}[k] }, 3)
	with(AtSender, took(s.AtSender), func(r *Readings, k int) { r.AtSender = ohms[k] }, len(ohms))
	with(AtGauge, took(s.AtGauge), func(r *Readings, k int) { r.AtGauge = ends[k] }, len(ends))
	with(Earth, took(s.Readings.Earth), func(r *Readings, k int) { r.Earth = []float64{0.2, 8, 60}[k] }, 3)
	with(EarthVolts, took(s.EarthVolts), func(r *Readings, k int) { r.EarthVolts = []float64{0.01, 0.4, 2}[k] }, 3)
	with(Unplugged, s.Readings.Unplugged != "", func(r *Readings, k int) { r.Unplugged = moves[k] }, len(moves))
	with(Earthed, s.Readings.Earthed != "", func(r *Readings, k int) { r.Earthed = moves[k] }, len(moves))
	if s.rises() != 0 {
		e, f := s.Circuit.GaugeEmpty, s.Circuit.GaugeFull
		pairs := [][2]float64{{e, f}, {f, e}, {0.4 * e, 0.4*f + 5}, {math.Inf(1), math.Inf(1)}, {0.3, 0.4}}
		with(Ends, took(s.SenderEmpty) && took(s.SenderFull), func(r *Readings, k int) { r.SenderEmpty, r.SenderFull = pairs[k][0], pairs[k][1] }, len(pairs))
	}
	if s.ranged() && s.rises() == 0 {
		pairs := [][2]float64{{s.empty, s.full}, {s.full, s.empty}, {0.4 * s.empty, 0.4*s.full + 5}}
		with(Range, false, func(r *Readings, k int) { r.GaugeEmpty, r.GaugeFull = pairs[k][0], pairs[k][1] }, len(pairs))
	}
	return out
}

// gain returns by how much the entropy of the causes is expected to fall.
func (c Circuit) gain(now []Verdict, outcomes []Readings) (float64, error) {
	share := map[Cause]float64{}
	for _, v := range now {
		share[v.Cause] = v.Share
	}
	// How likely each outcome is with each cause, of those that are thought of.
	given := make([]map[Cause]float64, len(outcomes))
	sums := map[Cause]float64{}
	for k, r := range outcomes {
		then, err := c.Diagnose(r)
		if err != nil {
			return 0, err
		}
		given[k] = map[Cause]float64{}
		for _, v := range then {
			if before := share[v.Cause]; before > 0 {
				given[k][v.Cause] = v.Share / before
				sums[v.Cause] += given[k][v.Cause]
			}
		}
	}
	after := 0.0
	for k := range outcomes {
		p, left := 0.0, map[Cause]float64{}
		for cause, l := range given[k] {
			left[cause] = share[cause] * l / sums[cause]
			p += left[cause]
		}
		for _, q := range left {
			if q > 0 {
				after -= q * math.Log2(q/p)
			}
		}
	}
	before := 0.0
	for _, q := range share {
		if q > 0 {
			before -= q * math.Log2(q)
		}
	}
	return before - after, nil
}
