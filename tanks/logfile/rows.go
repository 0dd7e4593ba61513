package logfile

import (
	"errors"
	"fmt"
	"math"

	"floatarc/tanks/quantity"
)

// Limits of what a row may say.
const (
	greatestAmount   = 1e6 // L or kg; more is a slip
	greatestReading  = 1e7 // ohm, V or counts; so many ohms are an open wire
	greatestAngle    = 60  // degrees
	coldest, hottest = -60, 100
)

// row reads one line below the heading.
func (h *heading) row(fields []string, line int, separator rune) (Row, error) {
	row := Row{Line: line, Reading: math.NaN(), Temperature: math.NaN()}
	for len(fields) > len(h.columns) && fields[len(fields)-1] == "" {
		fields = fields[:len(fields)-1]
	}
	if err := h.fits(len(fields), line, separator); err != nil {
		return row, err
	}
	for i, text := range fields {
		c := &h.columns[i]
		if err := c.read(text, &row); err != nil {
			return row, fail(line, c.name, "%v", err)
		}
	}
	return row, nil
}

// fits refuses a row of too few or too many fields.
func (h *heading) fits(fields, line int, separator rune) error {
	most := len(h.columns)
	switch {
	case fields > most && separator == ';':
		return fail(line, "", "%s, expected %d as in the heading (a text with a semicolon goes in quotes)", count(fields), most)
	case fields > most:
		return fail(line, "", "%s, expected %d as in the heading (a decimal comma? write a decimal point; a text with a comma goes in quotes)", count(fields), most)
	case fields < h.least && h.least < most:
		return fail(line, "", "%s, expected %d as in the heading, or at least %d", count(fields), most, h.least)
	case fields < h.least:
		return fail(line, "", "%s, expected %d as in the heading", count(fields), most)
	}
	return nil
}

func count(fields int) string {
	if fields == 1 {
		return "1 field"
	}
	return fmt.Sprintf("%d fields", fields)
}

// read reads a cell into its row.
func (c *column) read(text string, row *Row) (err error) {
	if text == "" && c.role != total {
		return nil
	}
	switch c.role {
	case added, removed, total:
		return c.readAmount(text, row)
	case reading:
		return c.readReading(text, row)
	case needle:
		row.Needle = text
	case note:
		row.Note = text
	case noseUp:
		row.NoseUp, err = c.within(text, -greatestAngle, greatestAngle)
	case leftUp:
		row.LeftUp, err = c.within(text, -greatestAngle, greatestAngle)
	case temperature:
		row.Temperature, err = c.within(text, coldest, hottest)
	}
	return err
}

// within reads a measure between two limits.
func (c *column) within(text string, least, most float64) (float64, error) {
	v, err := c.plainly(text)
	if err == nil && (v < least || v > most) {
		err = fmt.Errorf("%.4g %s, expected %g to %g", v, c.dim.Bare, least, most)
	}
	return v, err
}

// readAmount adds what a cell says to the amount of its row.
func (c *column) readAmount(text string, row *Row) error {
	if text == "" {
		return errors.New("empty, expected what is in the tank")
	}
	q, err := c.measure(text)
	if err != nil {
		return err
	}
	unit := "L"
	if c.dim == quantity.Mass {
		unit, q.Value, q.Sigma = "kg", q.Value/1000, q.Sigma/1000
	}
	if q.Value > greatestAmount || q.Sigma > greatestAmount {
		return fmt.Errorf("%q, expected at most %g %s", text, greatestAmount, unit)
	}
	switch {
	case q.Value < 0 && c.role == added:
		return fmt.Errorf("%.4g %s, a negative pour, expected 0 or more: drained fuel goes into a column such as litres_removed", q.Value, unit)
	case q.Value < 0 && c.role == removed:
		return fmt.Errorf("%.4g %s, less than nothing drained, expected 0 or more: poured fuel goes into a column such as litres_added", q.Value, unit)
	case q.Value < 0:
		return fmt.Errorf("%.4g %s in the tank, expected 0 or more", q.Value, unit)
	case q.Value != 0 && row.Amount != 0:
		return errors.New("fuel went in and out in one row, expected a row for either")
	}
	if c.role == removed {
		q.Value = -q.Value
	}
	row.Amount += q.Value
	row.AmountSigma = math.Hypot(row.AmountSigma, q.Sigma)
	return nil
}

// readReading reads what the meter showed.
func (c *column) readReading(text string, row *Row) error {
	q, err := c.measure(text)
	if err != nil {
		return err
	}
	unit := "counts"
	if c.dim != nil {
		unit = c.dim.Bare
	}
	switch {
	case q.Value < 0:
		return fmt.Errorf("%.4g %s, expected 0 or more", q.Value, unit)
	case q.Value > greatestReading && c.reads == Ohms:
		return fmt.Errorf("%.4g ohm, an open wire, expected at most %g", q.Value, greatestReading)
	case q.Value > greatestReading || q.Sigma > greatestReading:
		return fmt.Errorf("%q, expected at most %g %s", text, greatestReading, unit)
	}
	row.Reading, row.ReadingSigma = q.Value, q.Sigma
	return nil
}
