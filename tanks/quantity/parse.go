package quantity

import (
	"fmt"
	"math"
	"regexp"
	"strconv"
	"strings"
)

// Parse reads a measure of the dimension. The error is one line that says what
// is wrong and what was expected.
func (d *Dimension) Parse(text string) (Quantity, error) {
	q, _, err := ParseAny(text, d)
	return q, err
}

// ParseAny reads a measure of one of several dimensions and tells which. A bare
// number belongs to the first.
func ParseAny(text string, dims ...*Dimension) (Quantity, *Dimension, error) {
	p := parser{text: text, dims: dims}
	s := tidy(text)
	if s == "" {
		return Quantity{}, nil, p.fail("empty")
	}
	if comma.MatchString(s) {
		return Quantity{}, nil, p.fail("has a comma; write a decimal point: %q", comma.ReplaceAllString(s, "$1.$2"))
	}
	value, spread, stated := cutSpread(s)
	spreadTerms, err := p.terms(spread)
	if stated && err != nil {
		return Quantity{}, nil, err
	}
	if stated && spreadTerms[0].number < 0 {
		return Quantity{}, nil, p.fail("has a negative uncertainty")
	}
	if stated && len(spreadTerms) > 1 {
		return Quantity{}, nil, p.fail("has two numbers after ±")
	}
	valueTerms, err := p.terms(value)
	if err != nil {
		return Quantity{}, nil, err
	}
	if stated { // "210 ± 3 mm" or "210 mm ± 3 mm"
		first, last := &valueTerms[0].unit, &spreadTerms[0].unit
		switch {
		case *first == "" && len(valueTerms) == 1:
			*first = *last
		case *last == "":
			*last = valueTerms[len(valueTerms)-1].unit
		}
	}
	for _, dim := range dims {
		if q, ok := dim.evaluate(valueTerms, spreadTerms); ok {
			return p.finite(q, dim)
		}
	}
	return Quantity{}, nil, p.misfit(valueTerms, spreadTerms)
}

// A term is one number with its unit: "2 ft 3 1/4 in" has two.
type term struct {
	number   float64
	unit     string
	fraction bool // written with a fraction: 3/8
}

type parser struct {
	text string
	dims []*Dimension
}

var (
	comma    = regexp.MustCompile(`(\d),(\d)`)
	number   = regexp.MustCompile(`^[+-]?(\d+\.?\d*|\.\d+)([eE][+-]?\d+)?`)
	fraction = regexp.MustCompile(`^(\d+)\s*/\s*(\d+)`)
	mixed    = regexp.MustCompile(`^[ -](\d+)\s*/\s*(\d+)`)
	// A unit may hold digits (mm2, L/100km); a number that follows it starts
	// after a space or a foot mark.
	nextTerm = regexp.MustCompile(`^(.*?[^0-9\s/.(+-])\s*(\.?[0-9].*)$`)
)

var spellings = strings.NewReplacer(
	"\u00a0", " ", "\u2009", " ", "\u202f", " ", "\t", " ", "−", "-", "–", "-",
	"⅛", " 1/8", "¼", " 1/4", "⅜", " 3/8", "½", " 1/2", "⅝", " 5/8", "¾", " 3/4", "⅞", " 7/8", "⁄", "/",
	"+/-", "±", "+-", "±",
)

// tidy brings typographic spellings to plain ones.
func tidy(s string) string {
	return strings.Join(strings.Fields(spellings.Replace(s)), " ")
}

func cutSpread(s string) (value, spread string, stated bool) {
	value, spread, stated = strings.Cut(s, "±")
	return strings.TrimSpace(value), strings.TrimSpace(spread), stated
}

// terms splits a text into numbers with units.
func (p parser) terms(s string) ([]term, error) {
	var out []term
	for rest := s; rest != ""; {
		whole := rest
		n, after, err := p.number(rest)
		if err != nil {
			return nil, err
		}
		unit := strings.TrimSpace(after)
		rest = ""
		if !p.known(unit) {
			if m := nextTerm.FindStringSubmatch(unit); m != nil && p.known(strings.TrimSpace(m[1])) {
				unit, rest = strings.TrimSpace(m[1]), m[2]
			}
		}
		out = append(out, term{n, unit, strings.Contains(whole[:len(whole)-len(after)], "/")})
	}
	if len(out) == 0 {
		return nil, p.fail("has no number")
	}
	return out, nil
}

// number reads a number from the start of s: decimal, fraction, or whole with
// fraction.
func (p parser) number(s string) (value float64, rest string, err error) {
	sign := 1.0
	body := s
	if strings.HasPrefix(s, "-") {
		sign, body = -1, strings.TrimSpace(s[1:])
	}
	if m := fraction.FindStringSubmatch(body); m != nil {
		v, err := p.ratio(m[1], m[2])
		return sign * v, body[len(m[0]):], err
	}
	m := number.FindString(body)
	if m == "" {
		return 0, "", p.fail("does not start with a number")
	}
	v, err := strconv.ParseFloat(m, 64)
	if err != nil {
		return 0, "", p.fail("the number %q is out of range", m)
	}
	rest = body[len(m):]
	if f := mixed.FindStringSubmatch(rest); f != nil && !strings.ContainsAny(m, ".eE") {
		part, err := p.ratio(f[1], f[2])
		return sign * (v + part), rest[len(f[0]):], err
	}
	if next := strings.TrimSpace(rest); next != "" && (next[0] >= '0' && next[0] <= '9' || next[0] == '.') {
		return 0, "", p.fail("has two numbers")
	}
	return sign * v, rest, nil
}

func (p parser) ratio(a, b string) (float64, error) {
	x, err1 := strconv.ParseFloat(a, 64)
	y, err2 := strconv.ParseFloat(b, 64)
	if err1 != nil || err2 != nil || y == 0 {
		return 0, p.fail("has the fraction %s/%s", a, b)
	}
	return x / y, nil
}

// known tells whether a unit belongs to any of the dimensions asked for.
func (p parser) known(symbol string) bool {
	for _, d := range p.dims {
		if _, ok := d.unit(symbol); ok {
			return true
		}
	}
	return false
}

// unit finds a unit by its symbol: exactly, or else whatever the case.
func (d *Dimension) unit(symbol string) (unit, bool) {
	if symbol == "" && d.Bare != "" {
		symbol = d.Bare
	}
	for _, u := range d.units {
		for _, s := range u.symbols {
			if s == symbol {
				return u, true
			}
		}
	}
	for _, u := range d.units {
		for _, s := range u.symbols {
			if len(s) > 1 && strings.EqualFold(s, symbol) {
				return u, true
			}
		}
	}
	return unit{}, false
}

// evaluate adds up the terms, if their units belong to the dimension. Two terms
// must be feet and inches.
func (d *Dimension) evaluate(value, spread []term) (Quantity, bool) {
	var q Quantity
	if len(value) > 2 || len(value) == 2 && !d.feetAndInches(value) {
		return q, false
	}
	for i, t := range value {
		u, ok := d.unit(t.unit)
		// A fraction is inches far more often than it is millimetres.
		if !ok || t.fraction && t.unit == "" && d.Bare != "" {
			return q, false
		}
		n := t.number
		if i > 0 && math.Signbit(value[0].number) {
			n = -n // -(2 ft 3 in)
		}
		q.Value += u.to(n)
	}
	if len(spread) == 1 {
		u, ok := d.unit(spread[0].unit)
		if !ok {
			return q, false
		}
		// Half the difference serves units that are not a plain factor.
		n, s := value[len(value)-1].number, spread[0].number
		q.Sigma = math.Abs(u.to(n+s)-u.to(n-s)) / 2
	}
	return q, true
}

func (d *Dimension) feetAndInches(value []term) bool {
	a, ok1 := d.unit(value[0].unit)
	b, ok2 := d.unit(value[1].unit)
	return ok1 && ok2 && value[0].unit != "" && a.to(1) == MMPerFoot && b.to(1) == MMPerInch && value[1].number >= 0
}

func (p parser) finite(q Quantity, d *Dimension) (Quantity, *Dimension, error) {
	if math.IsNaN(q.Value) || math.IsInf(q.Value, 0) || math.IsNaN(q.Sigma) || math.IsInf(q.Sigma, 0) {
		return Quantity{}, nil, p.fail("is not a finite number")
	}
	return q, d, nil
}

// misfit says why terms that read well belong to none of the dimensions.
func (p parser) misfit(value, spread []term) error {
	for _, t := range append(value, spread...) {
		if t.unit == "" && t.fraction {
			return p.fail("is a fraction without a unit")
		}
		if p.known(t.unit) {
			continue
		}
		if better, ok := ambiguous[strings.ToLower(t.unit)]; ok {
			return p.fail("the unit %q has two meanings; write %s", t.unit, better)
		}
		if t.unit == "" {
			return p.fail("needs a unit")
		}
		for _, d := range all {
			if _, ok := d.unit(t.unit); ok {
				return p.fail("the unit %q is that of %s", t.unit, d.Name)
			}
		}
		return p.fail("the unit %q is not known here", t.unit)
	}
	return p.fail("has two numbers that do not go together")
}

func (p parser) fail(format string, args ...any) error {
	names, hints := make([]string, len(p.dims)), make([]string, len(p.dims))
	for i, d := range p.dims {
		names[i], hints[i] = d.Name, d.Hint
	}
	return fmt.Errorf("%q %s, expected %s such as %s", p.text, fmt.Sprintf(format, args...),
		strings.Join(names, " or "), strings.Join(hints, ", or "))
}
