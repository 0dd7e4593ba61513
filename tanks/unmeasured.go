package tanks

import (
	"regexp"
	"slices"
	"strings"
)

// NotMeasured is the mark, in a comment on the line of a key, that nobody has measured what
// stands there. The key may stand in a comment itself.
const NotMeasured = "NOT MEASURED"

// An Unmeasured is a key of a rig file with the mark [NotMeasured].
type Unmeasured struct {
	File   string
	Line   int    // from 1
	Key    string // "sender.arm"
	Letter string // that stands beside it, "Q"; empty for none
	Left   bool   // the key stands in a comment, so that the rig goes without it
}

// letterBeside is the letter of a measure in a comment.
var letterBeside = regexp.MustCompile(`(?:^|[^A-Za-z0-9])([A-Za-z]):(?: |$)`)

// unmeasured returns the marked keys of a text, in its order.
func (s *lineScanner) unmeasured(file string) []Unmeasured {
	var out []Unmeasured
	for _, r := range s.remarks {
		words := s.text[r.at.from:r.at.to]
		if !strings.Contains(words, NotMeasured) {
			continue
		}
		if _, live := s.spans[r.key]; r.off && live {
			continue
		}
		u := Unmeasured{File: file, Line: r.line, Key: r.key, Left: r.off}
		if m := letterBeside.FindStringSubmatch(words); m != nil {
			u.Letter = m[1]
		}
		out = append(out, u)
	}
	return out
}

// notMeasured returns the marked keys, without those that an override of this run gives.
func (d *document) notMeasured() []Unmeasured {
	var given []string
	for _, o := range d.origins {
		if o.file == set {
			given = append(given, o.path)
		}
	}
	return slices.DeleteFunc(slices.Clone(d.unmeasured), func(u Unmeasured) bool {
		return slices.ContainsFunc(given, func(path string) bool { return under(path, u.Key) || under(u.Key, path) })
	})
}
