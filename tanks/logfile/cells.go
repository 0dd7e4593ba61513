package logfile

import (
	"fmt"
	"regexp"
	"strings"

	"floatarc/tanks/quantity"
)

// longestCell is the greatest length of a cell that holds a measure, and of a
// column's name that is compared with the known ones, in bytes.
const longestCell = 80

// Numbers without a unit: "10", "-2.5e1", "1 1/2", "10 ± 0.1".
var bare = regexp.MustCompile(`^[-+±−–0-9./⁄eE½¼¾⅛⅜⅝⅞\s\pZ]+$`)

// measure reads a cell; a bare number is in the column's unit.
func (c *column) measure(text string) (quantity.Quantity, error) {
	if c.dim == nil {
		return counts(text)
	}
	if len(text) > longestCell {
		return quantity.Quantity{}, fmt.Errorf("%d letters, expected %s such as %s", len([]rune(text)), c.dim.Name, c.dim.Hint)
	}
	if bare.MatchString(text) {
		text += " " + c.unit
	}
	return c.dim.Parse(text)
}

// plainly reads a cell that may not state an uncertainty.
func (c *column) plainly(text string) (float64, error) {
	q, err := c.measure(text)
	if err == nil && q.Sigma != 0 {
		err = fmt.Errorf("%q has an uncertainty, expected a number by itself: only amounts and readings may have one", text)
	}
	return q.Value, err
}

// counts reads a number of a converter, which has no unit.
func counts(text string) (quantity.Quantity, error) {
	number := strings.TrimSpace(strings.TrimSuffix(text, "counts"))
	if len(number) <= longestCell && bare.MatchString(number) {
		if q, err := quantity.Share.Parse(number); err == nil {
			return q, nil
		}
	}
	return quantity.Quantity{}, fmt.Errorf(`%q is not a number of counts, expected one such as 512 or "512 ± 2"`, short(text))
}

// short returns a text of the file as an error shows it: in one line, and not all of
// a long one.
func short(text string) string {
	text = strings.Join(strings.Fields(text), " ")
	if letters := []rune(text); len(letters) > longestCell/2 {
		return string(letters[:longestCell/2]) + "…"
	}
	return text
}
