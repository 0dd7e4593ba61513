package main

import (
	"cmp"
	"fmt"
	"io"
	"math"
	"slices"
	"strings"

	"floatarc/calibration/fit"
	"floatarc/gauge"
	"floatarc/tanks/quantity"
)

func (s *fitSheet) write(w io.Writer, a fitAnswer) {
	fmt.Fprintln(w, s.file.Name)
	writeWrapped(w, "", s.logWords())
	s.writeVerdict(w)
	s.writeParameters(w)
	s.writeRows(w, a)
	if s.verdict() != wrong {
		s.writeCorrections(w, a)
		s.writeProof(w)
		s.writeNext(w, a.Next)
	}
	writeWarnings(w, s.warnings)
}

// logWords says what the log is.
func (s *fitSheet) logWords() string {
	o, l := s.outcome, s.log
	least, most := math.Inf(1), math.Inf(-1)
	used := 0
	for _, r := range o.Rows {
		least, most = math.Min(least, r.Litres), math.Max(most, r.Litres)
		if r.Used {
			used++
		}
	}
	v := s.sys.Volume
	words := fmt.Sprintf("%s: %d rows, %d of them fitted, from %s to %s in the tank.", l.path, len(o.Rows), used, v.Text(least), v.Text(most))
	if l.fit.Can > 0 {
		words += fmt.Sprintf(" The can's size is known to %s %%.", quantity.Trimmed(100*l.fit.Can, 2))
	} else {
		words += " The can is taken to be exact (--can \"20 L ± 0.2 L\" says otherwise)."
	}
	if l.fit.Found {
		words += " What was in the tank before is taken as unknown, and found from the readings (--start drained says that it was empty)."
	}
	if len(s.file.Fitted.Keys) > 0 {
		words += " The rig's measures come from a fill log already: not the same one, which would count twice? How they hang together is not counted here; it is better to fit all logs as one to the rig as measured."
	}
	if l.water {
		words += " It was taken with water, in which the float lies higher; what follows is for the fuel."
	}
	return words
}

// writeParameters prints the measures before and after.
func (s *fitSheet) writeParameters(w io.Writer) {
	fmt.Fprint(w, "\nWhat the log makes of the measures, each ± its standard uncertainty.\n\n")
	g := grid{heads: []string{"", "", "before", "with the log", "moved", ""}, labels: true, notes: true}
	usual := false
	var kept []string
	for _, p := range s.outcome.Parameters {
		u := shownIn(p.Unit, s.sys)
		name := p.Name
		switch p.Name {
		case fit.CanName:
			name, u = "can holds more by", shown{"%", func(v float64) float64 { return 100 * v }, 2}
		case fit.StartName:
			name = "start, in the tank"
		}
		before := u.spread(p.Value, p.Sigma)
		if p.Usual {
			before, usual = before+"*", true
		} else {
			before += " "
		}
		moved := fmt.Sprintf("%+.*f", u.decimals, u.of(p.After)-u.of(p.Value)+0)
		g.add(name, u.symbol, before, u.spread(p.After, p.AfterSigma), moved, leftWords(p))
		if p.Left == fit.Alike {
			kept = append(kept, fmt.Sprintf("The log cannot tell %s from %s, which moved instead.", p.Name, p.With))
		}
	}
	g.write(w)
	for _, words := range kept {
		fmt.Fprintln(w)
		writeWrapped(w, "", words)
	}
	if usual {
		fmt.Fprintln(w)
		writeWrapped(w, "", "* Usual care, since the file does not state how well it was measured: write \"230 ± 3 mm\" where you know.")
	}
	if alike := s.alikeWords(); alike != "" {
		fmt.Fprintln(w)
		writeWrapped(w, "", alike)
	}
}

// leftWords says in a word or two why a parameter did not move, or that it moved far.
func leftWords(p fit.Parameter) string {
	switch {
	case p.Left == fit.Silent:
		return "kept: not told"
	case p.Left == fit.Alike:
		return "kept: alike"
	case math.Abs(p.Moved) > farMoved && !p.Usual && p.Name != fit.StartName:
		return fmt.Sprintf("! by %.1f ±", math.Abs(p.Moved))
	}
	return ""
}

// Of the words: the number of prior uncertainties beyond which a measure has moved far, and
// the correlation above which two are said to go together.
const (
	farMoved = 2.5
	together = 0.6
)

// alikeWords names the pairs that move together.
func (s *fitSheet) alikeWords() string {
	type pair struct {
		a, b string
		c    float64
	}
	var pairs []pair
	o := s.outcome
	for i, p := range o.Parameters {
		for j, q := range o.Parameters[:i] {
			if c := o.Correlation.At(i, j); math.Abs(c) > together && (p.Left == fit.NotLeft || q.Left == fit.NotLeft) {
				pairs = append(pairs, pair{q.Name, p.Name, c})
			}
		}
	}
	slices.SortStableFunc(pairs, func(x, y pair) int { return cmp.Compare(math.Abs(y.c), math.Abs(x.c)) })
	if len(pairs) == 0 {
		return ""
	}
	var words []string
	for _, p := range pairs[:min(3, len(pairs))] {
		words = append(words, fmt.Sprintf("%s and %s (correlation %+.2f)", p.a, p.b, p.c))
	}
	return "Hard to tell apart, so that one may stand for the other: " + strings.Join(words, "; ") + ". Measure one of them by itself: the ohms across the sender alone, the arm with the float out."
}

// flagWords tell in a word or two what is known against a row.
func flagWords(r fit.Reading) string {
	switch r.Flag {
	case fit.Doubtful:
		return "doubtful, not fitted"
	case fit.Spilled:
		return "spilled"
	case fit.Unread:
		return "not read"
	case fit.BadRead:
		return "! reading, not fitted"
	case fit.BadPour:
		return "! pour"
	}
	if r.Blind {
		return "at its stop"
	}
	return ""
}

// writeRows prints the log against the rig.
func (s *fitSheet) writeRows(w io.Writer, a fitAnswer) {
	v := s.sys.Volume
	fmt.Fprint(w, "\nThe log against the rig; off is what the log says is in the tank less what the reading stands for.\n\n")
	g := grid{heads: []string{"line", "in the tank\n" + v.Symbol, "meter\nΩ", "rig with\nthe log Ω", "off before\n" + v.Symbol, "off after\n" + v.Symbol, ""}, notes: true}
	seen := s.log.file.NeedleSeen
	if seen {
		g.heads = slices.Insert(g.heads, 6, "needle seen", "it must\nshow %")
	}
	off := func(litres number) string {
		return known(float64(litres), func(l float64) string { return quantity.Signed(v.Of(l), 2) })
	}
	for i, r := range a.Rows {
		cells := []string{fmt.Sprint(r.Line), v.Number(float64(r.Litres)), known(float64(r.Ohms), one), one(float64(r.Expected)), off(r.Before), off(r.Residual), ""}
		note := flagWords(s.outcome.Rows[i])
		if seen {
			cells = slices.Insert(cells, 6, r.Needle, known(100*float64(r.True), func(p float64) string { return quantity.Fixed(p, 0) }))
			if words := s.proofWords(s.proofs[i]); words != "" && note == "" {
				note = words
			} else if s.proofs[i] != nil && s.proofs[i].off() {
				note += "; " + words
			}
		}
		cells[len(cells)-1] = note
		g.add(cells...)
	}
	g.write(w)
}

// writeVerdict says how the log and the rig go together.
func (s *fitSheet) writeVerdict(w io.Writer) {
	o := s.outcome
	v := s.sys.Volume
	fmt.Fprintln(w)
	mark := ""
	if s.verdict() == wrong {
		mark = "! "
	}
	writeWrapped(w, mark, fmt.Sprintf("%s The litres were off by %s before and are by %s after (root mean square).", s.verdictWords(), v.Text(o.Prior), v.Text(o.RMS)))
}

func (s *fitSheet) verdictWords() string {
	o := s.outcome
	square := fmt.Sprintf("chi-square %.1f, about %d to be expected", o.Square, o.Freedom)
	switch s.verdict() {
	case wrong:
		return fmt.Sprintf("The log and the rig do NOT go together (%s): something is wrong that no measure below explains, and nothing below is to be relied upon. Is it this tank and this sender? Does the meter go the way the sender does, and are the amounts in the unit that the heading says (gallons)? Then look at the rows marked !.", square)
	case scatters:
		return fmt.Sprintf("The readings scatter more than they should (%s): a loose joint, a worn track, pours read badly. What is uncertain is widened by %.1f.", square, o.Widened)
	case tame:
		return fmt.Sprintf("The log and the rig go together, better than the stated errors would make it (%s): the meter and the can are better than told.", square)
	}
	return fmt.Sprintf("The log and the rig go together (%s).", square)
}

// writeCorrections prints the points to store.
func (s *fitSheet) writeCorrections(w io.Writer, a fitAnswer) {
	name := map[string]string{atMarks: "at the marks of the dial", free: "where the needle lies least"}[s.plan.method]
	fmt.Fprintf(w, "\nThe points to store, %s, corrected by the log.\n\n", name)
	v := s.sys.Volume
	g := grid{heads: []string{"", "needle at", "in the tank\n" + v.Symbol, "before Ω", "store Ω", "moved Ω"}, labels: true}
	for _, c := range a.Points {
		label := c.Label
		if c.Blind {
			label += " (blind)"
		}
		moved := known(float64(c.After-c.Before), func(d float64) string { return quantity.Signed(d, 1) })
		g.add(label, one(100*float64(c.Position))+" %", v.Number(float64(c.Litres)), known(float64(c.Before), one), one(float64(c.After)), moved)
	}
	g.write(w)
}

// writeProof tells what the needle proved, and which pair to move.
func (s *fitSheet) writeProof(w io.Writer) {
	if !s.log.file.NeedleSeen {
		return
	}
	count := map[proofVerdict]int{}
	seen := 0
	for _, p := range s.proofs {
		if p != nil {
			count[p.verdict]++
			seen++
		}
	}
	fmt.Fprintln(w)
	good := count[proved] + count[unproven]
	words := fmt.Sprintf("The needle was right at %d of %d rows where somebody looked.", good, seen)
	if count[needle] > 0 {
		words += fmt.Sprintf(" At %d it does not stand where the box puts it: look at the gauge, its supply and earth, and at what the box really holds, before you move a pair.", count[needle])
	}
	if count[bent] > 0 {
		words += fmt.Sprintf(" At %d it goes by points that bend there, near a stop or between two: no pair alone helps (floatarc points tells the floor).", count[bent])
	}
	if count[points] > 0 {
		words += " " + s.moveWords()
	}
	writeWrapped(w, "", words)
}

// moveWords says which stored pair is wrong by the most, and by how much to move it.
func (s *fitSheet) moveWords() string {
	wrongest, most := -1, leastMove
	for i, m := range s.moves {
		off := math.Abs(float64(m.Position - m.True))
		if off > most && math.Abs(float64(m.Own-m.Input)) > gauge.MeterOhms { // not where the sender rests on its stop

			wrongest, most = i, off
		}
	}
	if wrongest < 0 {
		return "No stored pair by itself is off by more than a hundredth of the dial: it is the straight lines between them that bend (floatarc points tells how much)."
	}
	m := s.moves[wrongest]
	holds := "which the file says it holds"
	if !s.storedKnown {
		holds = "taken to be the points of the rig as measured"
	}
	return fmt.Sprintf("Of the pairs in the box (%s) the one at %s Ω, needle %s, is wrong by the most, %s %% of the dial: move it by %s Ω, to %s Ω, or store all of them as above.",
		holds, one(float64(m.Input)), s.place(float64(m.Position)), quantity.Fixed(100*most, 0), quantity.Signed(float64(m.Own-m.Input), 1), one(float64(m.Own)))
}

// leastMove is the share of the dial below which a pair is not worth moving.
const leastMove = 0.01

// writeNext says which further fill point would tell the most, if any tells much.
func (s *fitSheet) writeNext(w io.Writer, next *nextFill) {
	fmt.Fprintln(w)
	v := s.sys.Volume
	now := v.Text(fit.Coverage * s.worst)
	if next == nil || next.After > worthwhile*next.Before {
		writeWrapped(w, "", fmt.Sprintf("The litres behind a reading are now known to ± %s at worst (95 %%, on level ground). No one further reading would make that much better; a better known can, or a measure taken better, may.", now))
		return
	}
	writeWrapped(w, "", fmt.Sprintf("What to measure next: a reading with %s in the tank (about %s Ω). The litres behind a reading, now known to ± %s at worst (95 %%, on level ground), would then be known to ± %s.",
		v.Text(float64(next.Litres)), one(float64(next.Ohms)), now, v.Text(float64(next.After))))
}

// worthwhile is the share of what is uncertain to which a further reading must bring it
// down to be worth telling.
const worthwhile = 0.9
