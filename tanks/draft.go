package tanks

import (
	"fmt"
	"regexp"
	"strings"
	"unicode/utf8"

	"github.com/BurntSushi/toml"
)

// A Draft is the text of a rig file that is filled in key by key: everything else stays as
// it stands there, comments, order and layout.
type Draft struct {
	text string
	// scanned is what was found in the text; nil after a change.
	scanned *lineScanner
}

// NewDraft returns the draft of a text. It refuses one that is not TOML.
func NewDraft(file, text string) (*Draft, error) {
	if _, err := parse(file, text); err != nil {
		return nil, err
	}
	return &Draft{text: text}, nil
}

// Text returns the text as it stands.
func (d *Draft) Text() string { return d.text }

// Clone returns a draft of the same text.
func (d *Draft) Clone() *Draft { return &Draft{text: d.text, scanned: d.scanned} }

func (d *Draft) places() *lineScanner {
	if d.scanned == nil {
		d.scanned = scan(d.text)
	}
	return d.scanned
}

func (d *Draft) change(from, to int, with string) {
	d.text, d.scanned = d.text[:from]+with+d.text[to:], nil
}

// Value returns what stands behind a key, as it is written, and whether the key is there at
// all: live, or in a comment.
func (d *Draft) Value(key string) (literal string, live, ok bool) {
	s := d.places()
	if at, ok := s.spans[key]; ok {
		return d.text[at.from:at.to], true, true
	}
	a, ok := s.asides[key]
	return d.text[a.value.from:a.value.to], false, ok
}

// Put writes a value behind a key, live or in a comment; a key that is nowhere is added to
// its table. The comment behind it keeps its column where there is room.
func (d *Draft) Put(key, literal string) error {
	old, _, ok := d.Value(key)
	if !ok {
		text, err := place(d.text, key, literal, "")
		if err != nil {
			return fmt.Errorf("%s: %w", key, err)
		}
		d.text, d.scanned = text, nil
		return nil
	}
	if old == literal {
		return nil
	}
	s := d.places()
	at, live := s.spans[key]
	if !live {
		at = s.asides[key].value
	}
	grown := utf8.RuneCountInString(literal) - utf8.RuneCountInString(old)
	d.shift(at.to, grown)
	d.change(at.from, at.to, literal)
	return nil
}

// shift makes up for what a line grows by before a place, in the space before its comment.
func (d *Draft) shift(at, grown int) {
	end := strings.IndexByte(d.text[at:]+"\n", '\n') + at
	for _, r := range d.places().remarks {
		if r.at.from < at || r.at.from > end {
			continue
		}
		from := at + len(strings.TrimRight(d.text[at:r.at.from], " "))
		gap := r.at.from - from
		d.change(from, r.at.from, strings.Repeat(" ", max(min(gap, 1), gap-grown)))
		return
	}
}

// asideMark is what takes a key out of the file.
const asideMark = "# "

// Live takes a key out of its comment, or puts it into one, and tells whether it is where it
// shall be. One whose value takes several lines stays.
func (d *Draft) Live(key string, live bool) bool {
	s := d.places()
	at, is := s.spans[key]
	a, off := s.asides[key]
	switch {
	case is == live:
		return is || off
	case live && off:
		d.shift(a.value.to, a.mark-a.start)
		d.change(a.mark, a.start, "")
		return true
	case !live:
		start, inTable := s.starts[key]
		if !inTable || strings.Contains(d.text[start:at.to], "\n") || start > 0 && d.text[start-1] != '\n' {
			return false
		}
		d.shift(at.to, len(asideMark))
		d.change(start, start, asideMark)
		return true
	}
	return false
}

// Marked tells whether a key has the mark [NotMeasured], beside its letter if it has one.
func (d *Draft) Marked(key, letter string) bool {
	r, ok := d.remarkOf(key, letter)
	return ok && strings.Contains(d.text[r.at.from:r.at.to], NotMeasured)
}

// remarkOf returns the remark of a key in which a letter stands, or else the first one.
func (d *Draft) remarkOf(key, letter string) (remark, bool) {
	s := d.places()
	_, live := s.spans[key]
	var first *remark
	for _, r := range s.remarks {
		if r.key != key || r.off == live {
			continue
		}
		if m := letterBeside.FindStringSubmatch(d.text[r.at.from:r.at.to]); m != nil && m[1] == letter {
			return r, true
		}
		if first == nil {
			first = &r
		}
	}
	if first == nil {
		return remark{}, false
	}
	return *first, true
}

// markWords is the mark with what parts it from the words behind it.
var markWords = regexp.MustCompile(NotMeasured + `[.;:,]?[ \t]*`)

// markOnly is a comment that held the mark alone, or with a letter.
var markOnly = regexp.MustCompile(`^#[ \t]*([A-Za-z]:)?$`)

// Mark marks a key as not measured, or takes the mark away.
func (d *Draft) Mark(key, letter string, mark bool) {
	if d.Marked(key, letter) == mark {
		return
	}
	r, ok := d.remarkOf(key, letter)
	switch {
	case !mark:
		words := strings.TrimRight(markWords.ReplaceAllString(d.text[r.at.from:r.at.to], ""), " \t")
		from := r.at.from
		if markOnly.MatchString(words) {
			words, from = "", len(strings.TrimRight(d.text[:from], " \t"))
		}
		d.change(from, r.at.to, words)
	case ok:
		words := strings.TrimLeft(strings.TrimPrefix(d.text[r.at.from:r.at.to], "#"), " \t")
		d.change(r.at.from, r.at.to, "# "+NotMeasured+". "+words)
	default:
		d.markBare(key, letter)
	}
}

// markBare marks a key behind which there is no comment.
func (d *Draft) markBare(key, letter string) {
	if letter != "" {
		letter += ": "
	}
	s := d.places()
	at, live := s.spans[key]
	if a, off := s.asides[key]; !live && off {
		at, live = a.value, true
	}
	if rest, _, _ := strings.Cut(d.text[at.to:], "\n"); live && strings.TrimSpace(rest) == "" {
		d.change(at.to, at.to, "   # "+letter+NotMeasured)
	}
}

// Literal returns a text as a TOML value.
func Literal(text string) string {
	var b strings.Builder
	b.WriteByte('"')
	for _, r := range strings.ToValidUTF8(text, "") {
		switch {
		case r == '"' || r == '\\':
			b.WriteByte('\\')
			b.WriteRune(r)
		case r < ' ' || r == 0x7f:
		default:
			b.WriteRune(r)
		}
	}
	b.WriteByte('"')
	return b.String()
}

// Plain returns the text or number of a TOML value, as a person writes it; empty for
// anything else.
func Plain(literal string) string {
	var one struct{ Value any }
	if _, err := toml.Decode("Value = "+literal, &one); err != nil {
		return ""
	}
	switch v := one.Value.(type) {
	case string:
		return v
	case int64, float64:
		return literal
	}
	return ""
}
