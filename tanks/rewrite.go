package tanks

import (
	"fmt"
	"math"
	"reflect"
	"strconv"
	"strings"

	"github.com/BurntSushi/toml"
)

// Rewritten returns the text of the rig's own file with some measures at new values and
// uncertainties, everything else as it stands there: comments, order, layout. A key that is
// there keeps its unit; one that is not is added at the end of its table; how measures
// hang together goes into [fitted]. It refuses measures that stand in the file of the tank.
func (r *Rig) Rewritten(measures []Measure, together Fitted) (string, error) {
	for _, m := range measures {
		if file, _ := r.doc.where(m.Key); file != r.doc.file {
			return "", &Error{File: file, Key: m.Key, Reason: "stands in another file than the rig's own, expected it to be changed there by hand"}
		}
	}
	text, err := rewrite(r.doc.text, measures)
	if err == nil && (len(together.Keys) > 0 || len(r.Fitted.Keys) > 0) {
		text, err = withFitted(text, together)
	}
	if err != nil {
		return "", &Error{File: r.doc.file, Reason: err.Error()}
	}
	return text, nil
}

// withFitted puts [fitted] into a text, in place of one that is there.
func withFitted(text string, f Fitted) (string, error) {
	keys, correlation := f.literals()
	for _, pair := range [][2]string{{"fitted.measures", keys}, {"fitted.correlation", correlation}} {
		var err error
		if text, err = place(text, pair[0], pair[1], found); err != nil {
			return "", fmt.Errorf("%s: %w", pair[0], err)
		}
	}
	_, err := treeOf(text)
	return text, err
}

// rewrite returns a TOML text with measures at new values. The errors name the key.
func rewrite(text string, measures []Measure) (string, error) {
	tree, err := treeOf(text)
	if err != nil {
		return "", err
	}
	for _, m := range measures {
		steps := overrideStep.FindAllString(m.Key, -1)
		words, err := wordsFor(m, lookup(tree, steps))
		if err != nil {
			return "", fmt.Errorf("%s: %w", m.Key, err)
		}
		if text, err = place(text, m.Key, strconv.Quote(words), found); err != nil {
			return "", fmt.Errorf("%s: %w", m.Key, err)
		}
		d := &Draft{text: text}
		d.Mark(m.Key, "", false) // what a log found is no guess any more
		text = d.text
		if _, err := assign(tree, steps, words); err != nil {
			return "", fmt.Errorf("%s: %w", m.Key, err)
		}
		// Whatever the layout, nothing else may have changed.
		if got, err := treeOf(text); err != nil || !reflect.DeepEqual(got, tree) {
			return "", fmt.Errorf("%s: the new value does not fit into the layout of the file, expected keys that stand each on a line of a table", m.Key)
		}
	}
	return text, nil
}

func treeOf(text string) (map[string]any, error) {
	tree := map[string]any{}
	if _, err := toml.Decode(text, &tree); err != nil {
		return nil, err
	}
	return plain(tree).(map[string]any), nil
}

// lookup returns what stands at the end of steps; nil if there is nothing.
func lookup(node any, steps []string) any {
	for _, step := range steps {
		switch n := node.(type) {
		case map[string]any:
			node = n[step]
		case []any:
			i, err := strconv.Atoi(strings.Trim(step, "[]"))
			if err != nil || i >= len(n) {
				return nil
			}
			node = n[i]
		default:
			return nil
		}
	}
	return node
}

// wordsFor writes a measure in the unit of what stands there, if anything does.
func wordsFor(m Measure, old any) (string, error) {
	like := ""
	switch old := old.(type) {
	case nil, int64, float64:
	case string:
		like = old
	default:
		return "", fmt.Errorf("%s, expected a measure", describe(old))
	}
	words := m.Dimension.Like(like, m.Value, m.Sigma)
	q, err := m.Dimension.Parse(words)
	if err != nil || !(math.Abs(q.Value-m.Value) <= m.Sigma/20+1e-5*math.Abs(m.Value)) || !(math.Abs(q.Sigma-m.Sigma) <= 0.051*m.Sigma) {
		return "", fmt.Errorf("%g ± %g %s does not read back as it is written, expected finite numbers of a like size", m.Value, m.Sigma, m.Dimension.Bare)
	}
	return words, nil
}

// found marks a key that was not in the file before.
const found = "   # found by a fill log"

// place puts a value where a key stands in a text, or else adds the key, with a comment.
func place(text, key, value, comment string) (string, error) {
	s := scan(text)
	if at, ok := s.spans[key]; ok {
		return text[:at.from] + value + text[at.to:], nil
	}
	dot := strings.LastIndex(key, ".")
	if dot < 0 || strings.HasSuffix(key, "]") {
		return "", fmt.Errorf("not in the file, expected a key of a table or an element that is there")
	}
	table, pair := key[:dot], key[dot+1:]+" = "+value
	r, ok := s.rooms[table]
	switch {
	case !ok:
		return withTable(text, table, pair+comment), nil
	case r.inline:
		return withinBraces(text, r, pair), nil
	}
	return onOwnLine(text, r, pair+comment), nil
}

// withinBraces adds a key to an inline table.
func withinBraces(text string, r room, pair string) string {
	before, after := ", ", ""
	if r.empty {
		before = " "
		if text[r.at] == '}' {
			after = " "
		}
	}
	return text[:r.at] + before + r.prefix + pair + after + text[r.at:]
}

// onOwnLine adds a key below the last one of its table, as far in as that one.
func onOwnLine(text string, r room, pair string) string {
	indent := text[strings.LastIndexByte(text[:r.from], '\n')+1 : r.from]
	if strings.Trim(indent, " \t") != "" {
		indent = "" // a byte order mark
	}
	end := len(text)
	if n := strings.IndexByte(text[r.at:], '\n'); n >= 0 {
		end = r.at + len(strings.TrimSuffix(text[r.at:r.at+n], "\r"))
	}
	return text[:end] + lineEnd(text) + indent + r.prefix + pair + text[end:]
}

// withTable adds a table with one key at the end of a text, below a blank line.
func withTable(text, table, pair string) string {
	end := lineEnd(text)
	if text != "" && !strings.HasSuffix(text, "\n") {
		text += end
	}
	if text != "" && !strings.HasSuffix(text, end+end) {
		text += end
	}
	return text + "[" + table + "]" + end + pair + end
}

// lineEnd returns what ends the lines of a text.
func lineEnd(text string) string {
	if strings.Contains(text, "\r\n") {
		return "\r\n"
	}
	return "\n"
}
