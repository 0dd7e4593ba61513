package tanks

import (
	"fmt"
	"slices"
	"strings"

	"gonum.org/v1/gonum/mat"

	"floatarc/tanks/quantity"
)

// A Fitted is how measures hang together that a fill log found.
type Fitted struct {
	Keys        []string
	Correlation *mat.SymDense // of the keys; nil for none
}

// readFitted reads [fitted], which fit writes: the keys, and the lower half of their
// correlation, row by row.
func readFitted(t *table) Fitted {
	var f Fitted
	for i, v := range t.list("measures", "keys such as \"sender.arm\"") {
		key, isText := v.(string)
		if !isText || !overrideKey.MatchString(key) || slices.Contains(f.Keys, key) {
			t.fail("measures", "element %d is %s, expected a key such as \"sender.arm\", once", i, describe(v))
			return Fitted{}
		}
		f.Keys = append(f.Keys, key)
	}
	rows := t.list("correlation", "rows such as [-0.6, 1]")
	t.done()
	if len(rows) != len(f.Keys) {
		t.fail("correlation", "%d rows for %d measures, expected one for each", len(rows), len(f.Keys))
	}
	if t.doc.err != nil || len(rows) == 0 {
		return Fitted{}
	}
	f.Correlation = mat.NewSymDense(len(rows), nil)
	for i, row := range rows {
		key := fmt.Sprintf("%s[%d]", t.key("correlation"), i)
		list, isList := row.([]any)
		if !isList || len(list) != i+1 {
			t.doc.fail(key, "%s, expected a list of %d, the row up to the diagonal", describe(row), i+1)
			return Fitted{}
		}
		for j, v := range list {
			c := t.doc.plainNumber(fmt.Sprintf("%s[%d]", key, j), v)
			if c < -1 || c > 1 || i == j && c != 1 {
				t.doc.fail(key, "%g, expected -1 to 1, and 1 on the diagonal", c)
			}
			f.Correlation.SetSym(i, j, c)
		}
	}
	var factor mat.Cholesky
	if t.doc.err == nil && !factor.Factorize(f.Correlation) {
		t.fail("correlation", "no measures hang together so, expected the numbers that fit wrote")
	}
	return f
}

// plainNumber reads a number without a unit, which nobody measured.
func (d *document) plainNumber(key string, v any) float64 {
	q, _ := d.parsed(key, v, quantity.Share)
	return q.Value
}

// check refuses keys that the rig does not have.
func (f Fitted) check(t *table, measures []Measure) {
	for i, key := range f.Keys {
		if !slices.ContainsFunc(measures, func(m Measure) bool { return m.Key == key }) {
			t.fail("measures", "element %d, %q, is no measure of this rig, expected one that it states", i, key)
		}
	}
}

// literals returns the keys and the correlation as a file holds them.
func (f Fitted) literals() (keys, correlation string) {
	var names, rows []string
	for i, key := range f.Keys {
		names = append(names, fmt.Sprintf("%q", key))
		var row []string
		for j := range i + 1 {
			row = append(row, quantity.Trimmed(f.Correlation.At(i, j), correlationDigits))
		}
		rows = append(rows, "["+strings.Join(row, ", ")+"]")
	}
	return "[" + strings.Join(names, ", ") + "]", "[" + strings.Join(rows, ", ") + "]"
}

// correlationDigits is to how many decimals a correlation is written.
const correlationDigits = 6
