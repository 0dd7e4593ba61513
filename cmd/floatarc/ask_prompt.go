package main

import (
	"fmt"
	"strings"
)

// say writes a line or more for the person.
func (s *interview) say(format string, args ...any) {
	writeWrapped(s.out, "  ", fmt.Sprintf(format, args...))
}

// prompt asks the question that is next.
func (s *interview) prompt() {
	q := s.questions[s.at]
	count := fmt.Sprintf(" [%d of %d, %s]", s.at+1, len(s.questions), q.key)
	if s.form.kind == "" {
		count = ""
	}
	fmt.Fprintln(s.out)
	writeWrapped(s.out, "", capital(q.words)+count)
	s.say("%s", strings.Join(s.hints(q), "; ")+".")
	fmt.Fprintf(s.out, "%s> ", q.id)
}

// hints say how to answer: the unit of a bare number, an example, and what an empty line does.
func (s *interview) hints(q question) []string {
	var out []string
	if q.unit != "" {
		out = append(out, "a bare number is "+q.unit)
	}
	if q.id == askKind {
		return append(out, "an empty line: "+newKinds[0])
	}
	shown := q.shown(s.draft)
	if q.id == askShape {
		shown = s.form.shapeWord()
	}
	if shown == "" {
		shown = "what is there"
	}
	if q.kept || q.known(s.draft) {
		return append(out, fmt.Sprintf("an empty line keeps %s", shown))
	}
	example := shown
	if q.like != "" {
		example = q.like
	}
	if example != "what is there" {
		out = append(out, "such as "+example)
	}
	if q.needed {
		return append(out, "an empty line: not known, "+shown+" stands in for it")
	}
	return append(out, "an empty line: not known, left out")
}

// help writes more about a question.
func (s *interview) help(q question) {
	words, ok := askHelp[q.key]
	if !ok {
		words = capital(q.words) + "."
	}
	if q.letter != "" && s.form.kind != "" {
		sketch := s.form.kind
		if q.place != q.key { // of the tank's body
			sketch = s.form.sketched()
		}
		words += fmt.Sprintf(" It is %s in the sketch and the list of floatarc sheet --blank %s.", q.letter, sketch)
	}
	s.say("%s", words)
}
