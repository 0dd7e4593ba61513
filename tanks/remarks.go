package tanks

import (
	"regexp"
	"strings"
)

// A remark is a comment that says something of a key: it stands behind the key's value, or
// within it, or behind a key that stands in a comment itself.
type remark struct {
	key  string
	at   span // from its # to the end of the line
	line int  // from 1
	off  bool // the key stands in a comment
}

// aside is a line that is a comment, but would be a key without its #.
var aside = regexp.MustCompile(`^#[ \t]*([a-z_]+)[ \t]*=`)

// comment skips a comment and keeps what it says of a key.
func (s *lineScanner) comment() {
	from := s.pos
	if n := strings.IndexByte(s.text[from:], '\n'); n >= 0 {
		s.pos += n
	} else {
		s.pos = len(s.text)
	}
	at := span{from, from + len(strings.TrimRight(s.text[from:s.pos], " \t\r"))}
	switch {
	case s.inside != "":
		s.remarks = append(s.remarks, remark{key: s.inside, at: at, line: s.line})
	case s.lastKey != "" && s.last <= from && !strings.Contains(s.text[s.last:from], "\n"):
		s.remarks = append(s.remarks, remark{key: s.lastKey, at: at, line: s.line})
	default:
		s.aside(at)
	}
}

// aside keeps a key that stands in a comment, with the place of its value and what is said
// behind it. One that stands in the file as well counts there.
func (s *lineScanner) aside(at span) {
	m := aside.FindStringSubmatchIndex(s.text[at.from:at.to])
	if m == nil {
		return
	}
	start := at.from + m[2]
	inner := scan(s.text[start:at.to])
	name := s.text[start : at.from+m[3]]
	value, ok := inner.spans[name]
	if !ok {
		return
	}
	key := join(s.table, name)
	if s.asides == nil {
		s.asides = map[string]asideKey{}
	}
	if _, known := s.asides[key]; !known {
		s.asides[key] = asideKey{mark: at.from, start: start, value: span{start + value.from, start + value.to}}
	}
	for _, r := range inner.remarks {
		s.remarks = append(s.remarks, remark{key: key, at: span{start + r.at.from, start + r.at.to}, line: s.line, off: true})
	}
}

// An asideKey is a key that stands in a comment.
type asideKey struct {
	mark, start int // of its #, and of itself
	value       span
}
