package main

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"strings"

	"floatarc/plots"
	"floatarc/tanks"
	"floatarc/tanks/quantity"
)

// unfinished is the first line of a file in which there is more to ask.
var unfinished = regexp.MustCompile(`^# asked up to: ([A-Za-z]+) \([a-z_.]+\); go on with: floatarc new --ask (vehicle|boat|machine)(?: --units (us|imperial))? -o FILE\r?\n`)

// stopLine is that line.
func (s *interview) stopLine() string {
	q := s.questions[s.at]
	return fmt.Sprintf("# asked up to: %s (%s); go on with: floatarc new --ask %s%s -o FILE\n", q.id, q.key, s.form.kind, s.unitWords())
}

// unitWords is the flag of the units, unless they are the usual ones.
func (s *interview) unitWords() string {
	if s.sys.Name == quantity.Metric.Name {
		return ""
	}
	return " --units " + s.sys.Name
}

// An earlier is an unfinished file.
type earlier struct {
	kind, units, at string // at is the id of the question to go on with
	text            string // without its first line
}

// earlierAt reads the file at a path, if there is one. It refuses a finished one unless it is
// to be written over; then there is nothing to go on with.
func earlierAt(path string, force bool) (*earlier, error) {
	if dir := filepath.Dir(path); !isFolder(dir) {
		return nil, fmt.Errorf("%s: no folder %s, expected one that is there", path, dir)
	}
	text, err := os.ReadFile(path)
	switch {
	case errors.Is(err, fs.ErrNotExist) || err == nil && force:
		return nil, nil
	case err != nil:
		return nil, err
	}
	m := unfinished.FindStringSubmatch(string(text))
	if m == nil {
		return nil, fmt.Errorf("%s: exists already and is not an unfinished file of new --ask, expected another name or --force", path)
	}
	e := &earlier{at: m[1], kind: m[2], units: m[3], text: strings.TrimPrefix(string(text), m[0])}
	if e.units == "" {
		e.units = quantity.Metric.Name
	}
	return e, nil
}

// resume goes on with an unfinished file.
func (s *interview) resume(e *earlier) error {
	d, err := tanks.NewDraft(s.path, e.text)
	if err != nil {
		return err
	}
	shape, err := drawnShape(d)
	if err != nil {
		return fmt.Errorf("%s: %w", s.path, err)
	}
	s.open(form{e.kind, shape}, d)
	s.read()
	for i, q := range s.questions {
		if q.id == e.at {
			s.at = i
			return nil
		}
	}
	return fmt.Errorf("%s:1: asked up to %s, which is not asked of such a tank, expected a letter of its list", s.path, e.at)
}

// drawnShape returns the shape of the tank in a draft, if it is one of those that are asked for.
func drawnShape(d *tanks.Draft) (plots.TankShape, error) {
	literal, _, _ := d.Value(bodySection + "[0].shape")
	for shape, word := range shapeKeys {
		if tanks.Plain(literal) == word {
			return shape, nil
		}
	}
	return 0, fmt.Errorf("tank.body[0].shape: %s, expected \"box\", \"cylinder\" or \"outline\": new --ask asks for no other; delete the first line and fill in the rest by hand", literal)
}

// save writes the file: with its first line if there is more to ask.
func (s *interview) save() error {
	text := s.draft.Text()
	if s.at < len(s.questions) {
		text = s.stopLine() + text
	}
	return writeFile(s.path, []byte(text), true)
}
