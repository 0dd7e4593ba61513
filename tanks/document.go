package tanks

import (
	"errors"
	"fmt"
	"regexp"
	"strings"

	"github.com/BurntSushi/toml"
)

// greatest size of a file, in bytes; a rig with a long outline has a few
// thousand.
const greatestFile = 1 << 20

// A document is a TOML text as a tree, with the place where each key stands.
type document struct {
	file    string
	tree    map[string]any
	origins []origin
	sources map[string]source // of each file that the tree comes from
	err     error             // the first thing found wrong

	text     string             // of the file itself
	measures []Measure          // read so far, in the order of reading
	counts   []string           // keys of whole numbers read so far
	like     *Rig               // the rig of which this is a variation; nil for none
	varied   map[string]Measure // by key: what its measures are instead

	unmeasured []Unmeasured
}

// An origin says which file the keys below a path come from.
type origin struct {
	path  string // empty for the whole tree
	file  string
	lines map[string]int
}

func parse(file, text string) (*document, error) {
	if len(text) > greatestFile {
		return nil, &Error{File: file, Reason: fmt.Sprintf("%d bytes, expected a rig or tank file of at most %d", len(text), greatestFile)}
	}
	tree := map[string]any{}
	if _, err := toml.Decode(text, &tree); err != nil {
		var p toml.ParseError
		if errors.As(err, &p) {
			message := p.Message
			if message == "" {
				message = strings.TrimPrefix(p.Error(), "toml: ")
			}
			return nil, &Error{File: file, Line: p.Position.Line, Reason: "not TOML: " + message + slip(text, p.Position.Line)}
		}
		return nil, &Error{File: file, Reason: "not TOML: " + strings.TrimPrefix(err.Error(), "toml: ")}
	}
	places := scan(text)
	return &document{
		file: file, text: text, tree: plain(tree).(map[string]any),
		origins:    []origin{{file: file, lines: places.lines}},
		unmeasured: places.unmeasured(file),
	}, nil
}

// slips are what people write that is not TOML, with what to write instead.
var slips = []struct {
	line *regexp.Regexp
	hint string
}{
	{regexp.MustCompile(`=\s*[-+]?\d+,\d+\s*(#.*)?$`), "a decimal comma? write a decimal point"},
	{regexp.MustCompile(`=\s*[-+]?[\d.]+\s*[-A-Za-z"'%/±Ω°]`), "a value with a unit or a fraction stands in quotes, such as \"11 1/2 in\""},
	{regexp.MustCompile(`=\s*[A-Za-z]`), "a word stands in quotes, such as \"left\""},
	{regexp.MustCompile(`^\s*\[tank\.body\]`), "a body starts with two brackets, [[tank.body]]"},
}

// slip returns the hint for the line that the TOML library refused.
func slip(text string, line int) string {
	lines := strings.Split(text, "\n")
	if line < 1 || line > len(lines) {
		return ""
	}
	for _, s := range slips {
		if s.line.MatchString(strings.TrimRight(lines[line-1], "\r")) {
			return " (" + s.hint + ")"
		}
	}
	return ""
}

// plain turns every array into []any.
func plain(v any) any {
	switch v := v.(type) {
	case map[string]any:
		for k, e := range v {
			v[k] = plain(e)
		}
	case []map[string]any:
		out := make([]any, len(v))
		for i, e := range v {
			out[i] = plain(e)
		}
		return out
	case []any:
		for i, e := range v {
			v[i] = plain(e)
		}
	}
	return v
}

// graft takes over the tables below a table of another document, where this one
// does not have them itself.
func (d *document) graft(path string, from *document) {
	into, _ := d.tree[path].(map[string]any)
	table, _ := from.tree[path].(map[string]any)
	for k, v := range table {
		if _, own := into[k]; own {
			continue
		}
		into[k] = v
		d.origins = append(d.origins, origin{path: path + "." + k, file: from.file, lines: from.origins[0].lines})
	}
}

// set is where overrides of one run come from, as a file name.
const set = "--set"

// where returns the place of a key: its own, or that of the nearest table above
// it that stands in the file.
func (d *document) where(key string) (file string, line int) {
	best := d.origins[0]
	for _, o := range d.origins[1:] {
		if under(key, o.path) && len(o.path) >= len(best.path) {
			best = o
		}
	}
	for path := key; path != ""; {
		if n := best.lines[path]; n > 0 {
			return best.file, n
		}
		path = path[:max(0, strings.LastIndexAny(path, ".["))]
	}
	for _, o := range d.origins[1:] {
		if o.file == set && under(o.path, key) && key != "" {
			return set, 0 // a table that only an override made
		}
	}
	if best.file == set {
		return set, 0
	}
	return best.file, 1 // what is missing from the whole file
}

func under(key, path string) bool {
	return strings.HasPrefix(key, path) && (len(key) == len(path) || key[len(path)] == '.' || key[len(path)] == '[')
}

// fail keeps the first error.
func (d *document) fail(key, format string, args ...any) {
	if d.err != nil {
		return
	}
	file, line := d.where(key)
	d.err = &Error{File: file, Line: line, Key: key, Reason: fmt.Sprintf(format, args...)}
}
