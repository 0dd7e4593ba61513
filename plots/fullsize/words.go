package fullsize

import "strings"

// wrapped breaks a text at its spaces into lines no wider than so many mm; a word that
// is wider alone is cut.
func wrapped(l letters, text string, width float64) []string {
	var lines []string
	line := ""
	for _, word := range strings.Fields(text) {
		word = shortened(l, word, width)
		longer := strings.TrimPrefix(line+" "+word, " ")
		if line != "" && l.width(longer) > width {
			lines = append(lines, line)
			longer = word
		}
		line = longer
	}
	if line != "" {
		lines = append(lines, line)
	}
	return lines
}

// shortened cuts a text to a width, mm.
func shortened(l letters, text string, width float64) string {
	if l.width(text) <= width {
		return text
	}
	runes := []rune(text)
	for len(runes) > 0 {
		runes = runes[:len(runes)-1]
		if short := strings.TrimRight(string(runes), " ") + "…"; l.width(short) <= width {
			return short
		}
	}
	return ""
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
