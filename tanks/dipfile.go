package tanks

import (
	"bytes"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"regexp"
	"strings"

	"floatarc/geometry"
	"floatarc/tanks/quantity"
)

// greatestDip is the greatest size of a dip table's file, in bytes.
const greatestDip = 1 << 22

// parseDip reads a CSV of heights and volumes, the first two columns: bare
// numbers are mm and L, others carry their unit. A first line of words is taken
// as a heading, and a unit at the end of it, such as "height in" or "volume (US
// gal)", goes for its column; a heading may name further columns, which are
// passed over. So are empty lines and what follows a #.
func parseDip(data []byte) ([]geometry.DipRow, error) {
	if len(data) > greatestDip {
		return nil, fmt.Errorf("%d bytes, expected a table of at most %d", len(data), greatestDip)
	}
	in := csv.NewReader(bytes.NewReader(bytes.TrimPrefix(data, []byte("\ufeff"))))
	in.FieldsPerRecord, in.Comment, in.TrimLeadingSpace = -1, '#', true
	units := [2]string{}
	fields := 2 // in a row; a heading may name more
	var rows []geometry.DipRow
	for first := true; ; first = false {
		record, err := in.Read()
		if err == io.EOF {
			return rows, nil
		}
		if err != nil {
			var p *csv.ParseError
			if errors.As(err, &p) {
				return nil, fmt.Errorf("line %d: not CSV: %v", p.Line, p.Err)
			}
			return nil, err
		}
		line, _ := in.FieldPos(0)
		if len(record) < 2 {
			return nil, fmt.Errorf("line %d: %d field, expected height and volume with a comma between", line, len(record))
		}
		if first && titled(record) {
			fields = len(record)
			for i := range units {
				if units[i], err = headingUnit(record[i], dipColumns[i]); err != nil {
					return nil, fmt.Errorf("line %d: %w", line, err)
				}
			}
			continue
		}
		if len(record) != fields {
			return nil, fmt.Errorf("line %d: %d fields, expected %d (a decimal comma? write a decimal point; further columns need a heading)", line, len(record), fields)
		}
		var values [2]float64
		for i := range values {
			if values[i], err = dipCell(record[i], units[i], dipColumns[i]); err != nil {
				return nil, fmt.Errorf("line %d: %w", line, err)
			}
		}
		rows = append(rows, geometry.DipRow{Height: values[0], Volume: values[1] * 1e6})
	}
}

var dipColumns = [2]*quantity.Dimension{quantity.Length, quantity.Volume}

// A number without a unit, or with a fraction such as 8 1/2.
var bareNumber = regexp.MustCompile(`^[-+]?[0-9.]+([eE][-+]?[0-9]+|( [0-9]+)?/[0-9]+)?$`)

// dipCell reads one measure; a bare number is in the column's unit.
func dipCell(text, unit string, dim *quantity.Dimension) (float64, error) {
	text = strings.TrimSpace(text)
	if unit != "" && bareNumber.MatchString(text) {
		text += " " + unit
	}
	q, err := dim.Parse(text)
	return q.Value, err
}

var startsWithLetter = regexp.MustCompile(`^[\pL"]`)

// titled tells whether a line holds words.
func titled(record []string) bool {
	return startsWithLetter.MatchString(record[0]) && startsWithLetter.MatchString(record[1])
}

var inBrackets = regexp.MustCompile(`[\(\[]([^)\]]*)[\)\]]|_(.*)$`)

// headingUnit returns the unit that a heading names: in brackets, after an
// underscore, or in its last words. It returns none where it names none.
func headingUnit(text string, dim *quantity.Dimension) (string, error) {
	is := func(unit string) bool {
		_, err := dim.Parse("1 " + unit)
		return err == nil
	}
	if m := inBrackets.FindStringSubmatch(text); m != nil {
		unit := strings.TrimSpace(strings.ReplaceAll(m[1]+m[2], "_", " "))
		if !is(unit) {
			return "", fmt.Errorf("heading %q: %q is not a unit, expected that of %s such as %s", text, unit, dim.Name, dim.Hint)
		}
		return unit, nil
	}
	words := strings.Fields(text)
	for i := range words {
		if unit := strings.Join(words[i:], " "); is(unit) {
			return unit, nil
		}
	}
	return "", nil
}
