package main

import (
	"fmt"
	"io"
	"math"

	"floatarc/gauge"
	"floatarc/tanks/quantity"
	"floatarc/volume"
)

// benchCSV is a setting on one line.
type benchCSV struct {
	Label     string `json:"label"`
	Input     number `json:"input_ohms"`
	Sender    number `json:"sender_ohms"`
	Set       number `json:"set_ohms"`
	Position  number `json:"position"`
	Tolerance number `json:"tolerance_pct"`
	Litres    number `json:"litres"`
	Rising    number `json:"litres_rising"`
	Falling   number `json:"litres_falling"`
	First     number `json:"part_1_ohms"`
	Second    number `json:"part_2_ohms"`
	Join      string `json:"parts_join"`
}

func (a benchAnswer) csvRows() []benchCSV {
	var out []benchCSV
	for _, r := range a.Settings {
		row := benchCSV{r.Label, r.Input, r.Sender, r.Set, r.Position, r.Tolerance, r.Litres, r.Rising, r.Falling, r.Parts[0].Ohms, unknown, r.Join}
		if len(r.Parts) > 1 {
			row.Second = r.Parts[1].Ohms
		}
		out = append(out, row)
	}
	return out
}

func (a benchAnswer) write(w io.Writer, j *job, p *plan, rel *volume.Relation, series gauge.Series, stock []float64) {
	place := map[string]string{terminals: "terminals of the conditioner, sender's wire taken off", tank: "tank, in place of the sender, final wiring in between"}[a.At]
	fmt.Fprintf(w, "%s\nDecade box at the %s.\n%s\n\n", j.file.Name, place, attitudeWords(rel.Contents.Attitude, j.file.Mount))
	a.grid(j).write(w)
	fmt.Fprintln(w)
	if j.rig.Wiring.Installed != nil {
		writeWrapped(w, "- ", j.installedWords())
	}
	for _, line := range a.advice(j) {
		writeWrapped(w, "- ", line)
	}
	fmt.Fprintf(w, "\nWithout a decade box: %s.\n\n", stockWords(series))
	a.partsGrid(j).write(w)
	if series.Name == drawer {
		j.writeDrawer(w, p, rel, stock, a.At)
	}
	fmt.Fprintln(w)
	for _, line := range a.partsAdvice(j, series) {
		writeWrapped(w, "- ", line)
	}
	writeWarnings(w, a.Warnings)
}

func (a benchAnswer) grid(j *job) *grid {
	v := j.sys.Volume
	dragged := false
	for _, r := range a.Settings {
		dragged = dragged || v.Number(float64(r.Rising)) != v.Number(float64(r.Falling))
	}
	told := j.rig.Told(j.rig.Level)
	g := &grid{heads: []string{"", "set Ω", "needle\nat %", "±\n%", "in the tank\n" + v.Symbol}, labels: true, notes: true}
	if dragged {
		g.heads = append(g.heads, "rising\n"+v.Symbol, "falling\n"+v.Symbol)
	}
	g.heads = append(g.heads, "found\nup", "found\ndown", "")
	for _, r := range a.Settings {
		note := r.Place
		if r.Midpoint {
			note = ""
		}
		if r.Blind {
			note += "; " + j.restsAt(told.At(r.end))
		}
		row := []string{r.title(), one(float64(r.Set)), one(100 * float64(r.Position)), one(float64(r.Tolerance)), v.Number(float64(r.Litres))}
		if dragged {
			row = append(row, v.Number(float64(r.Rising)), v.Number(float64(r.Falling)))
		}
		g.add(append(row, "_______", "_______", note)...)
	}
	return g
}

// title names a line of the schedule.
func (r benchRow) title() string {
	if r.Midpoint {
		return "  check " + r.Label
	}
	return r.Label
}

// advice says what a bench needs.
func (a benchAnswer) advice(j *job) []string {
	settle := "Give a slow needle its time before you read (30 s and more for a damped one)."
	if s := j.file.Gauge.Settle; s > 0 {
		settle = fmt.Sprintf("Wait %s s after each change: this needle is slow.", quantity.Fixed(s, 0))
	}
	return []string{
		"Never a supply across a sender in a tank: the decade box stands in for the sender, with the sender's wire off.",
		"Short the meter's leads and subtract what it shows; then measure the decade box with it; do not trust its dials.",
		"Engine running, or the battery at charging voltage (about 14 V, twice that in a 24 V system); the gauge's own earth must be as in use.",
		settle + " Tap the glass, three light taps, before each reading.",
		"Go up from the first line to the last, each setting approached from one side, then down again: what differs is the needle's own friction.",
		fmt.Sprintf("± is in %% of the dial: 1.5° of needle at a point and 3° at a check, over a sweep of %s°%s.", quantity.Fixed(float64(a.Sweep), 0), map[bool]string{true: "", false: " (usual; gauge.sweep tells yours)"}[j.file.Gauge.Sweep > 0]),
	}
}

func stockWords(s gauge.Series) string {
	if s.Name == drawer {
		return "the nearest of your drawer, and the best two of it"
	}
	return fmt.Sprintf("the nearest single resistor of the %s series, and the best two", s.Name)
}

func (a benchAnswer) partsGrid(j *job) *grid {
	v := j.sys.Volume
	g := &grid{heads: []string{"", "for Ω", "one\npart Ω", "needle\nat %", "off\n" + v.Symbol, "two parts Ω", "make Ω", "needle\nat %", "off\n" + v.Symbol, "W at\nmost"}, labels: true}
	for _, r := range a.Settings {
		row := []string{r.title(), one(float64(r.Set)), ohmsText(r.single.Parts[0]), one(100 * r.single.position), v.Number(r.single.off), "–", "–", "–", "–"}
		watts := j.hottest(r.single.Stand)
		if r.pair.Parts != nil {
			join := " + "
			if r.pair.Join == gauge.Parallel {
				join = " ∥ "
			}
			copy(row[5:], []string{ohmsText(r.pair.Parts[0]) + join + ohmsText(r.pair.Parts[1]), quantity.Fixed(r.pair.Ohms, 2), one(100 * r.pair.position), v.Number(r.pair.off)})
			watts = math.Max(watts, j.hottest(r.pair.Stand))
		}
		g.add(append(row, quantity.Fixed(watts, 2))...)
	}
	return g
}

// writeDrawer tells what each part of a drawer must show by itself.
func (j *job) writeDrawer(w io.Writer, p *plan, rel *volume.Relation, stock []float64, at string) {
	v := j.sys.Volume
	fmt.Fprint(w, "\nEach of your parts as a check by itself.\n\n")
	g := grid{heads: []string{"part Ω", "needle at %", "in the tank " + v.Symbol, ""}, notes: true}
	for _, ohms := range stock {
		input := j.seen(ohms, at)
		litres, note := v.Number(j.rig.LitresNear(rel, input)), j.place(p.lines.Show(input))
		if _, err := j.rig.LitresAt(rel, input); err != nil {
			litres, note = "–", note+"; beyond the sender"
		}
		g.add(ohmsText(ohms), one(100*p.lines.Show(input)), litres, note)
	}
	g.write(w)
}

func (a benchAnswer) partsAdvice(j *job, series gauge.Series) []string {
	out := []string{"+ is one behind the other (series), ∥ is side by side (parallel)."}
	if series.Name != drawer {
		out = append(out, fmt.Sprintf("Off is told for parts of their printed value; those of %s may differ from it by ±%s %%. Measure, and pick.", series.Name, quantity.Fixed(100*series.Tolerance, 0)))
	} else {
		out = append(out, "Off is told for parts of the value given: measure them.")
	}
	feed := j.file.Conditioner.Feed
	switch d := j.file.Conditioner.Divider(); {
	case d != nil && feed.Supply > 0:
		out = append(out, fmt.Sprintf("Watts with %g V behind the pull-up of %g Ω.", feed.Supply, d.PullUp))
	case d != nil:
		out = append(out, fmt.Sprintf("Watts with %g V behind the pull-up of %g Ω; conditioner.supply tells yours.", charging, d.PullUp))
	default:
		out = append(out, fmt.Sprintf("Watts if the conditioner put all of %g V straight across the parts, which few do.", j.supply()))
	}
	return out
}

// ohmsText writes a resistor's value.
func ohmsText(v float64) string {
	switch {
	case v >= 1e6:
		return fmt.Sprintf("%.4gM", v/1e6)
	case v >= 1e3:
		return fmt.Sprintf("%.4gk", v/1e3)
	}
	return fmt.Sprintf("%.4g", v)
}
