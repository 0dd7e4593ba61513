package logfile

import (
	"regexp"
	"strings"
)

// A heading is the first line of a log.
type heading struct {
	line    int
	columns []column
	least   int // fields of a row: those that follow may be left out
}

const noHeading = "no heading, expected one such as litres_added,ohms"

var startsWithNumber = regexp.MustCompile(`^[-+−.]?[0-9]`)

// readHeading reads the first line.
func readHeading(fields []string, line int) (*heading, error) {
	for len(fields) > 0 && fields[len(fields)-1] == "" { // as spreadsheets write them
		fields = fields[:len(fields)-1]
	}
	if len(fields) == 0 || startsWithNumber.MatchString(fields[0]) {
		return nil, fail(line, "", noHeading)
	}
	h := &heading{line: line}
	for _, cell := range fields {
		if cell == "" {
			return nil, fail(line, "", "a column without a name between others, expected one of %s", strings.Join(columnNames, ", "))
		}
		c, err := columnOf(cell)
		c.name = short(cell)
		if err != nil {
			return nil, fail(line, c.name, "%v", err)
		}
		if err := h.add(c); err != nil {
			return nil, err
		}
	}
	return h, h.complete()
}

// find returns the column that tells something; nil if there is none.
func (h *heading) find(roles ...role) *column {
	for i := range h.columns {
		for _, r := range roles {
			if h.columns[i].role == r {
				return &h.columns[i]
			}
		}
	}
	return nil
}

// add refuses a column that does not go with those before it.
func (h *heading) add(c column) error {
	refuse := func(format string, args ...any) error { return fail(h.line, c.name, format, args...) }
	if other := h.find(c.role); c.role != passedOver && other != nil {
		switch {
		case plain(other.name) == plain(c.name):
			return refuse("given twice, expected every column once")
		case c.role == reading:
			return refuse("a reading beside that of %q, expected one of the two", other.name)
		}
		return refuse("tells the same as %q, expected one of the two", other.name)
	}
	if c.role.amount() {
		if other := h.across(c.role); other != nil {
			return refuse("beside %q, expected either what is in the tank or what went in and out", other.name)
		}
		if other := h.find(added, removed); other != nil && other.dim != c.dim {
			return refuse("beside %q, expected all amounts as volumes or all as masses", other.name)
		}
	}
	h.columns = append(h.columns, c)
	return nil
}

// across returns a column of totals for one of pours, and the other way round.
func (h *heading) across(r role) *column {
	if r == total {
		return h.find(added, removed)
	}
	return h.find(total)
}

// complete refuses a heading without amounts or readings, and notes how many fields
// a row needs: up to the reading and the first column of amounts. What was drained
// may be left out beside what was added, and the other way round.
func (h *heading) complete() error {
	if h.find(added, removed, total) == nil {
		return fail(h.line, "", "no column of amounts, expected litres_added, litres_removed or litres_total")
	}
	if h.find(reading) == nil {
		return fail(h.line, "", "no column of readings, expected ohms, volts or counts")
	}
	amounts := h.find(added, removed, total)
	for i := range h.columns {
		if c := &h.columns[i]; c == amounts || c.role == reading {
			h.least = i + 1
		}
	}
	return nil
}
