package quantity

import "strings"

// A Scale is a unit of a dimension, as somebody wrote it; the zero Scale is that of what is
// counted.
type Scale struct {
	Symbol string
	unit   unit
}

// Bare turns a number on the scale into the dimension's own unit.
func (s Scale) Bare(v float64) float64 {
	if s.unit.to == nil {
		return v
	}
	return s.unit.to(v)
}

// Of turns a value in the dimension's own unit into a number on the scale.
func (s Scale) Of(bare float64) float64 {
	if s.unit.from == nil {
		return bare
	}
	return s.unit.from(bare)
}

// Plain tells whether the unit is a plain factor, so that steps on the scale are even in
// every other: a grade in percent and a temperature are none.
func (s Scale) Plain() bool { return s.unit.to == nil || s.unit.plain() }

// Same tells whether two scales are one, however they are written.
func (s Scale) Same(o Scale) bool { return s.Bare(1) == o.Bare(1) && s.Bare(2) == o.Bare(2) }

// OnScale returns the number of a measure and the unit in which a text gives it; feet and
// inches are inches. Where the text names no unit it is the dimension's own, and the
// symbol is empty. It takes no uncertainty.
func (d *Dimension) OnScale(text string) (float64, Scale, error) {
	q, err := d.Parse(text)
	if err != nil {
		return 0, Scale{}, err
	}
	p := parser{text: text, dims: []*Dimension{d}}
	if _, _, stated := cutSpread(tidy(text)); stated {
		return 0, Scale{}, p.fail("has an uncertainty")
	}
	terms, err := p.terms(tidy(text))
	if err != nil {
		return 0, Scale{}, err
	}
	last := terms[len(terms)-1]
	u, _ := d.unit(last.unit) // known, or it would not have parsed
	scale := Scale{plainly(last.unit, u), u}
	if len(terms) > 1 {
		return u.from(q.Value), scale, nil
	}
	return last.number, scale, nil
}

// plainly writes the marks for inches and feet as words.
func plainly(symbol string, u unit) string {
	if strings.ContainsAny(symbol, `"'″′`) {
		return map[float64]string{MMPerInch: "in", MMPerFoot: "ft"}[u.to(1)]
	}
	return symbol
}
