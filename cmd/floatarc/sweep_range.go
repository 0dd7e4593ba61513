package main

import (
	"math"
	"strconv"
	"strings"

	"floatarc/tanks"
	"floatarc/tanks/quantity"
)

// mostSettings bounds how many values one sweep tries.
const mostSettings = 500

// A setting is one value of the key that is swept.
type setting struct {
	bare float64 // in the key's own unit
	read float64 // as people read it
}

// A reading is how people read the values of a key.
type reading struct {
	symbol string
	of     func(bare float64) float64
	whole  bool
}

// A typed is a number as somebody wrote it.
type typed struct {
	number float64
	scale  quantity.Scale
}

const rangeForm = `expected FROM:TO:STEP such as 200:260:10 or "8 in:12 in:1/2 in", or a list such as 200,210,230`

// cutRange cuts a range at its colons, or a list at its commas.
func cutRange(text string) (parts []string, list bool, err error) {
	if parts = strings.Split(text, ":"); len(parts) == 1 {
		parts, list = strings.Split(text, ","), true
	}
	if list && len(parts) < 2 || !list && len(parts) != 3 {
		return nil, false, misusef("sweep %q: %s", text, rangeForm)
	}
	if len(parts) > mostSettings {
		return nil, false, misusef("sweep: %d values, expected at most %d", len(parts), mostSettings)
	}
	return parts, list, nil
}

// rangeOf reads a range or a list of values of a figure, and how people are to read them: in
// the units in which they are written, or else in those of a system.
func rangeOf(text string, f *tanks.Figure, sys quantity.System) ([]setting, reading, error) {
	parts, list, err := cutRange(text)
	if err != nil {
		return nil, reading{}, err
	}
	var all []typed
	for _, p := range parts {
		w, err := typedAs(p, f)
		if err != nil {
			return nil, reading{}, misusef("sweep %s: %v", f.Key, err)
		}
		all = append(all, w)
	}
	numbers, scale, err := onOneScale(text, all, list)
	if err == nil && !list {
		numbers, err = steps(text, numbers[0], numbers[1], numbers[2])
	}
	if err != nil {
		return nil, reading{}, err
	}
	r := readingOf(f, scale, sys)
	var out []setting
	for _, n := range numbers {
		s := setting{scale.Bare(n), n}
		if scale.Symbol == "" {
			s.read = r.of(s.bare)
		}
		out = append(out, s)
	}
	return out, r, distinct(text, out)
}

// typedAs reads one number of a range.
func typedAs(text string, f *tanks.Figure) (typed, error) {
	if f.Dimension != nil {
		n, scale, err := f.Dimension.OnScale(text)
		return typed{n, scale}, err
	}
	n, err := strconv.ParseInt(strings.TrimSpace(text), 10, 32)
	if err != nil {
		return typed{}, misusef("%q, expected a whole number", text)
	}
	return typed{number: float64(n)}, nil
}

// onOneScale brings numbers onto one scale: that on which all are written, or else one in
// which steps are as even as on the others. The units of a list may not be mixed: one at
// the end may be meant for all.
func onOneScale(text string, all []typed, list bool) ([]float64, quantity.Scale, error) {
	last := all[len(all)-1].scale
	same, plain := true, true
	for _, w := range all {
		same = same && w.scale.Same(last) && (w.scale.Symbol == "") == (last.Symbol == "")
		plain = plain && w.scale.Plain()
	}
	switch {
	case same:
	case list:
		return nil, last, misusef("sweep %q: units of several kinds, expected the same behind every number, or behind none (a decimal comma? write a decimal point)", text)
	case !plain:
		return nil, last, misusef(`sweep %q: a unit that does not step evenly in others, expected it behind all three, such as "10 %%:30 %%:5 %%"`, text)
	}
	var out []float64
	for _, w := range all {
		if same {
			out = append(out, w.number)
		} else {
			out = append(out, last.Of(w.scale.Bare(w.number)))
		}
	}
	return out, last, nil
}

// rounding is by how much of a step a range may miss its end and still hold it.
const rounding = 1e-9

// steps returns the numbers from one to another, both included where the steps meet them.
func steps(text string, from, to, step float64) ([]float64, error) {
	step = math.Abs(step)
	count := math.Abs(to-from) / step
	switch {
	case step == 0:
		return nil, misusef("sweep %q: a step of 0, expected one that moves", text)
	case from == to:
		return nil, misusef("sweep %q: from %g to %[2]g, expected two that differ", text, from)
	case !(count >= 1-rounding):
		return nil, misusef("sweep %q: the step is more than the way from the first to the last value, expected less (bare numbers are in the key's own unit, whatever stands behind the others)", text)
	case !(count < mostSettings):
		return nil, misusef("sweep %q: %.0f values, expected at most %d", text, math.Floor(count)+1, mostSettings)
	}
	step = math.Copysign(step, to-from)
	n := int(math.Floor(count + rounding))
	out := []float64{from}
	for i := 1; i <= n; i++ {
		out = append(out, tidied(from+float64(i)*step))
	}
	if math.Abs(count-float64(n)) <= rounding {
		out[n] = to
	}
	return out, nil
}

// tidied rounds away what a sum of decimals leaves behind its twelfth digit.
func tidied(v float64) float64 {
	near, err := strconv.ParseFloat(strconv.FormatFloat(v, 'g', 12, 64), 64)
	if err != nil {
		return v
	}
	return near
}

// distinct refuses values that stand twice, and those that are no number in the key's unit.
func distinct(text string, settings []setting) error {
	seen := map[float64]bool{}
	for _, s := range settings {
		if math.IsNaN(s.bare) || math.IsInf(s.bare, 0) {
			return misusef("sweep %q: %g is no value there, expected finite numbers", text, s.read)
		}
		if seen[s.bare] {
			return misusef("sweep %q: no progress at %g, expected values that differ", text, s.read)
		}
		seen[s.bare] = true
	}
	return nil
}

// readingOf returns how people read the values of a figure.
func readingOf(f *tanks.Figure, scale quantity.Scale, sys quantity.System) reading {
	switch {
	case f.Dimension == nil:
		return reading{"", scale.Of, true}
	case scale.Symbol != "":
		return reading{scale.Symbol, scale.Of, false}
	}
	as := shownIn(f.Dimension.Bare, sys)
	return reading{as.symbol, as.of, false}
}
