package main

import (
	"fmt"
	"math"
	"strings"

	"floatarc/gauge/fault"
	"floatarc/tanks/quantity"
)

// ohmWords write ohms as a meter shows them.
func ohmWords(v float64) string {
	if math.IsInf(v, 1) {
		return "open"
	}
	return quantity.Trimmed(v, 1) + " Ω"
}

// figure tells a reading with its numbers.
func (w *whySheet) figure(r fault.Reading) string {
	m := w.readings
	switch r {
	case fault.Needle:
		var words []string
		for _, s := range m.Needle {
			for _, n := range needleWords {
				if n.symptom == s {
					words = append(words, n.words)
				}
			}
		}
		return "the needle " + strings.Join(words, ", ")
	case fault.AtSender:
		return "the sender itself shows " + ohmWords(m.AtSender) + w.expected()
	case fault.AtGauge:
		return w.throughWire()
	case fault.Range:
		e, f := w.senderEnds()
		g, h := w.gaugeEnds()
		return fmt.Sprintf("the sender goes from %s (empty) to %s, the gauge wants %s to %s", ohmWords(e), ohmWords(f), ohmWords(g), ohmWords(h))
	case fault.Ends:
		return fmt.Sprintf("the sender shows %s with its arm at empty and %s at full", ohmWords(m.SenderEmpty), ohmWords(m.SenderFull))
	case fault.Earth:
		return fmt.Sprintf("%s from the sender's body to the battery's minus; a good earth has less than 0.5 Ω", ohmWords(m.Earth))
	case fault.EarthVolts:
		return fmt.Sprintf("%s V between the sender's body and the battery's minus with all running; a good earth has less than 0.1 V", quantity.Trimmed(m.EarthVolts, 2))
	case fault.Unplugged:
		return "with the plug pulled the needle " + moveWords(m.Unplugged)
	case fault.Earthed:
		return "with its wire held to earth the needle " + moveWords(m.Earthed)
	}
	return string(r)
}

func moveWords(m fault.Move) string {
	if m == fault.Stays {
		return "stays where it is"
	}
	return "goes to " + string(m)
}

// expected tells what a sound sender would show, as far as that is known.
func (w *whySheet) expected() string {
	e, f := w.senderEnds()
	switch {
	case !took(e) || math.IsInf(e, 0) || math.IsInf(f, 0):
		return ""
	case took(w.readings.Fuel):
		at := e + w.readings.Fuel*(f-e)
		if w.circuit.Sender != nil {
			at = w.circuit.Sender(w.readings.Fuel)
		}
		return fmt.Sprintf("; with that much fuel it should show about %s", ohmWords(at))
	}
	return fmt.Sprintf("; its range is %s to %s", ohmWords(e), ohmWords(f))
}

// throughWire compares the gauge's end of the wire with the sender.
func (w *whySheet) throughWire() string {
	m := w.readings
	if !took(m.AtSender) || math.IsInf(m.AtSender, 1) || math.IsInf(m.AtGauge, 1) {
		return "the gauge's end of the wire shows " + ohmWords(m.AtGauge)
	}
	d := m.AtGauge - m.AtSender
	words := fmt.Sprintf("the gauge's end of the wire shows %s, the sender itself %s", ohmWords(m.AtGauge), ohmWords(m.AtSender))
	if math.Abs(d) < 1.5 {
		return words + ": the wire and the earth add next to nothing"
	}
	if d < 0 {
		return words + ": something lies in parallel"
	}
	return words + fmt.Sprintf(": %s too much", ohmWords(d))
}

// senderEnds are the sender's ohms at empty and full: as read, or as the rig says; NaN if not known.
func (w *whySheet) senderEnds() (empty, full float64) {
	if took(w.readings.SenderEmpty) {
		return w.readings.SenderEmpty, w.readings.SenderFull
	}
	if w.circuit.Sender != nil {
		return w.circuit.Sender(0), w.circuit.Sender(1)
	}
	return math.NaN(), math.NaN()
}

func (w *whySheet) gaugeEnds() (empty, full float64) {
	if took(w.readings.GaugeEmpty) {
		return w.readings.GaugeEmpty, w.readings.GaugeFull
	}
	return w.circuit.GaugeEmpty, w.circuit.GaugeFull
}

// openSide is where a needle goes with an open wire, and where with an earthed one; "the one
// side" and "the other" where the gauge's range is not known.
func (w *whySheet) openSide() (open, earthed string) {
	e, f := w.gaugeEnds()
	switch {
	case !took(e) || !took(f):
		return "one end of its sweep", "the other end"
	case f > e:
		return "full", "empty"
	}
	return "empty", "full"
}

// verdict says how sure it is.
func (w *whySheet) verdict() string {
	first := w.verdicts[0]
	name := string(first.Cause)
	switch {
	case first.Cause == fault.None && fault.Sure(w.verdicts):
		return "Nothing that was seen or measured speaks for a fault: what remains is the shape of the tank, which floatarc points tells."
	case len(first.For) == 0:
		return "Nothing to go by yet: " + w.cannot()
	case first.Cause == fault.None:
		return "A sound circuit fits best, but it is not sure: " + w.cannot()
	case fault.Sure(w.verdicts):
		return capital(name) + " it is, as good as certainly: prove it by the test below before you change anything."
	}
	return capital(name) + " fits best, but it is not sure: " + w.cannot()
}

// otherSender tells that the sender's own readings are not those of the file.
func (w *whySheet) otherSender() string {
	m := w.readings
	if w.job == nil || !took(m.SenderEmpty) || math.IsInf(m.SenderEmpty, 1) || math.IsInf(m.SenderFull, 1) {
		return ""
	}
	e, f := w.circuit.Sender(0), w.circuit.Sender(1)
	if off := 0.1 * math.Abs(f-e); math.Abs(m.SenderEmpty-e) < off && math.Abs(m.SenderFull-f) < off {
		return ""
	}
	return fmt.Sprintf("The file's sender goes from %s (empty) to %s, the one that was measured from %s to %s: put what was measured into the file, or measure again; here what was measured counts.",
		ohmWords(e), ohmWords(f), ohmWords(m.SenderEmpty), ohmWords(m.SenderFull))
}

// besides tells that ranges do not go together, where something else is found to be wrong: one
// fault at a time is looked for.
func (w *whySheet) besides() string {
	first := w.verdicts[0]
	if first.Cause == fault.Reversed || first.Cause == fault.WrongRange {
		return ""
	}
	for _, a := range first.Against {
		if a.Reading == fault.Range {
			return "Besides, whatever else is wrong: " + w.figure(fault.Range) + "."
		}
	}
	return ""
}

// cannot tells which causes the readings leave standing.
func (w *whySheet) cannot() string {
	if fault.Sure(w.verdicts) {
		return ""
	}
	var names []string
	for _, v := range fault.Standing(w.verdicts) {
		name := string(v.Cause)
		if v.Cause == fault.None {
			name = "nothing being wrong"
		}
		names = append(names, name)
	}
	switch {
	case len(w.verdicts[0].For) == 0:
		return "nothing that was given speaks for any fault yet, and this is only what is met most often."
	case len(names) < 2:
		return "it takes another reading to act on it."
	}
	return "the readings do not tell apart " + strings.Join(names[:len(names)-1], ", ") + " and " + names[len(names)-1] + "."
}

// leastBits is how little a reading may tell and still be asked for.
const leastBits = 0.05

// measureNext tells which reading would narrow it down the most.
func (w *whySheet) measureNext() string {
	if fault.Sure(w.verdicts) || len(w.asked) == 0 || w.asked[0].Bits < leastBits {
		return ""
	}
	flags := map[fault.Reading]string{
		fault.Needle: "needle", fault.AtSender: "sender", fault.AtGauge: "wire-end", fault.Range: "gauge-range", fault.Ends: "sender-range",
		fault.Earth: "earth", fault.EarthVolts: "earth-volts", fault.Unplugged: "unplugged", fault.Earthed: "earthed", fault.Fuel: "fuel",
	}
	flag := flags[w.asked[0].Reading]
	for _, q := range whyQuestions {
		if q.flag == flag {
			return fmt.Sprintf("%s %s (--%s)", q.asks, q.how, q.flag)
		}
	}
	return ""
}
