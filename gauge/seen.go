package gauge

import (
	"fmt"
	"math"
	"regexp"
	"strconv"
	"strings"
)

// What an eye says of a needle, as shares of the dial (common practice, no source).
const (
	withinPlain = 0.02 // a mark or a percentage
	withinAbout = 0.04 // "about" one
	justBeside  = 0.03 // how far "just over" is, and within what
	beside      = 0.06 // how far "over" is, and within what
)

// Seen returns where on the dial a needle stands that somebody describes, and within
// what, ±, it is meant, both as shares of the dial. A text is a place, what is beside
// one, or what is between two: "1/4", "E", "40 %", "on full", "about 3/8", "just over
// 1/2", "a bit under 3/4", "between 1/4 and 1/2".
//
// A place is a mark by its label, whatever the case; "empty", "quarter", "half",
// "three quarters" or "full" if the dial has a mark for that share of the fuel; a
// percentage or a decimal, which is the position itself; or any other fraction, which
// is a share of the fuel. How far beside and within what each is meant is common
// practice, no source.
func (d *Dial) Seen(text string) (position, within float64, err error) {
	said := spoken(text)
	if at, ok := d.place(said); ok { // first, for a label may be of any words
		return at, withinPlain, nil
	}
	said, least := opening(strings.TrimSuffix(strings.TrimSuffix(said, " tank"), " mark"))
	position, within, ok := d.described(said)
	if !ok {
		return 0, 0, fmt.Errorf(`needle %q, expected a mark (%s), a percentage of the dial such as "40 %%", "just over" or "just under" one, or "between" one "and" another`,
			excerpt(text), d.labels())
	}
	return position, math.Max(least, within), nil
}

// described finds a place, what is beside one, or what is between two.
func (d *Dial) described(said string) (position, within float64, ok bool) {
	if at, ok := d.place(said); ok {
		return at, withinPlain, true
	}
	if pair, ok := strings.CutPrefix(said, "between "); ok {
		return d.between(pair)
	}
	name, away := direction(said)
	at, ok := d.place(name)
	return min(max(at+away, 0), 1), math.Abs(away), ok && away != 0
}

// between finds the middle of two places; a label may itself have an "and".
func (d *Dial) between(pair string) (position, within float64, ok bool) {
	words := strings.Split(pair, " and ")
	for i := 1; i < len(words); i++ {
		a, ok1 := d.place(strings.Join(words[:i], " and "))
		b, ok2 := d.place(strings.Join(words[i:], " and "))
		if ok1 && ok2 && a != b {
			return (a + b) / 2, math.Abs(b-a) / 2, true
		}
	}
	return 0, 0, false
}

// Words for marks, by the share of the fuel that they stand for.
var markWords = map[string]float64{
	"empty": 0, "quarter": 0.25, "a quarter": 0.25, "half": 0.5, "a half": 0.5, "three quarters": 0.75, "three-quarters": 0.75, "full": 1,
}

var (
	percentage = regexp.MustCompile(`^(\d+\.?\d*|\.\d+)%$`)
	decimal    = regexp.MustCompile(`^(\d+\.?\d*|\.\d+)$`)
	fraction   = regexp.MustCompile(`^(\d+)/(\d+)$`)
)

// place finds the position of a mark, a percentage, a decimal or a fraction.
func (d *Dial) place(said string) (position float64, ok bool) {
	for _, m := range d.Marks {
		if said != "" && spoken(m.Label) == said {
			return m.Position, true
		}
	}
	if share, ok := markWords[said]; ok {
		for _, m := range d.Marks {
			if math.Abs(m.Share-share) < 1e-9 {
				return m.Position, true
			}
		}
		return 0, false
	}
	if m := percentage.FindStringSubmatch(said); m != nil {
		v, err := strconv.ParseFloat(m[1], 64)
		return v / 100, err == nil && v <= 100
	}
	if decimal.MatchString(said) {
		v, err := strconv.ParseFloat(said, 64)
		return v, err == nil && v <= 1
	}
	if m := fraction.FindStringSubmatch(said); m != nil {
		a, err1 := strconv.ParseFloat(m[1], 64)
		b, err2 := strconv.ParseFloat(m[2], 64)
		if err1 != nil || err2 != nil || b == 0 || a > b {
			return 0, false
		}
		return d.Position(a / b), true
	}
	return 0, false
}

// opening cuts the words that may stand before a place, and tells within what it is
// meant at least.
func opening(said string) (rest string, least float64) {
	for {
		word, after, _ := strings.Cut(said, " ")
		switch word {
		case "on", "at":
		case "about":
			least = withinAbout
		default:
			return said, least
		}
		said = after
	}
}

// direction cuts "just over" and the like; away is 0 if there is nothing of the kind.
func direction(said string) (rest string, away float64) {
	away = beside
	for _, little := range []string{"just ", "slightly ", "a bit ", "a little ", "a hair "} {
		if after, ok := strings.CutPrefix(said, little); ok {
			said, away = after, justBeside
			break
		}
	}
	word, rest, _ := strings.Cut(said, " ")
	switch word {
	case "over", "above", "past":
		return rest, away
	case "under", "below":
		return rest, -away
	case "nearly", "almost":
		return rest, -justBeside
	}
	return "", 0
}

var (
	spellings = strings.NewReplacer(
		"⅛", " 1/8", "¼", " 1/4", "⅓", " 1/3", "⅜", " 3/8", "½", " 1/2",
		"⅝", " 5/8", "⅔", " 2/3", "¾", " 3/4", "⅞", " 7/8", "⁄", "/",
	)
	aroundSlash   = regexp.MustCompile(` ?/ ?`)
	beforePercent = regexp.MustCompile(` ?(%|percent\b)`)
)

// spoken brings a text to one spelling: lower case, single spaces, none around a slash
// or before a percent sign.
func spoken(text string) string {
	text = strings.Join(strings.Fields(spellings.Replace(strings.ToLower(text))), " ")
	return beforePercent.ReplaceAllString(aroundSlash.ReplaceAllString(text, "/"), "%")
}

// labels lists the marks.
func (d *Dial) labels() string {
	var out []string
	for _, m := range d.Marks {
		out = append(out, excerpt(m.Label))
	}
	return strings.Join(out, ", ")
}

// excerpt returns a text in one line, and not all of a long one.
func excerpt(text string) string {
	const most = 40
	text = strings.Join(strings.Fields(text), " ")
	if letters := []rune(text); len(letters) > most {
		return string(letters[:most]) + "…"
	}
	return text
}
