package main

import (
	"bufio"
	"fmt"
	"io"
	"math"
	"slices"
	"strings"

	"floatarc/gauge/fault"
	"floatarc/tanks/quantity"
)

// A whyQuestion is a reading to ask for: its flag, how to take it, and what takes an answer.
type whyQuestion struct {
	flag, usage string
	asks, how   string // the whyQuestion, and where to hold the meter
	take        func(*fault.Readings, string) error
}

// needleWords are how the symptoms are asked for.
var needleWords = []struct {
	symptom fault.Symptom
	words   string
}{
	{fault.AlwaysFull, "stands at full whatever is in the tank"},
	{fault.AlwaysEmpty, "stands at empty whatever is in the tank"},
	{fault.Backwards, "runs backwards"},
	{fault.StaysPut, "stays put in between, or in a part of its sweep"},
	{fault.Jumps, "jumps or flickers"},
	{fault.Drifts, "drifts with the engine running"},
	{fault.RightFull, "is right when full and wrong below"},
	{fault.RightEmpty, "is right when empty and wrong above"},
	{fault.Right, "is right"},
}

// whyQuestions are all of them, in the order in which they cost least.
var whyQuestions = []whyQuestion{
	{"needle", "what the needle does, `SYMPTOM`: " + symptomList() + " (several by commas)",
		"What does the needle do: " + symptomList() + "?", needleHow(), takeNeedle},
	{"fuel", "roughly what is in the tank, a `SHARE` of full: 1/2", "Roughly what is in the tank (1/4, 60 %)?", "A share of a full tank. By a dipstick, or by what was filled in.", takeFuel},
	{"unplugged", "where the `NEEDLE` goes with the sender's plug pulled: full, empty or stays", "Ignition on, the sender's plug pulled at the tank: where does the needle go (full, empty, stays)?", "Pull the plug off the sender, away from vapour, and look.", takeMove(func(r *fault.Readings) *fault.Move { return &r.Unplugged })},
	{"earthed", "where the `NEEDLE` goes with the sender's wire held to earth at the tank: full, empty or stays", "Ignition on, the sender's wire held to earth at the tank for a second or two: where does the needle go (full, empty, stays)?", "The wire that leads to the gauge, its plug off the sender, on bare metal of the frame, outside the tank.", takeMove(func(r *fault.Readings) *fault.Move { return &r.Earthed })},
	{"sender", "`OHMS` across the sender itself, its plug pulled; or open", "Battery off: ohms across the sender itself, its plug pulled?", "One lead on the sender's terminal, one on its own body. Short the leads first and subtract what they show.", takeOhms(func(r *fault.Readings) *float64 { return &r.AtSender })},
	{"wire-end", "`OHMS` from the gauge's end of the wire to the battery's minus, the gauge off it and the sender plugged in; or open", "Battery off: ohms from the gauge's end of the sender's wire to the battery's minus, the sender plugged in?", "Take the wire off the gauge, or off the conditioner. One lead on it, one on the battery's minus post.", takeOhms(func(r *fault.Readings) *float64 { return &r.AtGauge })},
	{"sender-range", "`OHMS,OHMS` of the sender with its arm at empty and at full: 240,33", "Ohms of the sender itself with its arm at empty, and at full (240,33)?", "Best with the sender taken out, its arm moved by hand.", takePair(func(r *fault.Readings) (a, b *float64) { return &r.SenderEmpty, &r.SenderFull })},
	{"gauge-range", "`OHMS,OHMS` at which the gauge by itself stands at empty and at full: 10,180", "Ohms at which the gauge by itself stands at empty, and at full (10,180)?", "By its print, or with a decade box in place of the sender: never in the tank.", takePair(func(r *fault.Readings) (a, b *float64) { return &r.GaugeEmpty, &r.GaugeFull })},
	{"earth", "`OHMS` from the sender's body to the battery's minus", "Battery off: ohms from the sender's own body to the battery's minus?", "Long leads: short them first and subtract.", takeOhms(func(r *fault.Readings) *float64 { return &r.Earth })},
	{"earth-volts", "`VOLTS` from the sender's body to the battery's minus, engine and pumps running", "Engine and pumps running: volts from the sender's own body to the battery's minus?", "A good earth shows a few hundredths of a volt.", takeVolts},
}

func symptomList() string {
	var names []string
	for _, n := range needleWords {
		names = append(names, string(n.symptom))
	}
	return strings.Join(names, ", ")
}

func needleHow() string {
	var lines []string
	for _, n := range needleWords {
		lines = append(lines, fmt.Sprintf("%s: it %s", n.symptom, n.words))
	}
	return strings.Join(lines, "; ") + "."
}

func takeNeedle(r *fault.Readings, text string) error {
	var out []fault.Symptom
	for _, part := range strings.Split(text, ",") {
		s := fault.Symptom(strings.ToLower(strings.TrimSpace(part)))
		if !slices.Contains(fault.Symptoms, s) {
			return fmt.Errorf("%q, expected one of %s", strings.TrimSpace(part), symptomList())
		}
		if !slices.Contains(out, s) {
			out = append(out, s)
		}
	}
	r.Needle = out
	return nil
}

func takeFuel(r *fault.Readings, text string) error {
	q, err := quantity.Share.Parse(text)
	if err == nil && !(q.Value >= 0 && q.Value <= 1) {
		err = fmt.Errorf("%q, expected a share of full from 0 to 1 (1/2, 60 %%)", text)
	}
	if err == nil {
		r.Fuel = q.Value
	}
	return err
}

// openWords are how people write that a meter shows an open circuit.
var openWords = []string{"open", "ol", "o.l", "inf", "infinite", "1."}

// ohmsOf reads ohms as a meter shows them.
func ohmsOf(text string) (float64, error) {
	if slices.Contains(openWords, strings.ToLower(strings.TrimSpace(text))) {
		return math.Inf(1), nil
	}
	q, err := quantity.Resistance.Parse(text)
	switch {
	case err != nil:
		return 0, fmt.Errorf("%w, or open", err)
	case q.Value < 0:
		return 0, fmt.Errorf("%g ohm, expected 0 or more: a meter that shows less sees a current, so take the battery off", q.Value)
	case q.Value > fault.MostOhms:
		return 0, fmt.Errorf("%g ohm is more than a meter shows, expected open for an open circuit", q.Value)
	}
	return q.Value, nil
}

func takeOhms(into func(*fault.Readings) *float64) func(*fault.Readings, string) error {
	return func(r *fault.Readings, text string) error {
		v, err := ohmsOf(text)
		if err == nil {
			*into(r) = v
		}
		return err
	}
}

func takePair(into func(*fault.Readings) (a, b *float64)) func(*fault.Readings, string) error {
	return func(r *fault.Readings, text string) error {
		parts := strings.FieldsFunc(text, func(c rune) bool { return c == ',' || c == '–' })
		if len(parts) != 2 {
			return fmt.Errorf("expected two, at empty and at full, such as 240,33")
		}
		a, err := ohmsOf(strings.TrimSpace(parts[0]))
		if err != nil {
			return err
		}
		b, err := ohmsOf(strings.TrimSpace(parts[1]))
		if err != nil {
			return err
		}
		first, second := into(r)
		*first, *second = a, b
		return nil
	}
}

func takeVolts(r *fault.Readings, text string) error {
	q, err := quantity.Voltage.Parse(text)
	if err == nil {
		r.EarthVolts = q.Value
	}
	return err
}

func takeMove(into func(*fault.Readings) *fault.Move) func(*fault.Readings, string) error {
	return func(r *fault.Readings, text string) error {
		m := fault.Move(strings.ToLower(strings.TrimSpace(text)))
		if m != fault.ToFull && m != fault.ToEmpty && m != fault.Stays {
			return fmt.Errorf("%q, expected full, empty or stays", text)
		}
		*into(r) = m
		return nil
	}
}

// longestAnswer is more than anybody types.
const longestAnswer = 1 << 20

// askWhy asks for what is not known, one line each.
func askWhy(in io.Reader, out io.Writer, r *fault.Readings, known func(whyQuestion) bool) error {
	fmt.Fprintln(out, "An empty line: not known. ?: where to hold the meter. done: enough.")
	lines := bufio.NewScanner(in)
	lines.Buffer(nil, longestAnswer)
	for _, q := range whyQuestions {
		if known(q) {
			continue
		}
		for {
			fmt.Fprintf(out, "%s ", q.asks)
			if !lines.Scan() {
				fmt.Fprintln(out)
				return lines.Err()
			}
			text := strings.TrimSpace(lines.Text())
			if text == "" {
				break
			}
			if text == "done" {
				return nil
			}
			if text == "?" {
				writeWrapped(out, "  ", q.how)
				continue
			}
			err := q.take(r, text)
			if err == nil {
				err = r.Check()
			}
			if err == nil {
				break
			}
			writeWrapped(out, "  ! ", err.Error())
		}
	}
	return nil
}
