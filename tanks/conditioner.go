package tanks

import (
	"fmt"
	"math"

	"floatarc/gauge"
	"floatarc/tanks/quantity"
)

// mostVolts bounds the supply of a sender: no vehicle's comes near.
const mostVolts = 100.0

// mostPlaces bounds how many pairs a conditioner may store.
const mostPlaces = 1000

// readConditioner reads [conditioner].
func readConditioner(t *table, marks int) gauge.Conditioner {
	c := gauge.Conditioner{Law: gauge.Resistance{}}
	c.Places = t.integer("points", marks, 2, mostPlaces)
	if t.choice("law", "resistance", "divider") == "divider" {
		c.Law = gauge.Divider{PullUp: t.positive("pull_up", quantity.Resistance)}
	}
	c.Feed = readFeed(t, c.Divider() != nil)
	if least, most, limited := readLimits(t, c); limited {
		c.Law = gauge.Limited{Law: c.Law, Least: least, Most: most}
	}
	if t.has("step") {
		c.Step = t.positive("step", quantity.Resistance)
	}
	c.Inputs = readInputs(t)
	c.Stored = readPairs(t, "stored")
	t.done()
	return c
}

// readFeed reads what feeds and measures a divider. Only a supply may be given
// without one.
func readFeed(t *table, divided bool) gauge.Feed {
	var f gauge.Feed
	for _, name := range []string{"pull_up", "pull_up_tolerance", "adc_bits", "reference"} {
		if t.has(name) && !divided {
			t.fail(name, "given without law = \"divider\", expected it with a divider only")
		}
	}
	if t.has("supply") {
		if f.Supply = t.positive("supply", quantity.Voltage); f.Supply > mostVolts {
			t.fail("supply", "%g V, expected at most %g", f.Supply, mostVolts)
		}
	}
	if q, ok := t.measure("pull_up_tolerance", quantity.Share); ok {
		f.Tolerance = q.Value
		if !(q.Value >= 0 && q.Value < 1) {
			t.fail("pull_up_tolerance", "%g, expected 0 or more and less than 1 (or a percentage)", q.Value)
		}
	}
	bits := t.integer("adc_bits", 0, 4, 24)
	if bits == 0 {
		if t.has("reference") {
			t.fail("reference", "given without adc_bits, expected both: the reference is the voltage at which the converter is full")
		}
		return f
	}
	f.Converter = &gauge.Converter{Bits: bits, Full: 1}
	if t.has("reference") {
		reference := t.positive("reference", quantity.Voltage)
		if f.Supply == 0 {
			t.missing("supply", "the voltage above the pull-up beside a reference, such as "+quantity.Voltage.Hint)
			return f
		}
		f.Converter.Full = math.Min(1, reference/f.Supply)
	}
	return f
}

// readLimits returns the inputs between which the box tells one from another: its
// own range, and where a converter is full.
func readLimits(t *table, c gauge.Conditioner) (least, most float64, limited bool) {
	least, most = 0, math.Inf(1)
	if v, ok := t.get("input_range"); ok {
		r := t.doc.row(t.key("input_range"), v, 2, quantity.Resistance, quantity.Resistance)
		least, most, limited = r[0], r[1], true
		if !(least >= 0 && least < most) {
			t.fail("input_range", "%g to %g ohm, expected the least input and then the greatest", least, most)
		}
	}
	if d := c.Divider(); d != nil && c.Feed.Converter != nil && t.doc.err == nil {
		if full := c.Feed.Converter.Limit(*d); full < most {
			most, limited = full, true
		}
	}
	return least, most, limited
}

func readInputs(t *table) []float64 {
	var out []float64
	for i, v := range t.list("inputs", "resistances") {
		key := fmt.Sprintf("%s[%d]", t.key("inputs"), i)
		q, _ := t.doc.measure(key, v, quantity.Resistance)
		if q.Value < 0 {
			t.doc.fail(key, "%g ohm, expected 0 or more", q.Value)
		}
		if i > 0 && q.Value <= out[i-1] {
			t.doc.fail(key, "%g ohm follows %g ohm, expected a rising order", q.Value, out[i-1])
		}
		out = append(out, q.Value)
	}
	if t.has("inputs") && len(out) < 2 {
		t.fail("inputs", "%d inputs, expected 2 or more", len(out))
	}
	return out
}

// readPairs reads pairs (input, position): different inputs, different
// positions within 0…1.
func readPairs(t *table, name string) []gauge.Pair {
	var out []gauge.Pair
	for i, p := range t.rows(name, 2, quantity.Resistance, quantity.Share) {
		key := fmt.Sprintf("%s[%d]", t.key(name), i)
		if p[0] < 0 {
			t.doc.fail(key, "%g ohm, expected 0 or more", p[0])
		}
		if p[1] < 0 || p[1] > 1 {
			t.doc.fail(key, "dial position %g, expected 0 (empty mark) to 1 (full mark), or a percentage such as \"25 %%\"", p[1])
		}
		for j, other := range out {
			if other.Input == p[0] {
				t.doc.fail(key, "the input %g ohm stands in %s[%d] as well, expected every input once", p[0], name, j)
			}
			if other.Position == p[1] {
				t.doc.fail(key, "the position %g stands in %s[%d] as well, expected every position once", p[1], name, j)
			}
		}
		out = append(out, gauge.Pair{Input: p[0], Position: p[1]})
	}
	return out
}
