package main

import (
	"fmt"
	"io"
	"strings"

	"floatarc/gauge"
	"floatarc/tanks/quantity"
)

func (s *pointsSheet) write(w io.Writer) {
	p := s.plan
	fmt.Fprintf(w, "%s\n", s.file.Name)
	writeWrapped(w, "", s.headline())
	fmt.Fprintln(w)
	s.pointsGrid(p).write(w)
	if s.rig.Wiring.Installed != nil {
		fmt.Fprintln(w)
		writeWrapped(w, "", s.installedWords())
	}
	s.errors.write(w)
	s.writeLive(w)
	s.writeNumbers(w)
	s.writeStored(w)
	if s.uncertain != nil {
		s.uncertain.write(w, s)
	}
	writeWarnings(w, s.warnings)
}

// headline says what the points are.
func (s *pointsSheet) headline() string {
	p := s.plan
	law := lawWords(s.rig.Conditioner.Law)
	if s.rig.Conditioner.Needle != nil {
		law += " and gives out the drive of the gauge"
	}
	grid := ""
	if p.rounded {
		grid = fmt.Sprintf(" Inputs in steps of %g Ω", s.rig.Step())
		if s.rig.Conditioner.Inputs != nil {
			grid = " Inputs from the conditioner's list"
		}
		if p.method == free {
			grid += fmt.Sprintf("; positions that an eye can set, %s", finenessWords[s.file.Gauge.Fineness])
		}
		grid += "."
	}
	if p.method == atMarks {
		return fmt.Sprintf("%d points at the marks of the dial; the conditioner runs straight lines in %s.%s", len(p.points), law, grid)
	}
	promise := ""
	if s.below > 0 && !s.broken() {
		promise = fmt.Sprintf(" Below %s of the way from empty to full the needle never shows more than there is on falling fuel, on level ground.", shareWords(s.below))
	}
	return fmt.Sprintf("%d points where the needle lies least; the conditioner runs straight lines in %s; outside them it holds the end values.%s%s", len(p.points), law, grid, promise)
}

var finenessWords = map[gauge.Fineness]string{
	gauge.Percents: "whole percents", gauge.Halves: "on the marks and half way between", gauge.OnMarks: "on the marks",
}

func shareWords(v float64) string {
	if v == quarter {
		return "a quarter"
	}
	return quantity.Fixed(100*v, 0) + " %"
}

// writeLive tells the live band, and what it costs.
func (s *pointsSheet) writeLive(w io.Writer) {
	sys := s.sys
	low, high := s.rel.Live()
	fmt.Fprintf(w, "\nThe live band, where the sender moves, runs from %s to %s.\n", sys.Volume.Text(low), sys.Volume.Text(high))
	if words := s.floorWords(); words != "" {
		writeWrapped(w, "", words)
	}
	if before := s.errors.straight; before != nil && s.errors.chosen().Percent >= before.Percent {
		fmt.Fprintln(w, "These points are no better than the sender wired straight to the gauge.")
	}
}

// floorWords says what no number of points lowers.
func (s *pointsSheet) floorWords() string {
	p := s.plan
	if p.search == nil || p.search.Floor < 0.05 {
		return ""
	}
	words := fmt.Sprintf("On level ground no number of points brings the worst error below %s %%", quantity.Fixed(p.search.Floor, 2))
	if s.below > 0 {
		words = fmt.Sprintf("On level ground, and never showing too much near E, no number of points brings the worst error below %s %%", quantity.Fixed(p.search.Floor, 2))
	}
	told := s.rig.Told(s.rig.Level)
	var ends []string
	if told.Low.Blind {
		ends = append(ends, fmt.Sprintf("from %s down %s", s.sys.Volume.Text(told.Low.Litres), s.restsAt(told.Low)))
	}
	if told.High.Blind {
		ends = append(ends, fmt.Sprintf("from %s up %s", s.sys.Volume.Text(told.High.Litres), s.restsAt(told.High)))
	}
	if least, most := s.rig.Conditioner.Needle.Ends(); least > 0 || most < 1 {
		ends = append(ends, "the needle does not reach the ends of the dial")
	}
	if s.rig.Contacts() != nil {
		ends = append(ends, "the reading stands still from contact to contact")
	}
	switch {
	case len(ends) > 0:
		words += ": " + strings.Join(ends, ", and ")
	case s.below > 0:
		words += ": rising and falling fuel read so far apart, and the needle must not show too much"
	}
	if away := s.errors.chosen().AwayPercent; len(ends) > 0 && s.rel == s.rig.Level && away < p.search.Floor {
		words += fmt.Sprintf(". Away from there the needle lies by at most %s %%", quantity.Fixed(away, 2))
	}
	return words + "."
}

// rests says what the sender does in a blind band.
func (j *job) rests() string {
	switch j.file.Sender.Kind {
	case "arm":
		return "the arm rests on its stop"
	case "stem":
		return "the float rests at the end of the stem"
	case "probe":
		return "the surface is beyond the probe"
	}
	return "the sender reads the same"
}

func lawWords(l gauge.Law) string {
	limits := ""
	if limited, ok := l.(gauge.Limited); ok {
		l = limited.Law
		limits = fmt.Sprintf(" for inputs of %.4g to %.4g Ω", limited.Least, limited.Most)
	}
	if d, ok := l.(gauge.Divider); ok {
		return fmt.Sprintf("the voltage over the sender (pull-up %g Ω)%s", d.PullUp, limits)
	}
	return "resistance" + limits
}
