package main

import (
	"fmt"
	"io"
	"strings"

	"floatarc/calibration"
	"floatarc/gauge"
	"floatarc/tanks/quantity"
)

// goodEnough is the worst error, in percent of the dial as printed, with which people live
// (common practice, no source).
const goodEnough = 5

func fine(m calibration.Match) bool { return m.Worst.Percent < goodEnough+0.05 }

// telling is how much, in percent of the dial, parts must gain on a gauge that is good
// enough without them before they are spoken of.
const telling = 0.5

func (s *matchSheet) write(w io.Writer) {
	fmt.Fprintf(w, "%s\nThe sender, %s to %s ohm from empty to full at the terminals, without a conditioner.\n%s\n\n", s.file.Name,
		one(s.rig.Input(s.rig.Level, s.rig.Dial.Empty)), one(s.rig.Input(s.rig.Level, s.rig.Dial.Full)), attitudeWords(s.rel.Contents.Attitude, s.file.Mount))
	writeWrapped(w, "", s.verdict())
	for _, m := range s.gauges {
		if _, best := s.leading(); m.own && (best == nil || !best.own) { // the verdict tells of the best
			writeWrapped(w, "", s.ownWords(m))
		}
	}
	writeWrapped(w, "", s.conditionerWords())
	if g := s.grid(); len(g.rows) > 0 {
		fmt.Fprintln(w)
		g.write(w)
	}
	fmt.Fprintln(w)
	for _, lines := range [][]string{s.partsLines(), s.reasonLines(), s.assumptions()} {
		for _, line := range lines {
			writeWrapped(w, "- ", line)
		}
	}
	writeWarnings(w, s.warnings)
}

// off writes a worst error.
func (s *matchSheet) off(worst calibration.Worst) string {
	return fmt.Sprintf("%s %% (%s)", quantity.Fixed(worst.Percent, 1), s.sys.Volume.Text(worst.Litres))
}

// conditionerWords say what a conditioner would reach.
func (s *matchSheet) conditionerWords() string {
	words := fmt.Sprintf("With a conditioner, %d points at the marks, on any gauge: at most %s off", len(s.plan.points), s.off(*s.marks))
	if s.free != nil {
		words += fmt.Sprintf("; with the best points %s", s.off(*s.free))
	}
	return words + "."
}

// verdict says whether a conditioner is needed at all.
func (s *matchSheet) verdict() string {
	straight, best := s.leading()
	if straight == nil {
		return "Every gauge here runs backwards with this sender: it takes a conditioner, or another sender."
	}
	parts := best.advised()
	switch {
	case fine(straight.choice.Straight):
		words := fmt.Sprintf("Wired straight to %s the needle lies at most %s off: good enough without a conditioner.", s.title(*straight), s.off(straight.choice.Straight.Worst))
		if gain := straight.choice.Straight.Level - best.level(); gain > telling {
			words += fmt.Sprintf(" With %s, on %s, it is %s.", partsWords(parts.Network), s.title(*best), s.off(parts.Worst))
		}
		return words
	case fine(parts):
		return fmt.Sprintf("With %s, on %s, the needle lies at most %s off: good enough without a conditioner. Wired straight it is %s.",
			partsWords(parts.Network), s.title(*best), s.off(parts.Worst), s.off(best.choice.Straight.Worst))
	case parts.Network.Count() == 0:
		return fmt.Sprintf("None does better than %s, wired straight to %s, and no part helps.", s.off(parts.Worst), s.title(*best))
	}
	return fmt.Sprintf("None does better than %s: %s, with %s.", s.off(parts.Worst), s.title(*best), partsWords(parts.Network))
}

// leading returns the gauge that lies least wired straight, and the one that lies least at
// all; nil where all run backwards.
func (s *matchSheet) leading() (straight, best *matched) {
	for i := range s.gauges {
		m := &s.gauges[i]
		if m.reversed() {
			continue
		}
		if best == nil {
			best = m // they are sorted
		}
		if straight == nil || m.choice.Straight.Level < straight.choice.Straight.Level {
			straight = m
		}
	}
	return straight, best
}

// title names a gauge in a sentence.
func (s *matchSheet) title(m matched) string {
	switch {
	case m.own:
		return fmt.Sprintf("your gauge (%g–%g ohm)", m.Empty, m.Full)
	case m.common():
		return "a " + m.Name + " gauge"
	}
	return fmt.Sprintf("%q", m.Name)
}

// common tells whether a gauge is named by its range.
func (m matched) common() bool { return m.Name == fmt.Sprintf("%g–%g ohm", m.Empty, m.Full) }

// ownWords tells of the rig's own gauge.
func (s *matchSheet) ownWords(m matched) string {
	if m.reversed() {
		return fmt.Sprintf("Your gauge (%g–%g ohm) runs backwards with this sender, and no resistor turns it round.", m.Empty, m.Full)
	}
	words := fmt.Sprintf("Your gauge (%g–%g ohm) wired straight lies at most %s off", m.Empty, m.Full, s.off(m.choice.Straight.Worst))
	parts := m.advised()
	if parts.Network.Count() == 0 {
		return words + "; no part helps."
	}
	return words + fmt.Sprintf(", with %s %s.", partsWords(parts.Network), s.off(parts.Worst))
}

// partsWords names parts in a sentence.
func partsWords(n gauge.Network) string {
	switch {
	case n.Parallel == 0:
		return resistor(n.Series) + " in series"
	case n.Series == 0:
		return resistor(n.Parallel) + " in parallel"
	}
	return fmt.Sprintf("%s in series and %s in parallel (%s)", resistor(n.Series), resistor(n.Parallel), side(n))
}

// resistor writes a resistor's value with its unit.
func resistor(v float64) string {
	text := ohmsText(v)
	if n := len(text) - 1; text[n] == 'k' || text[n] == 'M' {
		return text[:n] + " " + text[n:] + "Ω"
	}
	return text + " Ω"
}

// side says on which side of the series part the parallel one is.
func side(n gauge.Network) string {
	if n.AtSender {
		return "S"
	}
	return "G"
}

func (s *matchSheet) grid() *grid {
	v := s.sys.Volume
	g := &grid{heads: []string{"gauge", "straight\n%", "\n" + v.Symbol, "one in\nseries Ω", "\n%", "one in\nparallel Ω", "\n%", "both\nΩ", "\n%", "the best\n" + v.Symbol, "too much\nnear E %"}, labels: true}
	for _, m := range s.gauges {
		if m.reversed() {
			continue
		}
		name := m.Name
		if m.own {
			name = fmt.Sprintf("yours, %g–%g ohm", m.Empty, m.Full)
		}
		straight := m.choice.Straight.Worst
		row := []string{name, quantity.Fixed(straight.Percent, 2), v.Number(straight.Litres)}
		for _, parts := range []*calibration.Match{m.choice.Series, m.choice.Parallel, m.choice.Both} {
			row = append(row, partsCells(parts)...)
		}
		g.add(append(row, v.Number(m.best.Worst.Litres), quantity.Fixed(m.best.Over, 2))...)
	}
	return g
}

// partsCells write parts and how far the needle then lies.
func partsCells(m *calibration.Match) []string {
	if m == nil {
		return []string{"–", "–"}
	}
	n := m.Network
	text := ohmsText(n.Series + n.Parallel)
	if n.Count() == 2 {
		text = fmt.Sprintf("%s, ∥ %s %s", ohmsText(n.Series), ohmsText(n.Parallel), side(n))
	}
	return []string{text, quantity.Fixed(m.Worst.Percent, 2)}
}

// reasonLines tell of the gauges whose ends are not met, and of those that run backwards.
func (s *matchSheet) reasonLines() (out []string) {
	var backwards []string
	why := ""
	for _, m := range s.gauges {
		switch {
		case m.reversed():
			name := m.Name
			switch {
			case m.own:
				name = "yours"
			case !m.common():
				name = fmt.Sprintf("%q", name)
			}
			backwards, why = append(backwards, name), m.reason
		case m.reason != "":
			out = append(out, capital(s.title(m))+": "+m.reason+".")
		}
	}
	if len(backwards) > 0 {
		_, why, _ = strings.Cut(why, ": ")
		out = append(out, fmt.Sprintf("The other way round (%s) the needle runs backwards: %s.", strings.Join(backwards, ", "), strings.Replace(why, "this gauge wants", "those gauges want", 1)))
	}
	return out
}
