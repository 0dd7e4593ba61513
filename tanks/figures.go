package tanks

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"floatarc/tanks/quantity"
)

// A Figure is one number of a rig file: a measure, or a whole number.
type Figure struct {
	Key       string
	Dimension *quantity.Dimension // nil for a whole number
	Given     bool                // the file holds the key
	Value     float64             // that it holds, in the dimension's own unit; NaN where that is no such number
	Text      string              // as it holds it
}

// Assign returns the override that gives the figure a value.
func (f *Figure) Assign(value float64) string {
	number := strconv.FormatFloat(value, 'f', -1, 64)
	if f.Dimension == nil || f.Dimension.Bare == "" {
		return f.Key + "=" + number
	}
	return f.Key + "=" + number + " " + f.Dimension.Bare // some measures are not taken without a unit
}

// FigureOf finds the figure of a key, which the file need not hold but could: with a
// trial, a number as people write it, that settles its dimension where there may be
// several. A key that is not known, or not that of a number, is refused; a rig that the
// trial makes impossible is not.
func FigureOf(name string, overrides []string, key, trial string) (*Figure, error) {
	now, err := open(name, overrides)
	if err != nil {
		return nil, err
	}
	tried, err := open(name, append(slices.Clone(overrides), key+"="+trial))
	if err != nil {
		return nil, err
	}
	value := lookup(now.tree, overrideStep.FindAllString(key, -1))
	f := &Figure{Key: key, Given: value != nil, Value: math.NaN()}
	_, err = build(tried)
	place := slices.IndexFunc(tried.measures, func(m Measure) bool { return m.Key == key })
	switch {
	case place >= 0:
		f.Dimension = tried.measures[place].Dimension
	case slices.Contains(tried.counts, key):
	case err != nil && (!f.Given || !unmeasured(value)):
		return nil, err
	default:
		now.fail(key, "%s, expected the key of a number such as sender.arm or sender.pivot[2]", describe(value))
		return nil, now.err
	}
	if f.Given {
		f.take(value)
	}
	return f, nil
}

// unmeasured tells whether a value is of a kind that no measure has.
func unmeasured(v any) bool {
	switch v.(type) {
	case int64, float64:
		return false
	}
	return true
}

// take takes the value that a file holds.
func (f *Figure) take(v any) {
	f.Text = strings.Trim(describe(v), `"`)
	switch v := v.(type) {
	case int64:
		f.Value = float64(v)
	case float64:
		f.Value = v
	case string:
		if f.Dimension == nil {
			return
		}
		if q, err := f.Dimension.Parse(v); err == nil {
			f.Value = q.Value
		}
	}
}

// Because returns why an override of a key made a rig impossible, without the place, which
// is a command line: what is left is the key, if it is another one, and the reason.
func Because(key string, err error) string {
	var e *Error
	switch {
	case !errors.As(err, &e):
		return oneLine(err.Error())
	case e.Key == key || e.Key == "":
		return oneLine(e.Reason)
	}
	return fmt.Sprintf("%s: %s", oneLine(e.Key), oneLine(e.Reason))
}
