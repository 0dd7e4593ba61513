package main

import (
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
	s.writeParameters(w)
	s.writeRows(w, a)
	s.writeVerdict(w)
	s.writeCorrections(w, a)
	s.writeProof(w)
	s.writeNext(w)
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
	if l.foundStart {
		words += " What was in the tank before is taken as unknown, and found from the readings (--start drained says that it was empty)."
	}
	if l.water {
		words += " It was taken with water, in which the float lies higher; what follows is for the fuel."
	}
	return words
}

// writeParameters prints the measures before and after.
func (s *fitSheet) writeParameters(w io.Writer) {
	fmt.Fprint(w, "\nWhat the log makes of the measures, each ± its standard uncertainty.\n\n")
	g := grid{heads: []string{"", "", "as measured", "with the log", "moved", ""}, labels: true, notes: true}
	usual := false
	for _, p := range s.outcome.Parameters {
		u := shownIn(p.Unit, s.sys)
		before := u.spread(p.Value, p.Sigma)
		if p.Usual {
			before, usual = before+"*", true
		} else {
			before += " "
		}
		moved := fmt.Sprintf("%+.*f", u.decimals, u.of(p.After)-u.of(p.Value)+0)
		g.add(p.Name, u.symbol, before, u.spread(p.After, p.AfterSigma), moved, leftWords(p))
	}
	g.write(w)
	if usual {
		fmt.Fprintln(w)
		writeWrapped(w, "", "* Usual care, since the file does not state how well it was measured: write \"230 ± 3 mm\" where you know.")
	}
	if alike := s.alikeWords(); alike != "" {
		fmt.Fprintln(w)
		writeWrapped(w, "", alike)
	}
}

// leftWords says why a parameter did not move.
func leftWords(p fit.Parameter) string {
	switch p.Left {
	case fit.Silent:
		return "left: the log says next to nothing of it"
	case fit.Alike:
		return "left: the log cannot tell it from " + p.With
	}
	if math.Abs(p.Moved) > farMoved {
		return fmt.Sprintf("%.1f times its uncertainty: measure it again", math.Abs(p.Moved))
	}
	return ""
}

// Of the words: the number of prior uncertainties beyond which a measure has moved far, and
// the correlation above which two are said to go together.
const (
	farMoved = 2.5
	together = 0.8
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
			if c := o.Correlation.At(i, j); math.Abs(c) > together && p.Left == fit.NotLeft && q.Left == fit.NotLeft {
				pairs = append(pairs, pair{q.Name, p.Name, c})
			}
		}
	}
	slices.SortStableFunc(pairs, func(x, y pair) int { return int(1e6 * (math.Abs(y.c) - math.Abs(x.c))) })
	if len(pairs) == 0 {
		return ""
	}
	var words []string
	for _, p := range pairs[:min(3, len(pairs))] {
		words = append(words, fmt.Sprintf("%s and %s (correlation %+.2f)", p.a, p.b, p.c))
	}
	return "Hard to tell apart, so that one may stand for the other: " + strings.Join(words, "; ") + "."
}

// flagWords tell what is known against a row.
func flagWords(r fit.Reading) string {
	switch r.Flag {
	case fit.Doubtful:
		return "marked doubtful: not fitted"
	case fit.Spilled:
		return "marked spilled: how much went in is taken as unknown"
	case fit.Unread:
		return "not read"
	case fit.BadRead:
		return fmt.Sprintf("! the reading is off by %.1f times what it may be: not fitted", math.Abs(r.Off))
	case fit.BadPour:
		return fmt.Sprintf("! what went in is off by %.1f times what it may be: taken as unknown", math.Abs(r.Off))
	}
	if r.Blind {
		return "the sender rests on its stop"
	}
	return ""
}

// writeRows prints the log against the rig.
func (s *fitSheet) writeRows(w io.Writer, a fitAnswer) {
	v := s.sys.Volume
	fmt.Fprintf(w, "\nThe log against the rig: %s in the tank as logged, less those that the reading stands for.\n\n", v.Symbol)
	g := grid{heads: []string{"line", "in the tank\n" + v.Symbol, "meter Ω", "with the\nlog Ω", "off before\n" + v.Symbol, "off after\n" + v.Symbol, ""}, notes: true}
	seen := s.log.file.NeedleSeen
	if seen {
		g.heads = slices.Insert(g.heads, 6, "needle", "must be\nat %")
	}
	off := func(litres number) string {
		return known(float64(litres), func(l float64) string { return quantity.Signed(v.Of(l), 2) })
	}
	for i, r := range a.Rows {
		cells := []string{fmt.Sprint(r.Line), v.Number(float64(r.Litres)), known(float64(r.Ohms), one), one(float64(r.Expected)), off(r.Before), off(r.Residual), ""}
		note := flagWords(s.outcome.Rows[i])
		if seen {
			cells = slices.Insert(cells, 6, r.Needle, known(100*float64(r.True), func(p float64) string { return quantity.Fixed(p, 0) }))
			if note == "" || s.proofs[i] != nil && s.proofs[i].verdict != proved {
				note = strings.Trim(note+"; "+s.proofWords(s.proofs[i]), "; ")
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
	fmt.Fprintln(w)
	v := s.sys.Volume
	writeWrapped(w, "", fmt.Sprintf("Off by %s before and by %s after (root mean square). %s", v.Text(o.Prior), v.Text(o.RMS), s.verdictWords()))
}

func (s *fitSheet) verdictWords() string {
	o := s.outcome
	square := fmt.Sprintf("chi-square %.1f for %d readings", o.Square, o.Readings)
	switch s.verdict() {
	case wrong:
		return fmt.Sprintf("The log and the rig do NOT go together (%s): something is wrong that no measure above explains. Look at the rows marked !, the sense of the sender, the units of the log, and whether it is this tank.", square)
	case scatters:
		return fmt.Sprintf("The readings scatter more than they should (%s): a loose joint, a worn track, pours read badly. The uncertainties above are widened by %.1f.", square, o.Widened)
	case tame:
		return fmt.Sprintf("They go together better than the stated errors allow (%s): the meter and the can are better than told.", square)
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

// moveWords says which stored pair to move, and by how much.
func (s *fitSheet) moveWords() string {
	if len(s.moves) == 0 {
		return ""
	}
	best := slices.MinFunc(s.moves, func(a, b storedRow) int { return int(1e6 * float64(a.Left-b.Left)) })
	holds := "which the file says the box holds"
	if !s.storedKnown {
		holds = "taking the box to hold the points of the rig as measured"
	}
	lines := s.after.storedLines()
	worst := func(ind gauge.Indicator) string {
		return quantity.Fixed(s.after.rig.Curve(s.after.rig.Level, ind).WorstPercent(ind), 1)
	}
	return fmt.Sprintf("Of the pairs (%s) move first the one at %s Ω (needle %s): by %s Ω, to %s Ω. The worst error then goes from %s to %s %% of the dial; with all pairs as above it is %s %%.",
		holds, one(float64(best.Input)), s.place(float64(best.Position)), quantity.Signed(float64(best.Alone-best.Input), 1), one(float64(best.Alone)),
		worst(lines), quantity.Fixed(float64(best.Left), 1), worst(s.plan.lines))
}

// writeNext says which further fill point would tell the most.
func (s *fitSheet) writeNext(w io.Writer) {
	fmt.Fprintln(w)
	v := s.sys.Volume
	if s.next == nil {
		writeWrapped(w, "", "No one further reading would make the litres behind a reading better known.")
		return
	}
	writeWrapped(w, "", fmt.Sprintf("What to measure next: a reading with %s in the tank (about %s Ω). The litres behind a reading, on level ground now known to ± %s at worst (95 %%), would then be known to ± %s.",
		v.Text(s.next.Litres), one(s.after.rig.Input(s.after.rig.Level, s.next.Litres)), v.Text(fit.Coverage*s.next.Before), v.Text(fit.Coverage*s.next.After)))
}
