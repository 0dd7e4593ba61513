package main

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"floatarc/tanks"
)

// reason is what an error says of a key, without the file and the line.
func reason(err error) string {
	var e *tanks.Error
	switch {
	case err == nil:
		return ""
	case errors.As(err, &e) && e.Key != "":
		return strings.Join(strings.Fields(e.Key+": "+e.Reason), " ")
	case errors.As(err, &e):
		return strings.Join(strings.Fields(e.Reason), " ")
	}
	return err.Error()
}

// blames tells whether an error is about an answer, or about one before it that it does not
// go with; and not about a default.
func (s *interview) blames(q question, d *tanks.Draft, err error) bool {
	owners := s.owners(err)
	if len(owners) == 0 {
		return true
	}
	return slices.ContainsFunc(owners, func(i int) bool { return s.questions[i].id == q.id || s.questions[i].known(d) && !s.questions[i].kept })
}

// owners are the questions for the key of an error.
func (s *interview) owners(err error) []int {
	var e *tanks.Error
	if !errors.As(err, &e) || e.Key == "" {
		return nil
	}
	var out []int
	for i, q := range s.questions {
		if q.id == askKind {
			continue
		}
		if slices.ContainsFunc(append([]string{q.place}, q.keys...), func(key string) bool { return within(e.Key, key) || within(key, e.Key) && key != "" }) {
			out = append(out, i)
		}
	}
	return out
}

// within tells whether a key is another one or below it.
func within(key, path string) bool {
	rest, ok := strings.CutPrefix(key, path)
	return ok && (rest == "" || rest[0] == '.' || rest[0] == '[')
}

// prove reads the whole file at the end. One that cannot be read is asked about again.
func (s *interview) prove() {
	_, err := tanks.Read(s.path, s.draft.Text())
	if err == nil {
		return
	}
	s.at = len(s.questions) - 1
	if owners := s.owners(err); len(owners) > 0 {
		s.at = owners[0]
	}
	s.say("The file cannot be read yet: %s.", reason(err))
}

// remarked are the warnings of check that are told at once, with the letter from which on
// everything is known that they are about.
var remarked = map[string]string{
	"rated_differs": "J", "wall_thin": "J", "girth_without_wall": "J", "fill_above_tank": "K", "pickup_high": "L", "mount_steep": "M",
	"arm_short": "Q", "swing_cut": "T", "arm_sticks": "T", "sense_reversed": "d", "range_differs": "d",
}

// remark tells what check would warn of, once.
func (s *interview) remark(q question, rig *tanks.Rig) {
	if q.letter == "" {
		return
	}
	rank := func(letter string) int {
		return slices.IndexFunc(s.questions, func(q question) bool { return q.id == letter })
	}
	for _, w := range jobOf(rig, s.sys).warnings(s.thinner) {
		from, listed := remarked[w.Code]
		if !listed || rank(q.id) < rank(from) || s.told[w.Text] || s.guessed(rank(from)) {
			continue
		}
		s.told[w.Text] = true
		writeWrapped(s.out, "! ", w.Text)
	}
}

// guessed tells whether a guess stands in for an answer, up to a question.
func (s *interview) guessed(last int) bool {
	return slices.ContainsFunc(s.questions[:last+1], func(q question) bool { return q.needed && !q.known(s.draft) })
}

// thinner is what the tank would hold if its sizes were outside sizes.
func (s *interview) thinner(wall float64) (float64, bool) {
	d := s.draft.Clone()
	key := bodySection + "[0].wall"
	if _, live, _ := d.Value(key); live {
		return 0, false
	}
	if d.Put(key, fmt.Sprint(wall)) != nil || !d.Live(key, true) {
		return 0, false
	}
	rig, err := tanks.Read(s.path, d.Text())
	if err != nil {
		return 0, false
	}
	return rig.Tank.Capacity, true
}
