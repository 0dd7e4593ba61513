package main

import (
	"fmt"
	"io"
	"strings"

	"floatarc/tanks"
	"floatarc/tanks/quantity"
)

// An interview fills in a rig file, one question at a time. It takes lines and writes
// prompts, and knows nothing of where they come from and go to.
type interview struct {
	out  io.Writer
	path string
	sys  quantity.System

	form      form // without a kind until that is known
	draft     *tanks.Draft
	questions []question
	at        int // the question that is asked next
	asksKind  bool

	trouble string          // why the draft does not read, as people were told
	told    map[string]bool // warnings
}

// open starts with a draft.
func (s *interview) open(f form, d *tanks.Draft) {
	s.form, s.draft, s.questions = f, d, f.questions(s.sys)
	if s.asksKind {
		s.questions = append([]question{kindQuestion()}, s.questions...)
	}
}

// begin starts with a kind, or, without one, with the question for it.
func (s *interview) begin(kind string) error {
	if kind == "" {
		s.asksKind, s.questions = true, []question{kindQuestion()}
		return nil
	}
	return s.reform(usualForm(kind))
}

// reform starts the file anew for a form, with the answers that there are.
func (s *interview) reform(to form) error {
	if s.draft == nil {
		d, err := to.newDraft(s.sys)
		if err == nil {
			s.open(to, d)
		}
		return err
	}
	d, err := s.form.carried(s.draft, to, s.sys)
	if err == nil {
		s.open(to, d)
		s.read()
	}
	return err
}

// read notes why the draft cannot be read.
func (s *interview) read() {
	_, err := tanks.Read(s.path, s.draft.Text())
	s.trouble = reason(err)
}

// done tells whether everything is asked.
func (s *interview) done() bool { return s.draft != nil && s.at >= len(s.questions) }

// Words that are no answers.
const (
	wordHelp = "?"
	wordBack = "back"
	wordSkip = "skip"
	wordStop = "stop"
)

// take takes a line, and tells whether it says to stop.
func (s *interview) take(line string) (stop bool) {
	line = cleaned(line)
	q := s.questions[s.at]
	switch strings.ToLower(line) {
	case wordHelp:
		s.help(q)
	case wordBack:
		s.back()
	case wordStop:
		return true
	case "":
		s.empty(q)
	case wordSkip:
		s.skip(q)
	default:
		s.answer(q, line)
	}
	if s.done() {
		s.prove()
	}
	return false
}

// cleaned is a line without what no answer holds.
func cleaned(line string) string {
	return strings.TrimSpace(strings.Map(func(r rune) rune {
		switch {
		case r == '\t':
			return ' '
		case r < ' ' || r >= 0x7f && r < 0xa0 || r == '\ufffd' || r == '\ufeff':
			return -1
		}
		return r
	}, strings.ToValidUTF8(line, "")))
}

func (s *interview) back() {
	if s.at == 0 {
		s.say("This is the first question.")
		return
	}
	s.at--
}

// empty is for an empty line: it keeps what is known, and else says that it is not.
func (s *interview) empty(q question) {
	switch {
	case q.id == askKind && s.draft == nil:
		s.answer(q, newKinds[0])
	case q.kept || q.known(s.draft):
		s.at++
	default:
		s.skip(q)
	}
}

// skip leaves a question open.
func (s *interview) skip(q question) {
	if q.kept {
		s.empty(q)
		return
	}
	trial := s.draft.Clone()
	q.leave(trial)
	if err := s.form.settle(trial, s.sys); err != nil {
		s.say("%v", err)
		return
	}
	rig, err := tanks.Read(s.path, trial.Text())
	s.accept(trial, err)
	if rig != nil {
		s.remark(q, rig)
	}
}

// answer takes an answer: what cannot be is refused, and asked again.
func (s *interview) answer(q question, line string) {
	literal, err := q.read(line)
	if err != nil {
		s.say("%v.", err)
		return
	}
	switch q.id {
	case askKind:
		err = s.chooseForm(usualForm(tanks.Plain(literal)))
	case askShape:
		err = s.chooseForm(form{s.form.kind, shapeOf(tanks.Plain(literal))})
	default:
		err = s.fill(q, literal)
	}
	if err != nil {
		s.say("%s. Answer again, or go back to another.", capital(err.Error()))
	}
}

// chooseForm goes on with a form.
func (s *interview) chooseForm(to form) error {
	if s.form == to || s.questions[s.at].id == askKind && s.form.kind == to.kind {
		s.at++
		return nil
	}
	err := s.reform(to)
	if err == nil {
		s.at++
	}
	return err
}

// fill puts an answer into the file, if the file can be read with it as well as without.
func (s *interview) fill(q question, literal string) error {
	trial := s.draft.Clone()
	if err := q.take(trial, literal); err != nil {
		return err
	}
	if err := s.form.settle(trial, s.sys); err != nil {
		return err
	}
	rig, err := tanks.Read(s.path, trial.Text())
	if err != nil && reason(err) != s.trouble && s.blames(q, trial, err) {
		return fmt.Errorf("%s", reason(err))
	}
	s.accept(trial, err)
	if rig != nil {
		s.remark(q, rig)
	}
	return nil
}

// accept goes on with a draft. What does not go together with a default is said once: the
// answers to come may mend it.
func (s *interview) accept(d *tanks.Draft, err error) {
	s.draft = d
	s.at++
	if why := reason(err); why != s.trouble {
		s.trouble = why
		if why != "" {
			s.say("So far this does not go together with what is not measured yet: %s.", why)
		}
	}
}

// start writes what to know before the first question.
func (s *interview) start() {
	for _, words := range cautions[:2] { // the others are for later
		s.say("%s", words)
	}
	s.say("Directions as you sit in it: forward, left, up. Choose a corner of the tank as the origin, best the rear right lower one, and measure every place from there.")
	s.say("? tells more of a question, back goes to the one before, an empty line or skip says that it is not known, stop writes what there is to %s, to go on another day.", s.path)
	if s.trouble != "" {
		s.say("So far the file cannot be read: %s.", s.trouble)
	}
}
