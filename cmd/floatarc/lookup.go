package main

import (
	"encoding/json"
	"fmt"
	"io"
	"math"
	"strings"

	"github.com/spf13/cobra"

	"floatarc/calibration"
	"floatarc/gauge"
	"floatarc/tanks/quantity"
)

// lookupFlags ask for a table for a program of one's own.
type lookupFlags struct {
	format string // csv, c or json; empty for none
	rows   int
}

func (f *lookupFlags) register(c *cobra.Command) {
	c.Flags().StringVar(&f.format, "table", "", "instead, a lookup table for a microcontroller, as `FORMAT` csv, c or json: ohms, or counts of conditioner.adc_bits, to litres (always litres) and position")
	c.Flags().IntVar(&f.rows, "rows", 33, "`NUMBER` of rows of that table")
}

func (f *lookupFlags) check(c *cobra.Command) error {
	f.format = strings.ToLower(f.format)
	switch f.format {
	case "csv", "c", "json":
	case "":
		if c.Flags().Changed("table") {
			return misusef("--table \"\", expected csv, c or json")
		}
		if c.Flags().Changed("rows") {
			return misusef("--rows without --table, expected both")
		}
	default:
		return misusef("--table %s, expected csv, c or json", f.format)
	}
	for _, other := range []string{"json", "csv", "units", "method", "never-over", "round", "nose-up", "left-up"} {
		if f.format != "" && c.Flags().Changed(other) {
			return misusef("--table with --%s, expected it left out: a table tells the truth on level ground, in ohms and litres", other)
		}
	}
	if f.rows < 2 || f.rows > 10000 {
		return misusef("--rows %d, expected 2 to 10000", f.rows)
	}
	return nil
}

type lookupRow struct {
	Input    number `json:"input_ohms"`
	Count    *int   `json:"count,omitempty"`
	Litres   number `json:"litres"`
	Position number `json:"position"`
}

type lookupAnswer struct {
	Name     string      `json:"name"`
	Notes    []string    `json:"notes"`
	OffL     number      `json:"interpolation_error_l"`
	OffPct   number      `json:"interpolation_error_pct"`
	PerCount number      `json:"per_count_l"`
	Shorted  number      `json:"shorted_below_ohms"`
	Open     number      `json:"open_above_ohms"`
	Rows     []lookupRow `json:"rows"`
}

// writeLookup writes the table for programs: always in ohms and litres.
func (j *job) writeLookup(w io.Writer, f lookupFlags) error {
	box := j.file.Conditioner
	t, err := j.rig.Lookup(f.rows, j.file.Sender.Tolerance)
	if err != nil {
		return fmt.Errorf("%s: %w", j.file.File, err)
	}
	notes := j.lookupNotes(t)
	switch f.format {
	case "csv":
		return writeLookupCSV(w, t, notes, box.Feed.Converter)
	case "c":
		return j.writeLookupC(w, t, notes)
	}
	a := lookupAnswer{Name: j.file.Name, Notes: notes, OffL: number(t.LitresOff), OffPct: number(t.PercentOff), PerCount: unknown, Shorted: unknown, Open: number(t.Open)}
	if t.Shorted > 0 {
		a.Shorted = number(t.Shorted)
	}
	if box.Feed.Converter != nil {
		a.PerCount = number(t.PerCount)
	}
	for _, r := range t.Rows {
		row := lookupRow{Input: number(r.Input), Litres: number(r.Litres), Position: number(r.Position)}
		if box.Feed.Converter != nil {
			row.Count = &r.Count
		}
		a.Rows = append(a.Rows, row)
	}
	e := json.NewEncoder(w)
	e.SetIndent("", "  ")
	return e.Encode(a)
}

// lookupNotes say what the table is, and what it is worth.
func (j *job) lookupNotes(t *calibration.Lookup) []string {
	box := j.file.Conditioner
	what := "input at the terminals in ohm"
	if box.Feed.Converter != nil {
		what = fmt.Sprintf("count of %d bits over the sender (pull-up %g ohm)", box.Feed.Converter.Bits, box.Divider().PullUp)
	}
	notes := []string{
		j.file.Name,
		fmt.Sprintf("%d rows: %s, litres in the tank, needle position 0 (empty mark) to 1 (full mark); level ground, mean of rising and falling fuel", len(t.Rows), what),
		fmt.Sprintf("straight lines between rows are off by at most %.3g L and %.3g %% of the dial; litres %s all the way (checked)", t.LitresOff, t.PercentOff, j.direction(t)),
	}
	if box.Feed.Converter != nil {
		notes = append(notes, fmt.Sprintf("one count stands for at most %.3g L", t.PerCount))
	}
	notes = append(notes, j.endNotes(t)...)
	notes = append(notes, j.faultNotes(t)...)
	return append(notes, "fuel is dangerous: prove the table with a fuel can before anyone relies on it")
}

func (j *job) direction(t *calibration.Lookup) string {
	if t.Rows[len(t.Rows)-1].Litres > t.Rows[0].Litres {
		return "rise"
	}
	return "fall"
}

// endNotes tell what a reading at an end of the table does not.
func (j *job) endNotes(t *calibration.Lookup) []string {
	var notes []string
	first, last := t.Rows[0], t.Rows[len(t.Rows)-1]
	if first.Litres > last.Litres {
		first, last = last, first
	}
	key := func(r calibration.LookupRow) string {
		if j.file.Conditioner.Feed.Converter != nil {
			return fmt.Sprintf("count %d", r.Count)
		}
		return fmt.Sprintf("%.4g ohm", r.Input)
	}
	if first.Litres > j.rig.Dial.Empty+edge(j) {
		notes = append(notes, fmt.Sprintf("WARNING: at the end, %s, there may be anything from %.2f L down to empty", key(first), first.Litres))
	}
	if last.Litres < j.rig.Tank.Full-edge(j) {
		notes = append(notes, fmt.Sprintf("WARNING: at the end, %s, there may be anything from %.2f L up to %.2f L, full", key(last), last.Litres, j.rig.Tank.Full))
	}
	return notes
}

// faultNotes tell readings that no healthy sender gives.
func (j *job) faultNotes(t *calibration.Lookup) []string {
	box := j.file.Conditioner
	at := func(ohms float64) string {
		if box.Feed.Converter == nil {
			return fmt.Sprintf("%.4g ohm", ohms)
		}
		return fmt.Sprintf("%.4g ohm (count %d)", ohms, box.Feed.Converter.Count(box.Divider().X(ohms)))
	}
	var notes []string
	if t.Shorted > 0 {
		notes = append(notes, "below "+at(t.Shorted)+j.beyondWords()+" the sender or its wire is shorted")
	} else {
		notes = append(notes, "a short cannot be told from the low end of this sender")
	}
	if math.IsInf(t.Open, 1) {
		return append(notes, "an open wire cannot be told from the high end: the conditioner takes no more there")
	}
	return append(notes, "above "+at(t.Open)+j.beyondWords()+" the sender or its wire is open")
}

// beyondWords says how far beyond the sender's ends a reading is a fault.
func (j *job) beyondWords() string {
	return fmt.Sprintf(", %s %% beyond the sender's end,", quantity.Fixed(100*max(calibration.Faulty, j.file.Sender.Tolerance), 0))
}

func writeLookupCSV(w io.Writer, t *calibration.Lookup, notes []string, counted *gauge.Converter) error {
	for _, n := range notes {
		if _, err := fmt.Fprintf(w, "# %s\n", oneLine(n)); err != nil {
			return err
		}
	}
	type plain struct {
		Input    number `json:"input_ohms"`
		Litres   number `json:"litres"`
		Position number `json:"position"`
	}
	type withCount struct {
		Count    number `json:"count"`
		Input    number `json:"input_ohms"`
		Litres   number `json:"litres"`
		Position number `json:"position"`
	}
	if counted != nil {
		var rows []withCount
		for _, r := range t.Rows {
			rows = append(rows, withCount{number(r.Count), number(r.Input), number(r.Litres), number(r.Position)})
		}
		return writeCSV(w, rows)
	}
	var rows []plain
	for _, r := range t.Rows {
		rows = append(rows, plain{number(r.Input), number(r.Litres), number(r.Position)})
	}
	return writeCSV(w, rows)
}

// writeLookupC writes the table as C99.
func (j *job) writeLookupC(w io.Writer, t *calibration.Lookup, notes []string) error {
	var b strings.Builder
	for _, n := range notes {
		fmt.Fprintf(&b, "// %s\n", oneLine(n))
	}
	counted := j.file.Conditioner.Feed.Converter != nil
	key, format := "float ohms", func(r calibration.LookupRow) string { return quantity.Fixed(r.Input, 3) + "f" }
	include := ""
	if counted {
		key, include = "uint32_t count", "#include <stdint.h>\n\n"
		format = func(r calibration.LookupRow) string { return fmt.Sprintf("%du", r.Count) }
	}
	fmt.Fprintf(&b, "\n%sstatic const struct {\n    %s;\n    float litres;\n    float position;\n} fuel_table[%d] = {\n", include, key, len(t.Rows))
	for _, r := range t.Rows {
		fmt.Fprintf(&b, "    { %s, %sf, %sf },\n", format(r), quantity.Fixed(r.Litres, 4), quantity.Fixed(r.Position, 5))
	}
	b.WriteString("};\n")
	_, err := io.WriteString(w, b.String())
	return err
}

// oneLine keeps a name from a file within its comment: a backslash at the end of
// a C comment would carry it on, and so would a line feed.
func oneLine(s string) string {
	return strings.Map(func(r rune) rune {
		if r < ' ' || r == '\\' || r == '\u2028' || r == '\u2029' || r == 0x7f || r == 0x85 {
			return ' '
		}
		return r
	}, s)
}
