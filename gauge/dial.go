package gauge

import (
	"fmt"

	"gonum.org/v1/gonum/interp"
)

// A Mark is a printed mark of the dial.
type Mark struct {
	Label    string
	Share    float64 // of the fuel between empty and full
	Position float64 // on the dial
}

// FiveMarks are the marks of a dial that prints none of its own: E, quarters
// and F, evenly spread.
func FiveMarks() []Mark {
	return []Mark{{"E", 0, 0}, {"1/4", 0.25, 0.25}, {"1/2", 0.5, 0.5}, {"3/4", 0.75, 0.75}, {"F", 1, 1}}
}

// A Dial says which quantity each position stands for.
type Dial struct {
	Marks       []Mark  // shares and positions rising
	Empty, Full float64 // litres in the tank at share 0 and at share 1

	position, share interp.PiecewiseLinear
}

// NewDial returns a dial of two marks or more, whose shares and positions rise.
func NewDial(marks []Mark, empty, full float64) (*Dial, error) {
	if !(full > empty) {
		return nil, fmt.Errorf("full mark at %.4g L and empty mark at %.4g L, expected the full one above the empty one", full, empty)
	}
	if len(marks) < 2 {
		return nil, fmt.Errorf("%d marks, expected 2 or more", len(marks))
	}
	d := &Dial{Marks: marks, Empty: empty, Full: full}
	var shares, positions []float64
	for i, m := range marks {
		if i > 0 && (m.Share <= marks[i-1].Share || m.Position <= marks[i-1].Position) {
			return nil, fmt.Errorf("mark %q at share %g, position %g follows share %g, position %g, expected both to rise",
				m.Label, m.Share, m.Position, marks[i-1].Share, marks[i-1].Position)
		}
		shares, positions = append(shares, m.Share), append(positions, m.Position)
	}
	if err := d.position.Fit(shares, positions); err != nil {
		return nil, err
	}
	return d, d.share.Fit(positions, shares)
}

// Share returns the share that so many litres in the tank are; below the empty
// mark it is negative.
func (d *Dial) Share(litres float64) float64 { return (litres - d.Empty) / (d.Full - d.Empty) }

// Litres returns the litres in the tank at a share.
func (d *Dial) Litres(share float64) float64 { return d.Empty + share*(d.Full-d.Empty) }

// Position returns where the needle must stand for a share, clamped at the end
// marks.
func (d *Dial) Position(share float64) float64 { return d.position.Predict(share) }

// ShareAt returns the share that a needle position stands for, clamped at the
// end marks.
func (d *Dial) ShareAt(position float64) float64 { return d.share.Predict(position) }
