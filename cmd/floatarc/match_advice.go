package main

import (
	"fmt"
	"strings"

	"floatarc/calibration"
	"floatarc/gauge"
	"floatarc/tanks/quantity"
)

// partsLines say where parts go and what they bear.
func (s *matchSheet) partsLines() (out []string) {
	_, best := s.leading()
	any, both := false, false
	for i := range s.gauges {
		m := &s.gauges[i]
		if m.reversed() || m.best.Network.Count() == 0 {
			continue
		}
		any, both = true, both || m.choice.Both != nil
		if n := m.advised().Network; n.Count() > 0 && (m == best || m.own) {
			out = append(out, s.solderWords(*m, m.advised()))
		}
	}
	if both {
		out = append(out, "∥ is in parallel; G: on the gauge's side of the series part, S: on the sender's side.")
	}
	if any {
		out = append(out,
			"All parts go at the gauge's end of the wire, dry and away from the fuel: never in the tank or at its flange. Nothing is soldered near fuel vapour, and the battery is off.",
			fmt.Sprintf("Watts with all of %g V across the gauge's terminals (24 V systems: four times as many). The gauge's coil takes part of those volts; it is not known here, nor is the current through the sender, so that these are upper bounds. Neither part makes the sender carry more than wired straight.", charging),
		)
		out = append(out, s.toleranceWords())
	}
	return out
}

// assumptions say what the errors take for granted, and what parts do not do.
func (s *matchSheet) assumptions() []string {
	return []string{
		"That a needle is linear in the ohms is an assumption, and a real one bends: [gauge] response, or [[gauge.range]] with a response, tells yours.",
		"A conditioner also mends what resistors do not: the bend of the tank's shape, a sense that is reversed, and marks set by eye.",
	}
}

// toleranceWords says for what parts the errors are told.
func (s *matchSheet) toleranceWords() string {
	if s.series.Name == drawer {
		return "Errors are told for parts of the value given: measure them."
	}
	return fmt.Sprintf("Errors are told for parts of their printed value; those of %s may differ from it by ±%s %%. Measure, and pick.", s.series.Name, quantity.Fixed(100*s.series.Tolerance, 0))
}

// solderWords says where the parts of a gauge go, and what they bear.
func (s *matchSheet) solderWords(m matched, parts calibration.Match) string {
	n := parts.Network
	series, parallel := n.MostWatts(charging, s.least, s.most)
	var where []string
	if n.Series > 0 {
		where = append(where, fmt.Sprintf("%s into the sender's wire (%s W at most)", resistor(n.Series), quantity.Fixed(series, 2)))
	}
	if n.Parallel > 0 {
		where = append(where, fmt.Sprintf("%s from %s to the gauge's earth (%s W at most)", resistor(n.Parallel), parallelPlace(n), quantity.Fixed(parallel, 2)))
	}
	words := capital(s.title(m)) + ": " + strings.Join(where, ", ") + "."
	if s.series.Tolerance > 0 {
		words += fmt.Sprintf(" With parts anywhere within ±%s %% the needle lies at most %s %% off.", quantity.Fixed(100*s.series.Tolerance, 0), quantity.Fixed(s.spread(m, parts), 1))
	}
	return words
}

// parallelPlace says where the parallel part joins the wire.
func parallelPlace(n gauge.Network) string {
	switch {
	case n.Series == 0:
		return "the gauge's sender terminal"
	case n.AtSender:
		return "the sender's side of the series part"
	}
	return "the gauge's sender terminal, behind the series part,"
}
