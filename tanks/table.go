package tanks

import (
	"fmt"
	"maps"
	"math"
	"slices"
	"strings"

	"github.com/agnivade/levenshtein"

	"floatarc/tanks/quantity"
)

// A table reads the keys of one TOML table. Getters note every key they ask
// for; done refuses the others. The first error sticks to the document, so that
// reading goes on and is checked once.
type table struct {
	doc    *document
	path   string
	values map[string]any
	known  map[string]bool
}

func (d *document) root() *table { return newTable(d, "", d.tree) }

func newTable(d *document, path string, values map[string]any) *table {
	return &table{doc: d, path: path, values: values, known: map[string]bool{}}
}

func (t *table) key(name string) string { return join(t.path, name) }

func (t *table) fail(name, format string, args ...any) {
	t.doc.fail(t.key(name), format, args...)
}

// get returns the value of a key and notes that it is known.
func (t *table) get(name string) (any, bool) {
	t.known[name] = true
	v, ok := t.values[name]
	return v, ok
}

// has tells whether the file, or a variation, has a key, and notes that it is known.
func (t *table) has(name string) bool {
	_, ok := t.get(name)
	if !ok {
		_, ok = t.doc.varied[t.key(name)]
	}
	return ok
}

// missing refuses the lack of a key.
func (t *table) missing(name, expected string) {
	for _, key := range slices.Sorted(maps.Keys(t.values)) {
		if d := levenshtein.ComputeDistance(strings.ToLower(key), name); !t.known[key] && d <= min(2, (len(name)+1)/2) {
			t.fail(key, "not a known key, expected perhaps %q", name)
			return
		}
	}
	file, line := t.doc.where(t.path)
	if t.doc.err == nil {
		t.doc.err = &Error{File: file, Line: line, Key: t.key(name), Reason: "missing, expected " + expected}
	}
}

// done refuses keys that no getter asked for, naming the nearest one that is
// known.
func (t *table) done() {
	for _, name := range slices.Sorted(maps.Keys(t.values)) {
		if t.known[name] {
			continue
		}
		known := slices.Sorted(maps.Keys(t.known))
		nearest, least := "", math.MaxInt
		for _, k := range known {
			if d := levenshtein.ComputeDistance(strings.ToLower(name), k); d < least {
				nearest, least = k, d
			}
		}
		if nearest != "" && least <= max(2, len(nearest)/2) {
			t.fail(name, "not a known key, expected perhaps %q", nearest)
		} else {
			t.fail(name, "not a known key, expected one of %s", strings.Join(known, ", "))
		}
	}
}

// measure turns a TOML value into a quantity of one of the dimensions, or takes what
// the value is varied to.
func (d *document) measure(key string, v any, dims ...*quantity.Dimension) (quantity.Quantity, *quantity.Dimension) {
	if varied, ok := d.varied[key]; ok {
		return quantity.Quantity{Value: varied.Value}, varied.Dimension
	}
	q, dim := d.parsed(key, v, dims...)
	d.note(Measure{Key: key, Dimension: dim, Quantity: q})
	return q, dim
}

func (d *document) parsed(key string, v any, dims ...*quantity.Dimension) (quantity.Quantity, *quantity.Dimension) {
	switch v := v.(type) {
	case int64:
		return quantity.Quantity{Value: float64(v)}, dims[0]
	case float64:
		if math.IsNaN(v) || math.IsInf(v, 0) {
			d.fail(key, "%g is not a finite number, expected %s such as %s", v, dims[0].Name, dims[0].Hint)
			return quantity.Quantity{}, dims[0]
		}
		return quantity.Quantity{Value: v}, dims[0]
	case string:
		q, dim, err := quantity.ParseAny(v, dims...)
		if err != nil {
			d.fail(key, "%v", err)
			return quantity.Quantity{}, dims[0]
		}
		return q, dim
	}
	d.fail(key, "%s, expected %s such as %s", describe(v), dims[0].Name, dims[0].Hint)
	return quantity.Quantity{}, dims[0]
}

// describe names the kind of a TOML value, for errors.
func describe(v any) string {
	switch v := v.(type) {
	case map[string]any:
		return "a table"
	case []any:
		return fmt.Sprintf("a list of %d", len(v))
	case bool:
		return fmt.Sprintf("%t", v)
	case string:
		return fmt.Sprintf("%q", v)
	case int64, float64:
		return fmt.Sprintf("%v", v)
	}
	return "a date"
}

// measure reads an optional quantity.
func (t *table) measure(name string, dim *quantity.Dimension) (quantity.Quantity, bool) {
	v, ok := t.get(name)
	if !ok {
		varied, also := t.doc.varied[t.key(name)] // one that the file leaves out
		return quantity.Quantity{Value: varied.Value}, also
	}
	q, _ := t.doc.measure(t.key(name), v, dim)
	return q, true
}

// or reads an optional quantity's value, with its default.
func (t *table) or(name string, dim *quantity.Dimension, fallback float64) float64 {
	if q, ok := t.measure(name, dim); ok {
		return q.Value
	}
	return fallback
}

// need reads a quantity that must be there.
func (t *table) need(name string, dim *quantity.Dimension) float64 {
	q, ok := t.measure(name, dim)
	if !ok {
		t.missing(name, dim.Name+" such as "+dim.Hint)
	}
	return q.Value
}

// atLeast refuses a value below a limit.
func (t *table) atLeast(name string, value, least float64, unit string) {
	if value < least {
		t.fail(name, "%g %s, expected %g or more", value, unit, least)
	}
}

// positive reads a quantity above zero that must be there.
func (t *table) positive(name string, dim *quantity.Dimension) float64 {
	v := t.need(name, dim)
	if v <= 0 {
		t.fail(name, "%g %s, expected more than 0", v, dim.Bare)
	}
	return v
}

func (t *table) text(name string) (string, bool) {
	v, ok := t.get(name)
	if !ok {
		return "", false
	}
	s, isText := v.(string)
	if !isText {
		t.fail(name, "%s, expected a text in quotes", describe(v))
	}
	return s, isText
}

// choice reads one of a few words; the first is the default.
func (t *table) choice(name string, words ...string) string {
	s, ok := t.text(name)
	if !ok {
		return words[0]
	}
	if !slices.Contains(words, s) {
		t.fail(name, "%q, expected %s", s, oneOf(words))
		return words[0]
	}
	return s
}

// oneOf writes a list of words: "a", "b" or "c".
func oneOf(words []string) string {
	quoted := make([]string, len(words))
	for i, w := range words {
		quoted[i] = fmt.Sprintf("%q", w)
	}
	if len(quoted) == 1 {
		return quoted[0]
	}
	return strings.Join(quoted[:len(quoted)-1], ", ") + " or " + quoted[len(quoted)-1]
}

func (t *table) flag(name string) bool {
	v, ok := t.get(name)
	if !ok {
		return false
	}
	b, isBool := v.(bool)
	if !isBool {
		t.fail(name, "%s, expected true or false", describe(v))
	}
	return b
}

func (t *table) integer(name string, fallback, least, most int) int {
	v, ok := t.get(name)
	if !ok {
		return fallback
	}
	if t.doc.like == nil { // variations share what was read, and are read at once
		t.doc.counts = append(t.doc.counts, t.key(name))
	}
	n, isInt := v.(int64)
	if !isInt || n < int64(least) || n > int64(most) {
		t.fail(name, "%s, expected a whole number from %d to %d", describe(v), least, most)
		return fallback
	}
	return int(n)
}

// table reads a table; an empty one if there is none.
func (t *table) table(name string) *table {
	v, ok := t.get(name)
	values, isTable := v.(map[string]any)
	if ok && !isTable {
		t.fail(name, "%s, expected a table", describe(v))
	}
	return newTable(t.doc, t.key(name), values)
}

// given tells whether a table says anything: a heading whose keys all stand in comments
// does not.
func (t *table) given() bool {
	for key := range t.doc.varied {
		if under(key, t.path) {
			return true
		}
	}
	return len(t.values) > 0
}

// list reads a list; nil if there is none.
func (t *table) list(name, of string) []any {
	v, ok := t.get(name)
	if !ok {
		return nil
	}
	l, isList := v.([]any)
	if !isList {
		t.fail(name, "%s, expected a list of %s", describe(v), of)
	}
	return l
}

// tables reads a list of tables.
func (t *table) tables(name string) []*table {
	var out []*table
	if one, isTable := t.values[name].(map[string]any); isTable {
		t.has(name)
		t.fail(name, "%s, expected a list: two brackets, [[%s]]", describe(one), t.key(name))
		return nil
	}
	for i, v := range t.list(name, "tables") {
		key := fmt.Sprintf("%s[%d]", t.key(name), i)
		values, isTable := v.(map[string]any)
		if !isTable {
			t.doc.fail(key, "%s, expected a table", describe(v))
			return out
		}
		out = append(out, newTable(t.doc, key, values))
	}
	return out
}

// row reads a list of measures, one of each dimension; those from least on may
// be left out.
func (d *document) row(key string, v any, least int, dims ...*quantity.Dimension) []float64 {
	l, isList := v.([]any)
	if !isList || len(l) < least || len(l) > len(dims) {
		d.fail(key, "%s, expected a list of %s", describe(v), count(least, len(dims)))
		return make([]float64, len(dims))
	}
	out := make([]float64, len(dims))
	for i, e := range l {
		q, _ := d.measure(fmt.Sprintf("%s[%d]", key, i), e, dims[i])
		out[i] = q.Value
	}
	return out
}

func count(least, most int) string {
	if least == most {
		return fmt.Sprintf("%d numbers", most)
	}
	return fmt.Sprintf("%d to %d numbers", least, most)
}

// rows reads a list of rows.
func (t *table) rows(name string, least int, dims ...*quantity.Dimension) [][]float64 {
	var out [][]float64
	if l, isList := t.values[name].([]any); isList && len(l) == 0 {
		t.fail(name, "an empty list, expected lists of %s", count(least, len(dims)))
	}
	for i, v := range t.list(name, "lists of "+count(least, len(dims))) {
		out = append(out, t.doc.row(fmt.Sprintf("%s[%d]", t.key(name), i), v, least, dims...))
	}
	return out
}

// vector reads a list of measures of one dimension.
func (t *table) vector(name string, n int, dim *quantity.Dimension) ([]float64, bool) {
	v, ok := t.get(name)
	if !ok {
		return nil, false
	}
	return t.doc.row(t.key(name), v, n, slices.Repeat([]*quantity.Dimension{dim}, n)...), true
}
