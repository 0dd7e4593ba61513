package main

import (
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"floatarc/tanks"
	"floatarc/tanks/quantity"
)

// bareAnswer is an answer without a unit: figures, fractions and what stands between them.
var bareAnswer = regexp.MustCompile(`^[\s\d.,+\-−–/±⁄⅛¼⅜½⅝¾⅞]+$`)

// fileUnits are units as they are written in a file, where the form has them otherwise.
var fileUnits = map[string]string{"mm²": "mm2", "Ω": "ohm", "°": "deg"}

// readMeasure reads a measure of one of some dimensions; a bare number is in the unit.
func readMeasure(unit string, dims ...*quantity.Dimension) reader {
	if u, ok := fileUnits[unit]; ok {
		unit = u
	}
	return func(text string) (string, error) {
		if bareAnswer.MatchString(text) && (len(dims) > 1 || unit != dims[0].Bare) {
			text += " " + unit
		}
		q, _, err := quantity.ParseAny(text, dims...)
		if err != nil {
			return "", err
		}
		if bareAnswer.MatchString(text) && !strings.ContainsAny(text, "±/") && !strings.Contains(text, "+-") {
			return strconv.FormatFloat(q.Value, 'g', -1, 64), nil
		}
		return tanks.Literal(strings.Join(strings.Fields(text), " ")), nil
	}
}

// orNone takes "none" for nothing of it.
func orNone(read reader) reader {
	return func(text string) (string, error) {
		if strings.EqualFold(text, "none") {
			return "0", nil
		}
		return read(text)
	}
}

// readPlace reads three lengths. Those with a fraction or a unit have commas between them.
func readPlace(unit string) reader {
	one := readMeasure(unit, quantity.Length)
	return func(text string) (string, error) {
		parts := separate(text)
		if len(parts) != 3 {
			return "", fmt.Errorf("%q, expected three lengths: forward, left and up from the origin, with commas between them such as 310, 160, 195", text)
		}
		for i, p := range parts {
			literal, err := one(p)
			if err != nil {
				return "", err
			}
			parts[i] = literal
		}
		return "[" + strings.Join(parts, ", ") + "]", nil
	}
}

// spaced is a comma between values, and not within one.
var spaced = regexp.MustCompile(`,\s+`)

// separate parts a list: by semicolons, by commas that have a space behind them, by spaces,
// or by commas alone where there are several.
func separate(text string) []string {
	text = strings.Trim(strings.TrimSpace(text), "[]")
	var parts []string
	switch {
	case strings.Contains(text, ";"):
		parts = strings.Split(text, ";")
	case spaced.MatchString(text):
		parts = spaced.Split(text, -1)
	case strings.ContainsAny(text, " \t"):
		parts = strings.Fields(text)
	case strings.Count(text, ",") == 1: // a decimal comma
		parts = []string{text}
	default:
		parts = strings.Split(text, ",")
	}
	for i, p := range parts {
		parts[i] = strings.TrimSpace(p)
	}
	return parts
}

func readName(text string) (string, error) {
	const longest = 200
	if len(text) > longest {
		return "", fmt.Errorf("%d bytes, expected a name of at most %d", len(text), longest)
	}
	return tanks.Literal(text), nil
}

// readWord reads one of some words.
func readWord(words ...string) reader {
	return func(text string) (string, error) {
		word := strings.ToLower(text)
		if !slices.Contains(words, word) {
			last := len(words) - 1
			return "", fmt.Errorf("%q, expected %s or %s", text, strings.Join(words[:last], ", "), words[last])
		}
		return tanks.Literal(word), nil
	}
}

func readHeads(text string) (string, error) {
	word, err := readWord("flat", "torispherical", "ellipsoidal", "hemispherical")(text)
	return "{ shape = " + word + " }", err
}

// headsWord is the shape of the heads in a draft.
func headsWord(d *tanks.Draft) string {
	literal, _, _ := d.Value(bodySection + "[0].heads.shape")
	return tanks.Plain(literal)
}

func readHeading(text string) (string, error) {
	if word, err := readWord("forward", "left", "aft", "right")(text); err == nil {
		return word, nil
	}
	degrees, err := readMeasure("°", quantity.Angle)(text)
	if err != nil {
		return "", fmt.Errorf("%q, expected forward, left, aft or right, or degrees from forward towards left", text)
	}
	return degrees, nil
}

// readBetween reads pairs of angle and ohms, taken between the stops, and leaves room for
// those at the stops.
func readBetween(text string) (string, error) {
	angle, ohms := readMeasure("°", quantity.Angle), readMeasure("Ω", quantity.Resistance)
	var rows []string
	for _, pair := range strings.FieldsFunc(text, func(r rune) bool { return r == ',' || r == ';' }) {
		values := strings.Fields(pair)
		if len(values) != 2 {
			return "", fmt.Errorf("%q, expected pairs of an angle and its ohms with commas between them, such as -30 180, -10 90", text)
		}
		a, err := angle(values[0])
		if err != nil {
			return "", err
		}
		r, err := ohms(values[1])
		if err != nil {
			return "", err
		}
		rows = append(rows, fmt.Sprintf("[%s, %s]", a, r))
	}
	if len(rows) == 0 {
		return "", fmt.Errorf("%q, expected pairs of an angle and its ohms such as -30 180, -10 90", text)
	}
	const stop = "[0, 0]" // joinOhms puts the readings at the stops there
	return "[" + strings.Join(append([]string{stop}, append(rows, stop)...), ", ") + "]", nil
}

// readResponse reads the ohms with which the needle stands at E, half way if that is known, and F.
func readResponse(text string) (string, error) {
	parts := separate(text)
	if len(parts) != 2 && len(parts) != 3 {
		return "", fmt.Errorf("%q, expected the ohms at E and F, or at E, half way and F, such as 10 95 180", text)
	}
	positions := map[int][]string{2: {"0", "1"}, 3: {"0", "0.5", "1"}}[len(parts)]
	for i, p := range parts {
		ohms, err := readMeasure("Ω", quantity.Resistance)(p)
		if err != nil {
			return "", err
		}
		parts[i] = fmt.Sprintf("[%s, %s]", ohms, positions[i])
	}
	return "[" + strings.Join(parts, ", ") + "]", nil
}

// markShares are what some labels stand for.
var markShares = map[string]string{"E": "0", "R": "0", "F": "1"}

// readMarkWords reads the labels of a dial from empty to full: E, F, or a fraction; or a
// label with its share, "low=1/8".
func readMarkWords(text string) (string, error) {
	var out []string
	for _, word := range strings.FieldsFunc(text, func(r rune) bool { return r == ' ' || r == '\t' || r == ',' || r == ';' }) {
		label, share, given := strings.Cut(word, "=")
		if known, ok := markShares[strings.ToUpper(label)]; ok && !given {
			share, given = known, true
		}
		if !given {
			share = label
		}
		q, err := quantity.Share.Parse(share)
		if err != nil {
			return "", fmt.Errorf("mark %q, expected E, F, a fraction, or label=share, such as E 1/4 1/2 3/4 F", word)
		}
		out = append(out, fmt.Sprintf("{ label = %s, share = %s }", tanks.Literal(label), strconv.FormatFloat(q.Value, 'g', -1, 64)))
	}
	return "[ " + strings.Join(out, ", ") + " ]", nil
}

// spoken is a TOML value as a person answers: without quotes and brackets.
func spoken(literal string) string {
	inner, list := strings.CutPrefix(literal, "[")
	if !list {
		return tanks.Plain(literal)
	}
	if strings.ContainsAny(inner, "[{") {
		return ""
	}
	parts := strings.Split(strings.TrimSuffix(inner, "]"), ",")
	for i, p := range parts {
		parts[i] = tanks.Plain(strings.TrimSpace(p))
	}
	return strings.Join(parts, ", ")
}
