package tanks

import (
	"fmt"
	"strings"
)

// An Error says where a file is wrong, what is wrong and what was expected, in
// one line.
type Error struct {
	File   string
	Line   int    // from 1; 0 if it is not about a line
	Key    string // "tank.body[0].radius"; empty if it is not about a key
	Reason string
}

func (e *Error) Error() string {
	var b strings.Builder
	b.WriteString(e.File)
	if e.Line > 0 {
		fmt.Fprintf(&b, ":%d", e.Line)
	}
	b.WriteString(": ")
	if e.Key != "" {
		b.WriteString(oneLine(e.Key) + ": ")
	}
	b.WriteString(oneLine(e.Reason))
	return b.String()
}

// oneLine folds white space: a key or a value may hold line ends.
func oneLine(s string) string { return strings.Join(strings.Fields(s), " ") }
