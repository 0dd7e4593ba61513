package sheet

import (
	"strings"
	"sync"
	"unicode"

	"codeberg.org/go-fonts/liberation/liberationsansregular"
	"golang.org/x/image/font/sfnt"
)

// unknown stands for a letter that the font does not have.
const unknown = '□'

var glyphs = sync.OnceValues(func() (*sfnt.Font, error) { return sfnt.Parse(liberationsansregular.TTF) })

// letters returns a text in letters that the PDF can hold. Its library panics at those
// beyond 16 bits and at broken UTF-8.
func letters(text string) string {
	font, err := glyphs()
	return strings.Map(func(r rune) rune {
		switch {
		case r == '\n':
			return r
		case r == '\t':
			return ' '
		case unicode.Is(unicode.Cc, r) || unicode.Is(unicode.Cf, r):
			return -1
		case r > 0xffff || err != nil && r > 0x17f:
			return unknown
		case err != nil:
			return r
		}
		if g, err := font.GlyphIndex(nil, r); g == 0 || err != nil {
			return unknown
		}
		return r
	}, text)
}

// bookmark returns a text for the PDF's list of properties, which has its own font but no
// more bits.
func bookmark(text string) string {
	return strings.Map(func(r rune) rune {
		switch {
		case r > 0xffff:
			return unknown
		case unicode.Is(unicode.Cc, r):
			return ' '
		}
		return r
	}, strings.ToValidUTF8(text, string(unknown)))
}

// words returns the words of a line. A no-break space holds two together.
func words(line string) []string {
	return strings.FieldsFunc(line, func(r rune) bool { return r == ' ' })
}
