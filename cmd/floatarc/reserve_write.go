package main

import (
	"fmt"
	"io"
	"math"
	"slices"
	"strings"

	"floatarc/calibration/reserve"
	"floatarc/geometry"
	"floatarc/tanks/quantity"
)

func (s *lampSheet) write(w io.Writer) {
	fmt.Fprintf(w, "%s\n", s.file.Name)
	writeWrapped(w, "", s.promiseWords())
	fmt.Fprintln(w)
	switch {
	case s.refused != nil:
		s.writeRefusal(w)
	case s.flags.card:
		s.writeCard(w)
	default:
		s.writeLamp(w)
	}
	s.writeUncertainty(w)
	writeWarnings(w, s.Warnings)
}

// writeLamp tells all about the lamp.
func (s *lampSheet) writeLamp(w io.Writer) {
	writeWrapped(w, "", s.lampWords())
	fmt.Fprintln(w)
	s.writeLights(w)
	fmt.Fprintln(w)
	if !s.promise.Envelope.Level() {
		s.writeChoices(w)
		fmt.Fprintln(w)
		s.writeAttitudes(w)
		fmt.Fprintln(w)
	}
	for _, line := range s.boxWords() {
		writeWrapped(w, "", line)
	}
	if s.flags.cures {
		fmt.Fprintln(w)
		s.writeCures(w)
	}
}

// promised tells the reserve.
func (s *lampSheet) promised() string {
	use, litres := s.file.Use, s.sys.Volume.Text(s.promise.Reserve)
	switch {
	case use.Distance > 0:
		return fmt.Sprintf("%s (%s)", s.sys.Distance.Text(use.Distance), litres)
	case use.Time > 0:
		return fmt.Sprintf("%s (%s)", timeText(use.Time), litres)
	}
	return litres
}

// promiseWords tells what is promised.
func (s *lampSheet) promiseWords() string {
	use, what := s.file.Use, s.promised()
	if s.promise.Envelope.Level() {
		return fmt.Sprintf("Promise: when the lamp lights, %s can still be drawn, on level ground alone.", what)
	}
	slopes := fmt.Sprintf("climbs and descents of up to %s and leans of up to %s", gradeText(use.Grade), gradeText(use.SideSlope))
	if use.Along > 0 {
		slopes += fmt.Sprintf(", with %s g of speeding up or braking", quantity.Fixed(use.Along, 2))
	}
	if use.Across > 0 {
		slopes += fmt.Sprintf(", with %s g of cornering", quantity.Fixed(use.Across, 2))
	}
	if use.Along > 0 || use.Across > 0 {
		slopes += fmt.Sprintf(" on top (added as vectors, as if on slopes of %s° and %s°)", one(s.promise.Envelope.NoseUp), one(s.promise.Envelope.LeftUp))
	}
	return fmt.Sprintf("Promise: on %s, wherever the lamp lights, %s can still be drawn, even if the last of it is needed on the worst other slope.", slopes, what)
}

// gradeText writes an angle as a grade and in degrees.
func gradeText(degrees float64) string {
	return fmt.Sprintf("%s %% (%s°)", quantity.Fixed(percentOf(degrees), 0), one(degrees))
}

// percentOf returns the grade of an angle in percent.
func percentOf(degrees float64) float64 { return 100 * math.Tan(degrees*math.Pi/180) }

// timeText writes hours and minutes.
func timeText(hours float64) string {
	minutes := int(math.Round(hours * 60))
	switch h, m := minutes/60, minutes%60; {
	case h == 0:
		return fmt.Sprintf("%d min", m)
	case m == 0:
		return fmt.Sprintf("%d h", h)
	default:
		return fmt.Sprintf("%d h %d min", h, m)
	}
}

// lasts tells how far or how long litres go; a dash where that is not known.
func (s *lampSheet) lasts(litres float64) string {
	use := s.file.Use
	switch {
	case math.IsNaN(litres), litres < 0:
		return "–"
	case use.PerDistance > 0:
		return s.sys.Distance.Text(use.Range(litres))
	case use.PerTime > 0:
		return timeText(use.Hours(litres))
	}
	return "–"
}

// lampWords tells where to set the lamp.
func (s *lampSheet) lampWords() string {
	over, under := "at %s Ω and above", "below %s Ω"
	if s.Lights == "below" {
		over, under = "at %s Ω and below", "above %s Ω"
	}
	words := fmt.Sprintf("Light the lamp "+over+" at the terminals; put it out "+under+".", ohmText(s.On), ohmText(s.Off))
	if d := float64(s.Delay); !math.IsNaN(d) {
		words += fmt.Sprintf(" Either must last for %s s.", quantity.Fixed(d, 0))
	}
	words += fmt.Sprintf(" The sender alone, its plug pulled, then shows %s and %s Ω.", ohmText(s.OnSender), ohmText(s.OffSender))
	return words + s.settingWords()
}

// settingWords tell what to set the box to, where that is known.
func (s *lampSheet) settingWords() string {
	v := s.sys.Volume
	on, off := quantity.Trimmed(float64(s.OnSet), 3), quantity.Trimmed(float64(s.OffSet), 3)
	switch {
	case math.IsNaN(float64(s.OnSet)):
		return ""
	case math.IsNaN(float64(s.OffSet)):
		return fmt.Sprintf(" On this box, set to the safe side: %s Ω, with %s on level ground.", on, v.Text(float64(s.WarnSet)))
	}
	return fmt.Sprintf(" On this box, set to the safe side: %s and %s Ω, with %s and %s on level ground.", on, off, v.Text(float64(s.WarnSet)), v.Text(float64(s.OutSet)))
}

// writeLights tells with how much the lamp lights.
func (s *lampSheet) writeLights(w io.Writer) {
	v := s.sys.Volume
	g := grid{heads: []string{"The lamp lights", "in the\ntank " + v.Symbol, "can be\ndrawn " + v.Symbol, "lasts", "where"}, labels: true, notes: true}
	row := func(label string, litres, usable float64, where string) {
		g.add(label, v.Number(litres), v.Number(usable), s.lasts(usable), where)
	}
	row("on level ground", float64(s.Warn), float64(s.WarnUsable), "a sender as it is meant to be")
	if !s.promise.Envelope.Level() || s.promise.Tolerance > 0 || s.promise.Winding.Steps > 0 {
		worst, best := s.warning.Unusable, s.warning.Least
		full := math.Min(float64(s.Earliest.Litres), s.rig.Tank.Full)
		row("the latest", float64(s.Latest.Litres), float64(s.Latest.Litres)-worst.Litres, fmt.Sprintf("lit: %s\ndrawn at worst: %s", slopeWords(s.warning.Latest.Attitude), slopeWords(worst.Attitude)))
		row("the earliest", full, full-best.Litres, fmt.Sprintf("lit: %s\ndrawn at best: %s", slopeWords(s.warning.Earliest.Attitude), slopeWords(best.Attitude)))
	}
	g.write(w)
}

// slopeWords tells an attitude shortly.
func slopeWords(a geometry.Attitude) string {
	tenth := func(x float64) float64 { return math.Round(10*x)/10 + 0 }
	nose, left := tenth(a.NoseUp), tenth(a.LeftUp)
	part := func(x float64, up, down string) string {
		if x < 0 {
			return fmt.Sprintf("%s %s°", down, one(-x))
		}
		return fmt.Sprintf("%s %s°", up, one(x))
	}
	switch {
	case nose == 0 && left == 0:
		return "level"
	case left == 0:
		return part(nose, "nose up", "nose down")
	case nose == 0:
		return part(left, "left up", "right up")
	}
	return part(nose, "nose up", "nose down") + ", " + part(left, "left up", "right up")
}

// atWords tells an attitude in a sentence.
func atWords(a geometry.Attitude) string {
	if words := slopeWords(a); words != "level" {
		return "standing " + words + ","
	}
	return "on level ground"
}

// writeChoices tells what simpler lamps would give.
func (s *lampSheet) writeChoices(w io.Writer) {
	v := s.sys.Volume
	g := grid{heads: []string{"A lamp for", "lights\nat Ω", "on level\nground " + v.Symbol, "left at the\nworst " + v.Symbol, "lasts", ""}, labels: true, notes: true}
	for _, c := range []struct {
		name string
		lampChoice
	}{{"this promise", s.Chosen}, {"level ground", s.Level}, {"a steady slope", s.Steady}} {
		g.add(c.name, known(float64(c.On), one), known(float64(c.Warn), v.Number), known(float64(c.Left), v.Number), s.lasts(float64(c.Left)), s.verdict(c.lampChoice))
	}
	g.write(w)
}

// promised is the share of the capacity to which a promise is kept.
const promised = 1e-3

// verdict tells whether a lamp keeps the promise.
func (s *lampSheet) verdict(c lampChoice) string {
	v := s.sys.Volume
	switch short := float64(c.Short); {
	case math.IsNaN(short):
		return "none does it"
	case float64(c.Left) < 0:
		return fmt.Sprintf("breaks it, dry %s before", v.Text(-float64(c.Left)))
	case short > promised*s.file.Tank.Capacity:
		return fmt.Sprintf("breaks it, %s short", v.Text(short))
	}
	return "keeps it"
}

// writeAttitudes tells what there is on each slope; leans to either side together
// where they are alike.
func (s *lampSheet) writeAttitudes(w io.Writer) {
	v := s.sys.Volume
	g := grid{heads: []string{"With the sender at its unlucky end", "it lights\nwith " + v.Symbol, "unusable\nthere " + v.Symbol, "can be drawn\nthere " + v.Symbol}, labels: true}
	figures := func(r reserve.Row) [3]string {
		return [3]string{v.Number(r.LightsAt), v.Number(r.Unusable), v.Number(r.Usable())}
	}
	rows := s.warning.Rows
	mirrored := func(r reserve.Row, sign float64) bool {
		return r.Attitude.LeftUp*sign > 0 && slices.ContainsFunc(rows, func(o reserve.Row) bool {
			return o.Attitude.NoseUp == r.Attitude.NoseUp && o.Attitude.LeftUp == -r.Attitude.LeftUp && figures(o) == figures(r)
		})
	}
	for _, r := range rows {
		words := slopeWords(r.Attitude)
		switch {
		case mirrored(r, -1):
			continue
		case mirrored(r, 1):
			words = strings.Replace(words, "left up", "either side up", 1)
		}
		f := figures(r)
		g.add(words, f[0], f[1], f[2])
	}
	g.write(w)
}

// boxWords tell how the lamp behaves, and where other boxes trip.
func (s *lampSheet) boxWords() []string {
	v := s.sys.Volume
	var out []string
	if !s.promise.Envelope.Level() {
		out = append(out, fmt.Sprintf("Out again: a lit lamp stays lit on all slopes of ordinary driving, taken as %s %% of those promised; on level ground it goes out with %s (rising).",
			quantity.Fixed(100*float64(s.Ordinary), 0), v.Text(float64(s.OffLitres))))
	} else {
		out = append(out, fmt.Sprintf("Out again with %s (rising).", v.Text(float64(s.OffLitres))))
	}
	if !math.IsNaN(float64(s.Delay)) {
		kind := fmt.Sprintf("a rectangular tank %s long", s.sys.Length.Text(float64(s.Slosh.Length)))
		if s.Slosh.Round {
			kind = fmt.Sprintf("an upright cylinder %s across", s.sys.Length.Text(float64(s.Slosh.Length)))
		}
		line := fmt.Sprintf("Delay: the fuel sloshes once in %s s, as in %s with %s of fuel; the lamp waits for %d of that.",
			one(float64(s.Slosh.Period)), kind, s.sys.Length.Text(float64(s.Slosh.Depth)), s.Slosh.Cycles)
		if !math.IsNaN(float64(s.DelayTakes)) {
			line += fmt.Sprintf(" The engine takes %s meanwhile, which the promise does not count.", v.Finer(1).Text(float64(s.DelayTakes)))
		}
		out = append(out, line)
	}
	out = append(out, fmt.Sprintf("Proof with a fuel can, on level ground%s: drained slowly, the lamp must light between %s and %s in the tank; filled up again, it goes out with about %s.",
		map[bool]string{true: ", the box set so", false: ""}[!math.IsNaN(float64(s.OnSet))], v.Text(float64(s.ProofMost)), v.Text(float64(s.ProofLeast)), v.Text(s.outLitres())))
	return append(out, s.tripWords()...)
}

// outLitres is what is in the tank when the lamp goes out on level ground, on the box
// where it tells its settings.
func (s *lampSheet) outLitres() float64 {
	if litres := float64(s.OutSet); !math.IsNaN(litres) {
		return litres
	}
	return float64(s.OffLitres)
}

// tripWords tell the lamp for boxes that trip on something else.
func (s *lampSheet) tripWords() []string {
	var out []string
	if v := float64(s.OnVolts); !math.IsNaN(v) {
		out = append(out, fmt.Sprintf("Over the terminals: on at %s V and %s, out at %s V.", quantity.Fixed(v, 3), s.Lights, quantity.Fixed(float64(s.OffVolts), 3)))
	}
	if s.plan == nil {
		return out
	}
	name := map[string]string{atMarks: "the points at the marks", free: "the best points"}[s.plan.method]
	if math.IsNaN(float64(s.OnPlace)) {
		end := "before the lamp lights"
		if first, last := s.plan.ends(); s.promise.Falls() && float64(s.On) <= first || !s.promise.Falls() && float64(s.On) >= last {
			end = "still when the lamp lights"
		}
		return append(out, fmt.Sprintf("By the needle: with %s it rests on its end %s, so that a box which trips on the needle or on its own output cannot tell. Use the ohms.", name, end))
	}
	line := fmt.Sprintf("By the needle, with %s: on at %s %% of the dial, %s", name, one(100*float64(s.OnPlace)), s.place(float64(s.OnPlace)))
	if !math.IsNaN(float64(s.OffPlace)) {
		line += fmt.Sprintf("; out at %s %%, %s", one(100*float64(s.OffPlace)), s.place(float64(s.OffPlace)))
	}
	out = append(out, line+".")
	drive := ""
	if s.rig.Conditioner.Needle != nil {
		drive = fmt.Sprintf(" In the gauge's drive: on at %.4g, out at %s.", float64(s.OnDrive), known(float64(s.OffDrive), func(x float64) string { return fmt.Sprintf("%.4g", x) }))
	}
	return append(out, fmt.Sprintf("By the conditioner's output, 0 on the empty and 1 on the full mark: on at %s, out at %s.%s",
		quantity.Fixed(float64(s.OnPlace), 3), known(float64(s.OffPlace), func(x float64) string { return quantity.Fixed(x, 3) }), drive))
}
