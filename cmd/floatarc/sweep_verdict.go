package main

import (
	"fmt"
	"io"
	"slices"

	"floatarc/tanks/quantity"
)

// A verdictOn is what is said of one aim of a sweep.
type verdictOn struct {
	aim
	what string
	tell func(*weighed) string
}

func (s *sweep) verdicts() []verdictOn {
	v := s.sample.sys.Volume
	percent := func(n number) string { return quantity.Fixed(float64(n), 2) + " %" }
	marks := func(w *weighed) string { return percent(w.MarksAway) }
	best := func(w *weighed) string { return percent(w.BestAway) }
	overall := func(w *weighed) string { return percent(w.Best) }
	out := []verdictOn{{leastMarks, "least worst error, points at the marks", marks}, {leastBest, "least worst error, best points", best}}
	if s.blind() {
		out[0].what = "least worst error away from the stops, points at the marks"
		out[1].what = "least worst error away from the stops, best points"
		out = append(out, verdictOn{leastOverall, "least worst error with the blind bands, best points", overall})
	}
	return append(out,
		verdictOn{widestBand, "widest live band", func(w *weighed) string { return v.Text(float64(w.LiveHigh - w.LiveLow)) }},
		verdictOn{latestLamp, "latest low-fuel lamp", func(w *weighed) string { return v.Text(float64(w.Warn)) }},
	)
}

// blind tells whether any of the rigs has an end of its dial in a blind band.
func (s *sweep) blind() bool {
	return slices.ContainsFunc(s.rows, func(w *weighed) bool { return w.blind })
}

// writeVerdict tells at which value each figure is best, or that nothing is to be gained.
func (s *sweep) writeVerdict(w io.Writer) {
	writeWrapped(w, "* ", "Worst error of the needle from the empty to the full mark, with points at the marks of the dial and with the best ones.")
	fmt.Fprintln(w)
	matters, gains := s.changes(allMarks) || s.changes(leastOverall), false
	for _, v := range s.verdicts() {
		matters = matters || s.changes(v.aim)
		if best := s.bestOf(v.aim); best != nil {
			gains = gains || s.gains(v.aim, best)
		}
	}
	switch {
	case !matters:
		writeWrapped(w, "", fmt.Sprintf("%s does not matter here: every figure is the same, to a hundredth, over the whole sweep.", s.figure.Key))
		return
	case !gains:
		writeWrapped(w, "", fmt.Sprintf("Nothing is to be gained: to a hundredth, no value of the sweep is better than %s, as it is now.", s.shown(s.now())))
		return
	}
	for _, v := range s.verdicts() {
		s.writeBest(w, v)
	}
}

// writeBest tells one of them.
func (s *sweep) writeBest(w io.Writer, v verdictOn) {
	best, now := s.bestOf(v.aim), s.now()
	switch {
	case best == nil:
	case !s.changes(v.aim):
		writeWrapped(w, "- ", fmt.Sprintf("%s: the same everywhere, %s", v.what, v.tell(best)))
	case !s.gains(v.aim, best):
		writeWrapped(w, "- ", fmt.Sprintf("%s: as it is now, %s at %s", v.what, v.tell(now), s.shown(now)))
	case now == nil || !isKnown(v.aim(now)):
		writeWrapped(w, "- ", fmt.Sprintf("%s: %s at %s", v.what, v.tell(best), s.shown(best)))
	default:
		writeWrapped(w, "- ", fmt.Sprintf("%s: %s at %s (now %s at %s)", v.what, v.tell(best), s.shown(best), v.tell(now), s.shown(now)))
	}
}

// writeNoLamp tells why no lamp lights in time, where that is so first, and where else it is.
func (s *sweep) writeNoLamp(w io.Writer) {
	var dark []*weighed
	for _, r := range s.rows {
		if r.refused == nil && r.NoLamp != "" {
			dark = append(dark, r)
		}
	}
	if len(dark) == 0 {
		return
	}
	fmt.Fprintln(w)
	if s.bestOf(latestLamp) == nil && !slices.ContainsFunc(dark, func(r *weighed) bool { return r.NoLamp != dark[0].NoLamp }) {
		writeWrapped(w, "", "No low-fuel lamp: "+dark[0].NoLamp+".")
		return
	}
	words := fmt.Sprintf("No lamp in time at %s: %s.", s.shown(dark[0]), dark[0].NoLamp)
	if len(dark) > 1 {
		words += fmt.Sprintf(" Nor at %d more; --json tells why.", len(dark)-1)
	}
	writeWrapped(w, "", words)
}
