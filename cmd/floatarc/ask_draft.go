package main

import (
	"fmt"
	"strings"

	"github.com/BurntSushi/toml"

	"floatarc/tanks"
	"floatarc/tanks/quantity"
)

// newDraft returns the file of a form of which nothing is measured yet.
func (f form) newDraft(sys quantity.System) (*tanks.Draft, error) {
	text, err := f.rig(sys)
	if err != nil {
		return nil, err
	}
	d, err := tanks.NewDraft(askSource, string(text))
	if err != nil {
		return nil, err
	}
	for _, q := range f.questions(sys) {
		if !q.kept {
			q.leave(d)
		}
	}
	// What E stands for is a wish and not a measure; that of the template may be more than
	// there is in a small tank.
	return d, d.Put("gauge.empty", "0")
}

// askSource is what errors call a text that is no file yet.
const askSource = "the file"

// leave marks a question as one to which nobody knows the answer.
func (q question) leave(d *tanks.Draft) {
	if q.kept {
		return
	}
	d.Live(q.place, q.needed)
	d.Mark(q.place, q.letter, true)
}

// take puts an answer into a draft.
func (q question) take(d *tanks.Draft, literal string) error {
	for _, key := range q.keys {
		if err := d.Put(key, literal); err != nil {
			return err
		}
	}
	d.Live(q.place, true)
	d.Mark(q.place, q.letter, false)
	return nil
}

// settle brings what hangs on answers in line with them: the defaults of what is not known,
// and the table of ohms.
func (f form) settle(d *tanks.Draft, sys quantity.System) error {
	g := guess{form: f, sys: sys, known: map[string]string{}}
	questions := f.questions(sys)
	for _, q := range questions {
		if q.letter != "" && q.known(d) {
			g.known[q.letter] = q.shown(d)
		}
	}
	defaults := g.defaults()
	for _, q := range questions {
		literal, ok := defaults[q.letter]
		if !ok || q.known(d) {
			continue
		}
		for _, key := range q.keys {
			if err := d.Put(key, literal); err != nil {
				return err
			}
		}
	}
	return joinOhms(d)
}

// The keys of the sender's ohms.
const (
	ohmTable = "sender.resistance.points"
	ohmLow   = "sender.resistance.low"
	ohmHigh  = "sender.resistance.high"
)

// joinOhms puts the readings at the stops around those between them, where there are any: a
// file has either the table or its ends.
func joinOhms(d *tanks.Draft) error {
	table, live, _ := d.Value(ohmTable)
	d.Live(ohmLow, !live)
	d.Live(ohmHigh, !live)
	if !live {
		return nil
	}
	rows := innerRows(table)
	end := func(angle, ohms string) string {
		a, _, _ := d.Value(angle)
		r, _, _ := d.Value(ohms)
		return fmt.Sprintf("[%s, %s]", a, r)
	}
	rows = append([]string{end("sender.stop_low", ohmLow)}, append(rows, end("sender.stop_high", ohmHigh))...)
	return d.Put(ohmTable, "["+strings.Join(rows, ", ")+"]")
}

// innerRows are the rows of a table of ohms without its ends.
func innerRows(table string) []string {
	var t struct{ Rows [][]any }
	if _, err := toml.Decode("Rows = "+table, &t); err != nil || len(t.Rows) < 2 {
		return nil
	}
	var out []string
	for _, row := range t.Rows[1 : len(t.Rows)-1] {
		var cells []string
		for _, cell := range row {
			if text, ok := cell.(string); ok {
				cells = append(cells, tanks.Literal(text))
			} else {
				cells = append(cells, fmt.Sprint(cell))
			}
		}
		out = append(out, "["+strings.Join(cells, ", ")+"]")
	}
	return out
}

// carried returns a draft of another form with the answers of this one.
func (f form) carried(d *tanks.Draft, to form, sys quantity.System) (*tanks.Draft, error) {
	out, err := to.newDraft(sys)
	if err != nil {
		return nil, err
	}
	had := map[string]question{}
	for _, q := range f.questions(sys) {
		if q.known(d) && q.id != askShape {
			had[q.id] = q
		}
	}
	for _, q := range to.questions(sys) {
		old, ok := had[q.id]
		if !ok || old.unit != q.unit || len(old.keys) == 0 {
			continue
		}
		if literal, _, _ := d.Value(old.keys[0]); q.id != askName || f.kind == to.kind {
			if err := q.take(out, literal); err != nil {
				return nil, err
			}
		}
	}
	return out, to.settle(out, sys)
}
