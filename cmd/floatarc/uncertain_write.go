package main

import (
	"fmt"
	"io"
	"math"
	"slices"

	"floatarc/calibration/trials"
	"floatarc/tanks/quantity"
)

// writeCauses prints which measure causes how much of what is uncertain, and which to
// measure again.
func (j *job) writeCauses(w io.Writer, causes []causeRow, of string) {
	if len(causes) == 0 {
		fmt.Fprintln(w)
		writeWrapped(w, "", "What is uncertain hangs together through the fill log that found it ([fitted]): no measure causes it by itself. floatarc fit tells what to measure next.")
		return
	}
	fmt.Fprintf(w, "\nWhat causes it: the share of the variance of %s.\n\n", of)
	g := grid{heads: []string{"", "", "known to", "share %"}, labels: true}
	for _, c := range causes {
		u := shownIn(c.Unit, j.sys)
		name, spread := c.Name, u.spread(float64(c.Value), float64(c.Sigma))
		if c.Name == toleranceName {
			spread = "within ± " + quantity.Trimmed(100*math.Sqrt(3)*float64(c.Sigma), 1) + " %"
		}
		if c.Usual {
			name += "*"
		}
		g.add(name, u.symbol, spread, quantity.Fixed(100*float64(c.Share), 0))
	}
	g.write(w)
	fmt.Fprintln(w)
	first := causes[0]
	advice := fmt.Sprintf("Measure %s again: it is %s %% of your error.", first.Name, quantity.Fixed(100*float64(first.Share), 0))
	if first.Name == toleranceName {
		advice = fmt.Sprintf("Measure the ohms of this sender at both stops: its tolerance is %s %% of your error.", quantity.Fixed(100*float64(first.Share), 0))
	}
	if slices.ContainsFunc(causes, func(c causeRow) bool { return c.Usual }) {
		advice += " (* usual care: the file does not say how well it was measured.)"
	}
	writeWrapped(w, "", advice)
}

// drawnWords says what was drawn.
func (f *uncertainFlags) drawnWords(r *trials.Result) string {
	words := fmt.Sprintf("%s rigs drawn from what is uncertain", thousands(f.count))
	if r.Refused > 0 {
		words += fmt.Sprintf(", %s of which cannot be (%v) and were left out", thousands(r.Refused), r.Why)
	}
	return words
}

// thousands writes a count.
func thousands(n int) string {
	s := fmt.Sprint(n)
	for i := len(s) - 3; i > 0; i -= 3 {
		s = s[:i] + "," + s[i:]
	}
	return s
}
