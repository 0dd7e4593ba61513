package main

import (
	"fmt"
	"strings"

	"floatarc/tanks"
)

// notMeasuredWarnings names what is marked in the file as not measured: figures that stand
// in for a measure, and keys that are left out.
func (j *job) notMeasuredWarnings() []warning {
	var guessed, left []string
	for _, u := range j.file.NotMeasured {
		name := unmeasuredName(u, j.file.File)
		if u.Left {
			left = append(left, name)
		} else {
			guessed = append(guessed, name)
		}
	}
	if len(guessed)+len(left) == 0 {
		return nil
	}
	text := "Marked " + tanks.NotMeasured + " in the file."
	if len(guessed) > 0 {
		text += " Only a guess stands for " + strings.Join(guessed, ", ") + ": all that hangs on it is a guess too."
	}
	if len(left) > 0 {
		text += " Left out: " + strings.Join(left, ", ") + "."
	}
	return []warning{{"not_measured", text + " Measure, write the figure in and take the mark away."}}
}

// unmeasuredName names a marked key by its letter, itself and its line.
func unmeasuredName(u tanks.Unmeasured, file string) string {
	where := fmt.Sprintf("line %d", u.Line)
	if u.File != file {
		where = fmt.Sprintf("%s:%d", u.File, u.Line)
	}
	return strings.TrimSpace(fmt.Sprintf("%s %s (%s)", u.Letter, u.Key, where))
}
