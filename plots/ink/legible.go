package ink

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

// Legible returns a text in letters that a PDF can hold: □ stands for those that the font
// does not have, and what cannot be seen is left out, but for line breaks. The library
// panics at letters beyond 16 bits and at broken UTF-8.
func Legible(text string) string {
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

// property returns a text for a PDF's list of properties, which has its own font but no
// more bits.
func property(text string) string {
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
