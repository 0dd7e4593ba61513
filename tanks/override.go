package tanks

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"

	"github.com/BurntSushi/toml"
)

var (
	overrideKey  = regexp.MustCompile(`^[a-z_]+(\[\d+\])*(\.[a-z_]+(\[\d+\])*)*$`)
	overrideStep = regexp.MustCompile(`[a-z_]+|\[\d+\]`)
)

// override applies assignments key=value to the tree. A value is TOML, or else a
// plain text: sender.arm=230, "sender.arm=9 in", tank.pickup.at=[300,160,8].
func (d *document) override(assignments ...string) error {
	for _, a := range assignments {
		if err := d.overrideOne(a); err != nil {
			return err
		}
	}
	return nil
}

func (d *document) overrideOne(assignment string) error {
	key := overrideTarget(assignment)
	_, text, found := strings.Cut(assignment, "=")
	refuse := func(format string, args ...any) error {
		return &Error{File: set, Key: key, Reason: fmt.Sprintf(format, args...)}
	}
	if !found || !overrideKey.MatchString(key) {
		return refuse("expected key=value such as sender.arm=230 or tank.body[0].length=640")
	}
	steps := overrideStep.FindAllString(key, -1)
	tree, err := assign(d.tree, steps, tomlValue(strings.TrimSpace(text)))
	if err != nil {
		return refuse("%v", err)
	}
	d.tree = tree.(map[string]any)
	d.origins = append(d.origins, origin{path: key, file: set})
	return nil
}

// overrideTarget returns the key of an assignment.
func overrideTarget(assignment string) string {
	key, _, _ := strings.Cut(assignment, "=")
	return strings.TrimSpace(key)
}

// tomlValue reads a TOML value; what is not one is a text.
func tomlValue(text string) any {
	var one map[string]any
	if _, err := toml.Decode("value = "+text, &one); err != nil || len(one) != 1 {
		return text
	}
	return plain(one["value"])
}

// assign returns the node with the value put in at the end of steps. Tables
// that are missing are made; elements of arrays must exist.
func assign(node any, steps []string, value any) (any, error) {
	if len(steps) == 0 {
		return value, nil
	}
	step := steps[0]
	if strings.HasPrefix(step, "[") {
		list, ok := node.([]any)
		i, err := strconv.Atoi(strings.Trim(step, "[]"))
		if !ok || err != nil || i >= len(list) {
			return nil, fmt.Errorf("there is no element %s, expected one of the %d there are", step, len(list))
		}
		list[i], err = assign(list[i], steps[1:], value)
		return list, err
	}
	if node == nil {
		node = map[string]any{}
	}
	table, ok := node.(map[string]any)
	if !ok {
		return nil, fmt.Errorf("%s is not within a table, expected the name of a key of a table (an element of a list is written [0])", step)
	}
	child, err := assign(table[step], steps[1:], value)
	if err != nil {
		return nil, err
	}
	table[step] = child
	return table, nil
}
