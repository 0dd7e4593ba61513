package logfile

import (
	"fmt"
	"regexp"
	"slices"
	"strings"

	"floatarc/tanks/quantity"
)

// take gives a column its unit, once.
func (c *column) take(unit string) error {
	dims := []*quantity.Dimension{c.dim}
	switch {
	case c.role.amount() && c.dim == nil:
		dims = []*quantity.Dimension{quantity.Volume, quantity.Mass}
	case c.dim == nil:
		return fmt.Errorf("in %q, expected no unit", short(unit))
	}
	if slices.Contains([]string{"gal", "gallon", "gallons"}, strings.ToLower(unit)) {
		return fmt.Errorf(`the unit %q has two meanings, expected "US gal" or "imp gal"`, unit)
	}
	for _, dim := range dims {
		if symbol, ok := symbolOf(dim, unit); ok {
			if c.unit != "" && !c.usual && !same(dim, c.unit, symbol) {
				return fmt.Errorf("in %q and in %q, expected one unit", c.unit, short(unit))
			}
			c.dim, c.unit, c.usual = dim, symbol, false
			return nil
		}
	}
	return fmt.Errorf("the unit %q is not known here, expected that of %s", short(unit), measured(dims))
}

// measured names dimensions, with how to write them.
func measured(dims []*quantity.Dimension) string {
	var out []string
	for _, d := range dims {
		out = append(out, d.Name+" such as "+d.Hint)
	}
	return strings.Join(out, ", or ")
}

// A unit by itself: "US gal", but not "1/2 L" nor "± 3 L", which would go on with a
// number before it.
var loneUnit = regexp.MustCompile(`^[\pL°%][^±+,]*$`)

// symbolOf returns the symbol of a unit that a dimension knows; a single letter in
// a name is of lower case, whatever the unit's.
func symbolOf(dim *quantity.Dimension, unit string) (string, bool) {
	for _, symbol := range []string{unit, strings.ToUpper(unit)} {
		if len(unit) <= longestCell && loneUnit.MatchString(symbol) {
			if _, err := dim.Parse("1 " + symbol); err == nil {
				return symbol, true
			}
		}
	}
	return "", false
}

// same tells whether two units of a dimension are the same.
func same(dim *quantity.Dimension, a, b string) bool {
	x, err1 := dim.Parse("1 " + a)
	y, err2 := dim.Parse("1 " + b)
	return err1 == nil && err2 == nil && x == y
}
