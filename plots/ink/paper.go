package ink

import (
	"fmt"
	"strings"

	"gonum.org/v1/plot/vg"
)

// A Paper is a size of paper.
type Paper struct {
	Name          string
	Width, Height vg.Length
}

// The papers, upright: ISO 216, and ANSI A.
var (
	A4     = Paper{"A4", 210 * vg.Millimeter, 297 * vg.Millimeter}
	Letter = Paper{"Letter", 8.5 * vg.Inch, 11 * vg.Inch}
)

// Papers are all of them.
var Papers = []Paper{A4, Letter}

// PaperNamed returns the paper of a name, in small or large letters.
func PaperNamed(name string) (Paper, error) {
	for _, p := range Papers {
		if strings.EqualFold(name, p.Name) {
			return p, nil
		}
	}
	return Paper{}, fmt.Errorf("%q is no paper, expected a4 or letter", name)
}

// Size returns the width and height.
func (p Paper) Size() (width, height vg.Length) { return p.Width, p.Height }

// Turned returns the paper with its other side up.
func (p Paper) Turned() Paper {
	p.Width, p.Height = p.Height, p.Width
	return p
}
