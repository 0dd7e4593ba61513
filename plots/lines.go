package plots

import (
	"strings"

	"gonum.org/v1/plot/vg"
)

// lines breaks a text at words so that each line fits a width; a word that is wider by
// itself is cut.
func lines(p pen, s string, width vg.Length) []string {
	var out []string
	line := ""
	for _, word := range strings.Fields(s) {
		word = p.cut(word, width)
		switch joined := strings.TrimSpace(line + " " + word); {
		case line == "" || p.width(joined) <= width:
			line = joined
		default:
			out, line = append(out, line), word
		}
	}
	if line != "" {
		out = append(out, line)
	}
	return out
}

// cut shortens a text to a width.
func (p pen) cut(s string, width vg.Length) string {
	if p.width(s) <= width {
		return s
	}
	letters := []rune(s)
	for len(letters) > 1 && p.width(string(letters)+"…") > width {
		letters = letters[:len(letters)-1]
	}
	return string(letters) + "…"
}
