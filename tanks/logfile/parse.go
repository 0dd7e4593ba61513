package logfile

import (
	"bytes"
	"encoding/csv"
	"errors"
	"io"
	"math"
	"strings"
	"unicode/utf8"

	"floatarc/tanks/quantity"
)

const (
	greatestLog = 1 << 20 // bytes
	mostRows    = 10_000
)

// Parse reads a fill log. An error is an *Error.
func Parse(data []byte) (*Log, error) {
	if len(data) > greatestLog {
		return nil, fail(0, "", "%d bytes, expected a log of at most %d", len(data), greatestLog)
	}
	p := newReader(bytes.TrimPrefix(data, []byte("\ufeff")))
	if line := p.garbled(); line > 0 {
		return nil, fail(line, "", "not text, expected CSV saved as UTF-8")
	}
	fields, line, err := p.next()
	if err != nil {
		return nil, err
	}
	h, err := readHeading(fields, line)
	if err != nil {
		return nil, err
	}
	log := &Log{
		Totals: h.find(total) != nil,
		ByMass: h.find(added, removed, total).dim == quantity.Mass,
		Reads:  h.find(reading).reads,
	}
	for {
		fields, line, err := p.next()
		if err != nil {
			return nil, err
		}
		if fields == nil {
			return log, log.enough(h)
		}
		if len(log.Rows) == mostRows {
			return nil, fail(line, "", "more than %d rows, expected at most so many", mostRows)
		}
		row, err := h.row(fields, line, p.in.Comma)
		if err != nil {
			return nil, err
		}
		log.add(row)
	}
}

func (l *Log) add(row Row) {
	l.Rows = append(l.Rows, row)
	l.NeedleSeen = l.NeedleSeen || row.Needle != ""
	l.Tilted = l.Tilted || row.NoseUp != 0 || row.LeftUp != 0
	l.Warm = l.Warm || !math.IsNaN(row.Temperature)
}

// enough refuses a log in which nobody read the meter.
func (l *Log) enough(h *heading) error {
	if len(l.Rows) == 0 {
		return fail(h.line, "", "no rows below the heading, expected one for each reading")
	}
	for _, row := range l.Rows {
		if !math.IsNaN(row.Reading) {
			return nil
		}
	}
	return fail(h.line, h.find(reading).name, "no reading in any row, expected one or more")
}

// A reader reads the lines of a log.
type reader struct {
	in    *csv.Reader
	lines [][]byte
}

func newReader(data []byte) *reader {
	p := &reader{in: csv.NewReader(bytes.NewReader(data)), lines: bytes.Split(data, []byte("\n"))}
	p.in.FieldsPerRecord, p.in.Comment, p.in.TrimLeadingSpace = -1, '#', true
	for _, line := range p.lines {
		if line = bytes.TrimSpace(line); len(line) > 0 && line[0] != '#' {
			if bytes.ContainsRune(line, ';') && !bytes.ContainsRune(line, ',') {
				p.in.Comma = ';'
			}
			break
		}
	}
	return p
}

// garbled returns the first line that is not text in UTF-8; 0 if all are.
func (p *reader) garbled() int {
	for i, line := range p.lines {
		if !utf8.Valid(line) || bytes.IndexByte(line, 0) >= 0 {
			return i + 1
		}
	}
	return 0
}

// next returns the fields, trimmed, of the next line that holds any, and which line
// it is; no fields at the end.
func (p *reader) next() (fields []string, line int, err error) {
	for {
		fields, err := p.in.Read()
		if err == io.EOF {
			return nil, 1, nil
		}
		var bad *csv.ParseError
		if errors.As(err, &bad) {
			return nil, 0, fail(bad.StartLine, "", "not CSV: %v, expected a text with a comma or a quote in quotes", bad.Err)
		}
		if err != nil {
			return nil, 0, fail(0, "", "%v", err)
		}
		line, _ := p.in.FieldPos(0)
		empty := true
		for i := range fields {
			fields[i] = strings.TrimSpace(fields[i])
			empty = empty && fields[i] == ""
		}
		indented := bytes.HasPrefix(bytes.TrimSpace(p.lines[line-1]), []byte("#"))
		if !empty && !indented {
			return fields, line, nil
		}
	}
}
