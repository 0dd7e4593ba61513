package fullsize

import (
	"strings"

	"gonum.org/v1/plot/vg"

	"floatarc/plots/ink"
)

// wrapped breaks a text between words into lines no wider than so many mm.
func (l letters) wrapped(text string, width float64) []string {
	return ink.Lines(l.font, text, vg.Length(width)*mm)
}

// shortened cuts a text to a width, mm.
func (l letters) shortened(text string, width float64) string {
	return ink.Shortened(l.font, text, vg.Length(width)*mm)
}

// few returns the first few lines, the last of them with a sign that there were more.
func few(lines []string, most int) []string {
	if len(lines) <= most {
		return lines
	}
	out := append([]string{}, lines[:most]...)
	out[most-1] = strings.TrimRight(out[most-1], " ,;.") + " …"
	return out
}
