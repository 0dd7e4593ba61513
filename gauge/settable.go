package gauge

import (
	"fmt"
	"slices"
)

// Fineness is how finely an eye can set the needle.
type Fineness string

// The finenesses: every percent of the sweep; on the marks and half way between
// neighbours; on the marks only.
const (
	Percents Fineness = "percent"
	Halves   Fineness = "halves"
	OnMarks  Fineness = "marks"
)

// Settable returns the positions at which an eye can set the needle of a dial,
// rising, the marks among them.
func (d *Dial) Settable(f Fineness) ([]float64, error) {
	var out []float64
	for i, m := range d.Marks {
		if f == Halves && i > 0 {
			out = append(out, (d.Marks[i-1].Position+m.Position)/2)
		}
		out = append(out, m.Position)
	}
	switch f {
	case Halves, OnMarks:
	case Percents:
		for i := range 101 {
			out = append(out, float64(i)/100)
		}
		slices.Sort(out)
		out = slices.Compact(out)
	default:
		return nil, fmt.Errorf("settable %q, expected %q, %q or %q", f, Percents, Halves, OnMarks)
	}
	return out, nil
}
