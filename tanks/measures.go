package tanks

import (
	"maps"
	"slices"

	"floatarc/tanks/quantity"
)

// A Measure is a figure of a rig file, as it was measured.
type Measure struct {
	Key       string // "sender.arm", "sender.pivot[2]"
	Dimension *quantity.Dimension
	quantity.Quantity
	// Usual says that the file states no uncertainty: it is that of usual care.
	Usual bool
}

// note keeps a measure that was read; the last reading of a key counts.
func (d *document) note(m Measure) {
	if d.like != nil {
		return // a variation has those of the rig that it varies
	}
	if i := slices.IndexFunc(d.measures, func(o Measure) bool { return o.Key == m.Key }); i >= 0 {
		d.measures[i] = m
		return
	}
	d.measures = append(d.measures, m)
}

// Measure returns the measure of a key, if the rig has it.
func (r *Rig) Measure(key string) (Measure, bool) {
	for _, m := range r.doc.measures {
		if m.Key == key {
			return m, true
		}
	}
	return Measure{}, false
}

// Vary returns the rig with some of its measures at other values, each in the unit of
// its dimension. What does not hang on them is shared with the rig, so that thousands
// of variations cost little; bodies that come to overlap, or to stick out, by as much
// are let pass. It is safe for concurrent use.
func (r *Rig) Vary(measures []Measure) (*Rig, error) {
	d := *r.doc
	d.like, d.err = r, nil
	d.varied = map[string]Measure{}
	maps.Copy(d.varied, r.doc.varied)
	for _, m := range measures {
		d.varied[m.Key] = m
	}
	return build(&d)
}

// varies tells whether a variation touches a key, or one below it.
func (d *document) varies(path string) bool {
	for key := range d.varied {
		if under(key, path) {
			return true
		}
	}
	return false
}
