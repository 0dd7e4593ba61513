package sheet

import "strings"

// words returns the words of a line. A no-break space holds two together.
func words(line string) []string {
	return strings.FieldsFunc(line, func(r rune) bool { return r == ' ' })
}
