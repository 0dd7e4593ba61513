package logfile

import "fmt"

// A ReadingKind is what the meter reads.
type ReadingKind string

// The kinds of reading.
const (
	Ohms   ReadingKind = "ohms"
	Volts  ReadingKind = "volts"
	Counts ReadingKind = "counts" // of a converter
)

// A Log is a fill log, its rows in the order of the file.
type Log struct {
	Rows   []Row
	Totals bool // amounts are what is in the tank, and not what went in or out
	ByMass bool // amounts are kg, and not litres
	Reads  ReadingKind

	// Whether any row has a needle, an angle other than 0, a temperature.
	NeedleSeen, Tilted, Warm bool
}

// A Row is one line of a log. What a cell states after ± is taken as a standard
// uncertainty.
type Row struct {
	Line         int     // in the file, from 1
	Amount       float64 // L (kg if by mass): in the tank; or what went in since the row before, below 0 what was drained
	AmountSigma  float64 // as stated in the cell; 0 if not
	Reading      float64 // ohm, V or counts; NaN where nobody read the meter
	ReadingSigma float64 // as stated in the cell; 0 if not
	Needle       string  // as written; empty if not
	NoseUp       float64 // degrees; 0 where the cell is empty
	LeftUp       float64 // degrees; 0 where the cell is empty
	Temperature  float64 // degC; NaN where not given
	Note         string
}

// An Error says where a log is wrong, what is wrong and what was expected, in one
// line. Its text lacks the file and the line: these go in front.
type Error struct {
	Line   int    // from 1; 0 if it is not about a line
	Column string // as in the heading; empty if it is not about a column
	Reason string
}

func (e *Error) Error() string {
	if e.Column == "" {
		return e.Reason
	}
	return e.Column + ": " + e.Reason
}

// fail makes an error.
func fail(line int, column, format string, args ...any) error {
	return &Error{Line: line, Column: column, Reason: fmt.Sprintf(format, args...)}
}
