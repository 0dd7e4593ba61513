package ink

import (
	"slices"
	"sort"
	"strings"
	"unicode"

	"gonum.org/v1/plot/font"
	"gonum.org/v1/plot/vg"
)

// noBreak are the spaces that hold two words together.
const noBreak = "\u00a0\u202f"

// Words returns the words of a text.
func Words(text string) []string {
	return strings.FieldsFunc(text, func(r rune) bool { return unicode.IsSpace(r) && !strings.ContainsRune(noBreak, r) })
}

// Lines breaks a text between words into lines no wider than so; a word that is wider by
// itself is shortened.
func Lines(f font.Font, text string, width vg.Length) []string {
	var out []string
	line := ""
	for _, word := range Words(text) {
		word = Shortened(f, word, width)
		longer := strings.TrimPrefix(line+" "+word, " ")
		if line != "" && Width(f, longer) > width {
			out = append(out, line)
			longer = word
		}
		line = longer
	}
	if line != "" {
		out = append(out, line)
	}
	return out
}

// Shortened returns a text, or as much of its beginning as fits into a width with the sign
// that there is more; nothing where not even one letter does.
func Shortened(f font.Font, text string, width vg.Length) string {
	if Width(f, text) <= width {
		return text
	}
	letters := []rune(text)
	short := func(n int) string { return strings.TrimRightFunc(string(letters[:n]), unicode.IsSpace) + "…" }
	// Text grows wider with each letter, but for those that are drawn closer to their neighbour.
	n := sort.Search(len(letters), func(n int) bool { return Width(f, short(n)) > width })
	for n = min(n, len(letters)-1); n > 0; n-- {
		if s := short(n); Width(f, s) <= width {
			return s
		}
	}
	return ""
}

// Minus writes a true minus in front of numbers: −2 in place of -2. Hyphens within words
// and between numbers stay.
func Minus(text string) string {
	letters := []rune(text)
	out := slices.Clone(letters)
	for i, r := range letters {
		begins := i == 0 || !unicode.IsLetter(letters[i-1]) && !unicode.IsDigit(letters[i-1]) && !strings.ContainsRune("-/.,)%°", letters[i-1])
		if r == '-' && begins && i+1 < len(letters) && unicode.IsDigit(letters[i+1]) {
			out[i] = '−'
		}
	}
	return string(out)
}
