package tanks

import (
	"fmt"
	"strings"
)

// A span is a part of a text.
type span struct{ from, to int }

// A room is where a table takes another key: after its last one, or after its heading or
// opening brace where it has none.
type room struct {
	from   int    // start of the last key, or of the heading
	at     int    // end of its value, or of the heading
	prefix string // of keys that are written with dots there: "resistance."
	inline bool   // within braces
	empty  bool   // there is no key yet
}

// scan finds the line, from 1, of every key and array element of a TOML
// text: "tank.body[0].points[2]" and so on. The text must already have been
// accepted by the TOML library, which keeps no positions of keys; on other
// texts the result is merely useless. It finds the span of every value, too, and the room
// for another key of every table.
func scan(text string) *lineScanner {
	s := &lineScanner{text: text, line: 1, lines: map[string]int{}, count: map[string]int{}, spans: map[string]span{}, rooms: map[string]room{}, starts: map[string]int{}}
	for {
		s.blank(true)
		if s.pos >= len(s.text) {
			return s
		}
		at := s.pos
		if s.text[s.pos] == '[' {
			s.header()
			s.rooms[s.table] = room{from: at, at: s.pos, empty: true}
		} else {
			names := s.pair(s.table)
			s.after(s.table, names, room{from: at, at: s.last})
		}
		if s.pos == at { // not TOML; never stand still
			s.pos++
		}
	}
}

type lineScanner struct {
	text  string
	pos   int
	line  int
	table string         // path of the table that is open
	lines map[string]int // found so far
	count map[string]int // tables in each array of tables

	spans map[string]span // of values
	rooms map[string]room // by table
	last  int             // end of the last value

	starts  map[string]int // of keys that stand in a table, by path
	inside  string         // path of the key whose value is being read
	lastKey string         // path of the last key of a table
	remarks []remark
	asides  map[string]asideKey // keys that stand in comments
}

func (s *lineScanner) peek() byte {
	if s.pos < len(s.text) {
		return s.text[s.pos]
	}
	return 0
}

func (s *lineScanner) step() {
	if s.peek() == '\n' {
		s.line++
	}
	s.pos++
}

// blank skips white space and, if newlines do not matter, comments and line
// ends.
func (s *lineScanner) blank(newlines bool) {
	for s.pos < len(s.text) {
		switch c := s.peek(); {
		case c == ' ' || c == '\t' || newlines && (c == '\n' || c == '\r'):
			s.step()
		case c == '#' && newlines:
			s.comment()
		default:
			return
		}
	}
}

func (s *lineScanner) note(path string) {
	if _, known := s.lines[path]; !known {
		s.lines[path] = s.line
	}
}

// header reads [a.b] or [[a.b]].
func (s *lineScanner) header() {
	s.step()
	array := s.peek() == '['
	if array {
		s.step()
	}
	path := ""
	keys := s.keys()
	for i, k := range keys {
		path = join(path, k)
		if i < len(keys)-1 || !array {
			if n := s.count[path]; n > 0 {
				path = fmt.Sprintf("%s[%d]", path, n-1)
			}
		}
	}
	if array {
		s.note(path)
		n := s.count[path]
		s.count[path]++
		path = fmt.Sprintf("%s[%d]", path, n)
	}
	s.note(path)
	s.table = path
	for s.pos < len(s.text) && s.peek() != '\n' {
		s.step()
	}
}

// pair reads key = value within a table, and returns the names that the dots part.
func (s *lineScanner) pair(table string) []string {
	path := table
	at := s.pos
	names := s.keys()
	for _, k := range names {
		path = join(path, k)
		s.note(path)
	}
	s.blank(false)
	if s.peek() != '=' {
		return names
	}
	s.step()
	outermost := s.inside == ""
	if outermost {
		s.inside, s.starts[path] = path, at
	}
	s.value(path)
	if outermost {
		s.inside, s.lastKey = "", path
	}
	return names
}

// after notes the room after a key for the table in which it stands, and for those that its
// dots make: these cannot have a heading of their own.
func (s *lineScanner) after(table string, names []string, r room) {
	for _, k := range names {
		s.rooms[table] = r
		table, r.prefix = join(table, k), r.prefix+k+"."
	}
}

// keys reads a bare, quoted or dotted key.
func (s *lineScanner) keys() []string {
	var out []string
	for {
		s.blank(false)
		c := s.peek()
		switch {
		case c == '"' || c == '\'':
			start := s.pos + 1
			s.quoted()
			out = append(out, s.text[min(start, len(s.text)):max(min(start, len(s.text)), s.pos-1)])
		case bare(c):
			start := s.pos
			for bare(s.peek()) {
				s.step()
			}
			out = append(out, s.text[start:s.pos])
		default:
			return out
		}
		s.blank(false)
		if s.peek() != '.' {
			return out
		}
		s.step()
	}
}

func bare(c byte) bool {
	return c >= 'a' && c <= 'z' || c >= 'A' && c <= 'Z' || c >= '0' && c <= '9' || c == '_' || c == '-'
}

func join(path, key string) string {
	if path == "" {
		return key
	}
	return path + "." + key
}

// value skips a value, noting where it is and what it holds.
func (s *lineScanner) value(path string) {
	s.blank(true)
	from := s.pos
	s.skip(path)
	s.last = from + len(strings.TrimRight(s.text[from:s.pos], " \t\r"))
	if _, known := s.spans[path]; !known {
		s.spans[path] = span{from, s.last}
	}
}

func (s *lineScanner) skip(path string) {
	switch c := s.peek(); c {
	case '[':
		s.step()
		for i := 0; s.more(']'); i++ {
			element := fmt.Sprintf("%s[%d]", path, i)
			s.note(element)
			s.value(element)
		}
	case '{':
		s.step()
		s.rooms[path] = room{at: s.pos, inline: true, empty: true}
		for s.more('}') {
			at := s.pos
			names := s.pair(path)
			s.after(path, names, room{from: at, at: s.last, inline: true})
			if s.pos == at {
				return
			}
		}
	case '"', '\'':
		s.quoted()
	default:
		for s.pos < len(s.text) && !strings.ContainsRune(",]}#\n", rune(s.peek())) {
			s.step()
		}
	}
}

// more skips to the next element of an array or inline table, and past its end.
func (s *lineScanner) more(end byte) bool {
	s.blank(true)
	if s.peek() == ',' {
		s.step()
		s.blank(true)
	}
	if s.peek() == end {
		s.step()
		return false
	}
	// A stray closing bracket would not move on.
	return s.pos < len(s.text) && s.peek() != ']' && s.peek() != '}' && s.peek() != ','
}

// quoted skips a string of any of the four kinds.
func (s *lineScanner) quoted() {
	q := s.peek()
	if triple := strings.Repeat(string(q), 3); strings.HasPrefix(s.text[s.pos:], triple) {
		s.pos += 3
		for s.pos < len(s.text) && !strings.HasPrefix(s.text[s.pos:], triple) {
			s.escaped(q)
		}
		for i := 0; i < 5 && s.peek() == q; i++ { // up to two quotes may end the text itself
			s.step()
		}
		return
	}
	s.step()
	for s.pos < len(s.text) && s.peek() != q && s.peek() != '\n' {
		s.escaped(q)
	}
	if s.peek() == q {
		s.step()
	}
}

func (s *lineScanner) escaped(q byte) {
	if q == '"' && s.peek() == '\\' {
		s.step()
	}
	if s.pos < len(s.text) {
		s.step()
	}
}
