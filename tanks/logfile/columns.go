package logfile

import (
	"fmt"
	"math"
	"regexp"
	"strings"
	"unicode"

	"github.com/agnivade/levenshtein"

	"floatarc/tanks/quantity"
)

// A role is what a column tells.
type role int

const (
	passedOver role = iota
	added
	removed
	total
	reading
	needle
	noseUp
	leftUp
	temperature
	note
)

// amount tells whether a column says how much fuel.
func (r role) amount() bool { return r == added || r == removed || r == total }

// A column is a column of a log.
type column struct {
	name  string // as in the heading, on one line
	role  role
	reads ReadingKind
	dim   *quantity.Dimension // nil for counts and texts
	unit  string              // of a bare number; empty if the name does not tell
	usual bool                // the unit goes without saying, so that brackets may name another
}

// columnNames are the names to suggest, amounts first.
var columnNames = []string{
	"litres_added", "litres_removed", "litres_total", "ohms", "volts", "counts",
	"needle", "nose_up", "left_up", "temperature", "note",
}

// named are the columns that are known by their whole name.
var named = map[string]column{
	"ohms":        {role: reading, reads: Ohms, dim: quantity.Resistance, unit: "ohm", usual: true},
	"ohm":         {role: reading, reads: Ohms, dim: quantity.Resistance, unit: "ohm", usual: true},
	"kohms":       {role: reading, reads: Ohms, dim: quantity.Resistance, unit: "kohm"},
	"kohm":        {role: reading, reads: Ohms, dim: quantity.Resistance, unit: "kohm"},
	"volts":       {role: reading, reads: Volts, dim: quantity.Voltage, unit: "V", usual: true},
	"volt":        {role: reading, reads: Volts, dim: quantity.Voltage, unit: "V", usual: true},
	"millivolts":  {role: reading, reads: Volts, dim: quantity.Voltage, unit: "mV"},
	"millivolt":   {role: reading, reads: Volts, dim: quantity.Voltage, unit: "mV"},
	"mv":          {role: reading, reads: Volts, dim: quantity.Voltage, unit: "mV"},
	"counts":      {role: reading, reads: Counts},
	"count":       {role: reading, reads: Counts},
	"needle":      {role: needle},
	"nose_up":     {role: noseUp, dim: quantity.Angle, unit: "deg", usual: true},
	"left_up":     {role: leftUp, dim: quantity.Angle, unit: "deg", usual: true},
	"temperature": {role: temperature, dim: quantity.Temperature, unit: "degC", usual: true},
	"note":        {role: note},
}

// columnOf reads a cell of the heading: "litres_added", "Nose up", "US gal removed",
// "total (L)", "temperature_f".
func columnOf(cell string) (column, error) {
	words, unit := cell, ""
	if m := bracketed.FindStringSubmatch(cell); m != nil {
		words, unit = m[1], strings.TrimSpace(m[2])
	}
	name := plain(words)
	if strings.HasPrefix(name, "expected") { // of a printed form
		return column{}, nil
	}
	c, err := byName(name)
	if err == nil && unit != "" {
		err = c.take(unit)
	}
	if err == nil && c.role.amount() && c.unit == "" {
		err = fmt.Errorf(`without a unit, expected one such as litres_%[1]s or "%[1]s (US gal)"`, name)
	}
	return c, err
}

var bracketed = regexp.MustCompile(`(?s)^([^(\[]*)[(\[](.*)[)\]]$`)

// plain brings a name to lower case, with one underscore for any run of spaces,
// dashes and underscores.
func plain(name string) string {
	return strings.Join(strings.FieldsFunc(strings.ToLower(name), func(r rune) bool {
		return r == '-' || r == '_' || unicode.IsSpace(r)
	}), "_")
}

var (
	amountName = regexp.MustCompile(`^(?:(.*)_)?(added|removed|total)$`)
	amountRole = map[string]role{"added": added, "removed": removed, "total": total}
	// Names that may end in a unit.
	unitAfter = regexp.MustCompile(`^(temperature|nose_up|left_up)_(.+)$`)
)

// byName finds a column by its plain name, with the unit that the name holds.
func byName(name string) (column, error) {
	if c, ok := named[name]; ok {
		return c, nil
	}
	var c column
	var unit string
	if m := amountName.FindStringSubmatch(name); m != nil {
		c.role, unit = amountRole[m[2]], m[1]
	} else if m := unitAfter.FindStringSubmatch(name); m != nil {
		c, unit = named[m[1]], m[2]
	} else {
		return c, unknown(name)
	}
	if unit == "" {
		return c, nil
	}
	if err := c.take(strings.ReplaceAll(unit, "_", " ")); err != nil {
		if near, distance := nearest(name); distance <= 2 { // a slip of the pen
			err = fmt.Errorf("not a known column, expected perhaps %q", near)
		}
		return c, err
	}
	return c, nil
}

// unknown refuses a column, naming the nearest one that is known.
func unknown(name string) error {
	if near, distance := nearest(name); distance <= max(2, len(near)/2) {
		return fmt.Errorf("not a known column, expected perhaps %q", near)
	}
	return fmt.Errorf("not a known column, expected one of %s", strings.Join(columnNames, ", "))
}

// nearest returns the suggested name with the fewest letters to change.
func nearest(name string) (near string, distance int) {
	distance = math.MaxInt
	if len(name) > longestCell { // nobody's slip, and long to compare
		return "", distance
	}
	for _, known := range columnNames {
		if d := levenshtein.ComputeDistance(name, known); d < distance {
			near, distance = known, d
		}
	}
	return near, distance
}
