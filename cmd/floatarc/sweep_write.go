package main

import (
	"fmt"
	"io"
	"slices"
	"strings"

	"floatarc/tanks/quantity"
)

// mostDecimals bounds those of a value that was turned into another unit.
const mostDecimals = 4

// decimals is how many the steps of the sweep need.
func (s *sweep) decimals() int {
	most := 0
	for _, w := range s.rows {
		for !w.own && most < mostDecimals && quantity.Trimmed(w.read, mostDecimals) != quantity.Trimmed(w.read, most) {
			most++
		}
	}
	return most
}

// number writes the value of a row without its unit.
func (s *sweep) number(w *weighed) string {
	switch {
	case isKnown(w.bare) && w.own && !s.read.whole:
		return quantity.Trimmed(w.read, min(s.decimals()+2, mostDecimals))
	case isKnown(w.bare):
		return quantity.Fixed(w.read, s.decimals())
	case s.figure.Given:
		return s.figure.Text
	}
	return "not given"
}

// shown writes the value of a row as people read it.
func (s *sweep) shown(w *weighed) string {
	if !isKnown(w.bare) || s.read.symbol == "" {
		return s.number(w)
	}
	return s.number(w) + gap(s.read.symbol) + s.read.symbol
}

// gap is what stands between a number and its unit.
func gap(symbol string) string {
	if symbol == "°" {
		return ""
	}
	return " "
}

// write prints the table and what it comes to.
func (s *sweep) write(w io.Writer, a sweepAnswer) {
	fmt.Fprintf(w, "%s\nWhat comes of %s, the points planned anew for each value. Vehicle on level ground.\n\n", s.sample.file.Name, s.figure.Key)
	g := s.table(a)
	g.write(w)
	s.writeNoLamp(w)
	fmt.Fprintln(w)
	s.writeVerdict(w)
	if a.Picture != "" {
		fmt.Fprintf(w, "\n%s\n", a.Picture)
	}
}

// table is the grid of all rows.
func (s *sweep) table(a sweepAnswer) grid {
	v := s.sample.sys.Volume
	head := s.figure.Key[strings.LastIndexByte(s.figure.Key, '.')+1:]
	if s.read.symbol != "" {
		head += "\n" + s.read.symbol
	}
	blind := s.blind()
	straight := slices.ContainsFunc(a.Rows, func(r sweepRow) bool { return isKnown(float64(r.Straight)) })
	lamp := s.changes(latestLamp) || s.bestOf(latestLamp) != nil
	optional := func(cells []string, when bool, cell string) []string {
		if when {
			return append(cells, cell)
		}
		return cells
	}
	heads := []string{head, "live band\n" + v.Symbol, "\n%", "marks*\n%", "\n" + v.Symbol}
	heads = append(optional(heads, blind, "away\n%"), "best*\n%", "\n"+v.Symbol)
	heads = optional(optional(heads, blind, "away\n%"), straight, "straight\n%")
	g := grid{heads: append(optional(heads, lamp, "lamp\n"+v.Symbol), ""), notes: true}
	percent := func(n number) string {
		return known(float64(n), func(v float64) string { return quantity.Fixed(v, 2) })
	}
	litres := func(n number) string { return known(float64(n), v.Number) }
	for i, r := range a.Rows {
		cells := []string{s.number(s.rows[i]), span(float64(r.LiveLow), float64(r.LiveHigh), v.Of, 1), span(float64(r.LiveLowShare), float64(r.LiveHighShare), hundredfold, 0), percent(r.Marks), litres(r.MarksLitres)}
		cells = append(optional(cells, blind, percent(r.MarksAway)), percent(r.Best), litres(r.BestLitres))
		cells = optional(optional(cells, blind, percent(r.BestAway)), straight, percent(r.Straight))
		g.add(append(optional(cells, lamp, litres(r.Warn)), s.note(i, a.Rows))...)
	}
	return g
}

func hundredfold(v float64) float64 { return 100 * v }

// span writes from where to where.
func span(low, high float64, of func(float64) float64, decimals int) string {
	return known(low, func(float64) string {
		return quantity.Fixed(of(low), decimals) + " – " + quantity.Fixed(of(high), decimals)
	})
}

// noteWide is how wide a note beside the table is, in letters.
const noteWide = 44

// note is what stands beside a row.
func (s *sweep) note(i int, rows []sweepRow) string {
	var words []string
	r := rows[i]
	if r.Current {
		words = append(words, "← now")
	}
	switch {
	case r.Refused != "" && i > 0 && rows[i-1].Refused == r.Refused:
		words = append(words, "refused, as above")
	case r.Refused != "":
		words = append(words, "refused: "+r.Refused)
	case r.NoLamp != "" && s.bestOf(latestLamp) != nil:
		words = append(words, "no lamp in time")
	}
	return folded(strings.Join(words, "; "), noteWide)
}

// folded breaks a text at words into lines of a width.
func folded(text string, wide int) string {
	var b strings.Builder
	line := 0
	for _, word := range strings.Fields(text) {
		n := len([]rune(word))
		switch {
		case line == 0:
		case line+1+n > wide:
			b.WriteByte('\n')
			line = 0
		default:
			b.WriteByte(' ')
			line++
		}
		b.WriteString(word)
		line += n
	}
	return b.String()
}
