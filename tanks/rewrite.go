package tanks

import (
	"fmt"
	"reflect"
	"strconv"
	"strings"

	"github.com/BurntSushi/toml"
)

// Rewritten returns the text of the rig's own file with some measures at new values and
// uncertainties, everything else as it stands there: comments, order, layout. A key that is
// there keeps its unit; one that is not is added at the end of its table. It refuses
// measures that stand in the file of the tank.
func (r *Rig) Rewritten(measures []Measure) (string, error) {
	for _, m := range measures {
		if file, _ := r.doc.where(m.Key); file != r.doc.file {
			return "", &Error{File: file, Key: m.Key, Reason: "stands in another file than the rig's own, expected it to be changed there by hand"}
		}
	}
	text, err := rewrite(r.doc.text, measures)
	if err != nil {
		return "", &Error{File: r.doc.file, Reason: err.Error()}
	}
	return text, nil
}

// rewrite returns a TOML text with measures at new values.
func rewrite(text string, measures []Measure) (string, error) {
	before, err := treeOf(text)
	if err != nil {
		return "", err
	}
	var want any = before
	for _, m := range measures {
		var literal string
		if text, literal, err = place(text, m); err != nil {
			return "", err
		}
		if want, err = assign(want, overrideStep.FindAllString(m.Key, -1), tomlValue(literal)); err != nil {
			return "", fmt.Errorf("%s: %w", m.Key, err)
		}
	}
	// Whatever the layout, nothing else may have changed.
	got, err := treeOf(text)
	if err != nil || !reflect.DeepEqual(got, want) {
		return "", fmt.Errorf("the new values do not fit into the layout of the file, expected keys that stand each on a line of a table")
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

// found marks a key that was not in the file before.
const found = "# found by a fill log"

// place puts a measure into a text, and returns it with what stands there now.
func place(text string, m Measure) (placed, literal string, err error) {
	s := scan(text)
	if at, ok := s.spans[m.Key]; ok {
		old := text[at.from:at.to]
		if strings.HasPrefix(old, "[") || strings.HasPrefix(old, "{") {
			return "", "", fmt.Errorf("%s: %s, expected a measure", m.Key, oneLine(old))
		}
		literal = quoted(m, strings.Trim(old, `"'`))
		return text[:at.from] + literal + text[at.to:], literal, nil
	}
	dot := strings.LastIndex(m.Key, ".")
	if dot < 0 || strings.HasSuffix(m.Key, "]") {
		return "", "", fmt.Errorf("%s: not in the file, expected a key of a table or an element that is there", m.Key)
	}
	table, name := m.Key[:dot], m.Key[dot+1:]
	literal = quoted(m, "")
	pair := name + " = " + literal
	if at, ok := s.spans[table]; ok && strings.HasSuffix(text[:at.to], "}") {
		inside := strings.TrimRight(text[:at.to-1], " ")
		if !strings.HasSuffix(inside, "{") {
			pair = ", " + pair
		}
		return inside + pair + " " + text[at.to-1:], literal, nil
	}
	if end, ok := s.ends[table]; ok {
		if next := strings.IndexByte(text[end:], '\n'); next >= 0 {
			end += next
		} else {
			end = len(text)
		}
		return text[:end] + "\n" + pair + "   " + found + text[end:], literal, nil
	}
	return strings.TrimRight(text, "\n") + "\n\n[" + table + "]\n" + pair + "   " + found + "\n", literal, nil
}

// quoted writes a measure in the unit of what stood there.
func quoted(m Measure, old string) string {
	return strconv.Quote(m.Dimension.Like(old, m.Value, m.Sigma))
}
