package gauge

import (
	"fmt"
	"slices"

	"gonum.org/v1/gonum/interp"
)

// A Needle is a gauge whose position is not linear in its drive: straight lines
// between measured pairs. A nil Needle is linear, its drive being the position; so
// is one without pairs.
type Needle struct {
	drives, positions []float64 // the positions rising, the drives rising or falling
	forward, back     interp.PiecewiseLinear
}

// NewNeedle returns the needle of pairs (drive, position). The positions rise, and
// the drives all rise or all fall with them, in any unit.
func NewNeedle(pairs [][2]float64) (*Needle, error) {
	if len(pairs) < 2 {
		return nil, fmt.Errorf("%d pairs, expected 2 or more", len(pairs))
	}
	n := &Needle{}
	sign := 1.0
	if pairs[1][0] < pairs[0][0] {
		sign = -1
	}
	for i, p := range pairs {
		if i > 0 && (p[1] <= pairs[i-1][1] || sign*p[0] <= sign*pairs[i-1][0]) {
			return nil, fmt.Errorf("drive %g, position %g follows drive %g, position %g, expected positions that rise and drives that all rise or all fall",
				p[0], p[1], pairs[i-1][0], pairs[i-1][1])
		}
		n.drives, n.positions = append(n.drives, p[0]), append(n.positions, p[1])
	}
	drives, positions := slices.Clone(n.drives), slices.Clone(n.positions)
	if sign < 0 {
		slices.Reverse(drives)
		slices.Reverse(positions)
	}
	if err := n.forward.Fit(drives, positions); err != nil {
		return nil, err
	}
	return n, n.back.Fit(n.positions, n.drives)
}

// Position returns where the needle stands; beyond the pairs, that of the end.
func (n *Needle) Position(drive float64) float64 {
	if n == nil || n.drives == nil {
		return drive
	}
	return n.forward.Predict(drive)
}

// Drive returns the drive that puts the needle on a position; beyond the pairs,
// that of the end.
func (n *Needle) Drive(position float64) float64 {
	if n == nil || n.drives == nil {
		return position
	}
	return n.back.Predict(position)
}

// Bends returns the drives at which the needle's line bends.
func (n *Needle) Bends() []float64 {
	if n == nil || n.drives == nil {
		return nil
	}
	return n.drives[1 : len(n.drives)-1]
}

// Rises tells whether the needle goes up with its drive.
func (n *Needle) Rises() bool { return n == nil || n.drives == nil || n.drives[0] < n.drives[1] }

// Ends returns the least and the greatest position that the needle reaches.
func (n *Needle) Ends() (least, most float64) {
	if n == nil || n.drives == nil {
		return 0, 1
	}
	return n.positions[0], n.positions[len(n.positions)-1]
}
