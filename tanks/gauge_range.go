package tanks

import (
	"floatarc/gauge"
	"floatarc/tanks/quantity"
)

// readRanges reads the gauges that might be wired to the sender without a conditioner.
func readRanges(t *table) []gauge.Range {
	var out []gauge.Range
	for _, r := range t.tables("range") {
		made := readRange(r)
		r.done()
		for _, other := range out {
			if other.Name == made.Name {
				r.fail("name", "%q names two ranges, expected every name once", made.Name)
			}
		}
		out = append(out, made)
	}
	return out
}

// readRange reads a gauge by its ends, or by its response.
func readRange(t *table) gauge.Range {
	name, ok := t.text("name")
	if !ok || name == "" {
		t.missing("name", `a name in quotes such as "the old gauge"`)
	}
	ends := t.has("empty") || t.has("full")
	switch {
	case !t.has("response"):
		return endRange(t, name)
	case ends:
		t.fail("response", "given beside empty or full, expected empty and full, or response")
	}
	lines, pairs := readResponse(t)
	if lines == nil {
		return gauge.Range{Name: name}
	}
	return gauge.ResponseRange(name, lines, pairs[0], pairs[1])
}

// endRange reads a gauge by the ohms on its end marks.
func endRange(t *table, name string) gauge.Range {
	empty, full := t.need("empty", quantity.Resistance), t.need("full", quantity.Resistance)
	t.atLeast("empty", empty, 0, "ohm")
	t.atLeast("full", full, 0, "ohm")
	made, err := gauge.LinearRange(name, empty, full)
	if err != nil {
		t.fail("full", "%g ohm, the same as empty, expected another resistance", full)
	}
	return made
}
