package quantity

import (
	"math"
	"strconv"
	"strings"
)

// Like writes a value with its standard uncertainty, both in the dimension's own unit, in
// the unit in which a text gives such a measure, or in the own one where the text gives
// none, or one that is no plain factor (a grade in percent). The uncertainty has two
// digits (JCGM 100:2008, 7.2.6), the value one more place, so that nothing is lost in what
// is computed with it; without an uncertainty it has six digits. The result parses.
func (d *Dimension) Like(text string, value, sigma float64) string {
	factor, symbol := d.written(text)
	value, sigma = value/factor, sigma/factor
	words := strconv.FormatFloat(value, 'g', 6, 64)
	if sigma > 0 {
		places := 1 - exponent(sigma)
		words = fixed(value, places+1) + " ± " + fixed(sigma, places)
	}
	if symbol != "" {
		words += " " + symbol
	}
	return words
}

// exponent returns the power of ten of a number above zero that is rounded to two digits:
// 9.97 is 10.
func exponent(v float64) int {
	_, power, _ := strings.Cut(strconv.FormatFloat(v, 'e', 1, 64), "e")
	n, err := strconv.Atoi(power)
	if err != nil {
		return 0 // not a finite number
	}
	return n
}

// fixed writes a number to so many decimals, or, below 0, to tens and hundreds.
func fixed(v float64, places int) string {
	if places < 0 {
		scale := math.Pow(10, float64(-places))
		v, places = math.Round(v/scale)*scale, 0
	}
	return Fixed(v, places)
}

// written returns the factor and the symbol of the unit in which a text gives a measure.
func (d *Dimension) written(text string) (factor float64, symbol string) {
	p := parser{text: text, dims: []*Dimension{d}}
	value, spread, _ := cutSpread(tidy(text))
	for _, part := range []string{value, spread} {
		terms, err := p.terms(part)
		if err != nil || len(terms) == 0 {
			continue
		}
		name := terms[len(terms)-1].unit
		if u, ok := d.unit(name); ok && name != "" && u.plain() {
			return u.to(1), plainly(name, u)
		}
	}
	return 1, d.Bare
}

// plain tells whether a unit is a plain factor.
func (u unit) plain() bool { return u.to(0) == 0 && math.Abs(u.to(2)-2*u.to(1)) <= 1e-12*u.to(1) }
