package main

import (
	"errors"
	"fmt"
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"floatarc/volume"
)

// setFoot puts the foot where the flag says, or where a stick can stand.
func (s *standing) setFoot(f *stickFlags) error {
	if s.tank.LevelOnly != "" {
		return s.setFootOfTable(f)
	}
	up := r3.Vec{Z: 1}
	if f.foot != "" {
		place, err := f.place()
		if err != nil {
			return err
		}
		if err := s.standOn(place, up); err != nil {
			return fmt.Errorf("--foot %q: %w, expected a place where a stick reaches the floor", f.foot, err)
		}
		return nil
	}
	if mouth, ok := s.mouth(); ok && s.standOn(mouth, s.Direction) == nil {
		s.chosen = "through the fill mouth"
		return nil
	}
	return s.standInMiddle()
}

// setFootOfTable puts the foot on the zero of a dip table, which knows no place in plan.
func (s *standing) setFootOfTable(f *stickFlags) (err error) {
	if f.foot != "" {
		if s.Foot, err = f.place(); err != nil {
			return err
		}
	}
	s.Foot.Z, s.top = s.contents.Bottom, s.contents.Top-s.contents.Bottom
	return nil
}

// standOn puts the foot on the floor on a line.
func (s *standing) standOn(through, direction r3.Vec) error {
	foot, err := volume.Footing(s.tank.Shape, through, direction)
	if err != nil {
		return err
	}
	stick := volume.Stick{Foot: foot, Direction: s.Direction}
	top, err := stick.Top(s.tank.Shape)
	if err != nil {
		return err
	}
	s.Stick, s.top = stick, top
	return nil
}

// mouth returns where a rig says that filling stops.
func (s *standing) mouth() (r3.Vec, bool) {
	if s.rig == nil {
		return r3.Vec{}, false
	}
	var at [3]float64
	for i := range at {
		m, ok := s.rig.Measure(fmt.Sprintf("tank.fill.at[%d]", i))
		if !ok {
			return r3.Vec{}, false
		}
		at[i] = m.Value
	}
	return r3.Vec{X: at[0], Y: at[1], Z: at[2]}, true
}

// middleGrid is the number of places each way from the middle that are tried for a foot,
// and mostHidden the share of a full tank that a stick in the middle may leave unseen
// before they are.
const (
	middleGrid = 6
	mostHidden = 0.1
)

// standInMiddle puts the foot in the middle of the plan; where no stick can stand there,
// or only one that shows little, where it shows the most.
func (s *standing) standInMiddle() error {
	x0, x1 := s.tank.Shape.Extent(r3.Vec{X: 1})
	y0, y1 := s.tank.Shape.Extent(r3.Vec{Y: 1})
	middle := r3.Vec{X: math.Round((x0 + x1) / 2), Y: math.Round((y0 + y1) / 2)}
	if s.standOn(middle, r3.Vec{Z: 1}) == nil && s.hidden() <= mostHidden {
		s.chosen = "in the middle of the tank"
		return nil
	}
	var best *standing
	for i := -middleGrid; i <= middleGrid; i++ {
		for j := -middleGrid; j <= middleGrid; j++ {
			step := r3.Vec{X: float64(i) * (x1 - x0) / (2*middleGrid + 1), Y: float64(j) * (y1 - y0) / (2*middleGrid + 1)}
			at := *s
			if at.standOn(r3.Add(middle, r3.Vec{X: math.Round(step.X), Y: math.Round(step.Y)}), r3.Vec{Z: 1}) == nil && (best == nil || at.better(best, middle)) {
				best = &at
			}
		}
	}
	if best == nil {
		return errors.New("no place where a stick reaches the floor of the tank was found, expected --foot \"FORWARD, LEFT\"")
	}
	*s = *best
	s.chosen = "where a stick shows the most"
	return nil
}

// hidden returns the share of a full tank that the stick does not show.
func (s *standing) hidden() float64 {
	full := s.tank.Full
	return (s.Litres(s.contents, 0) + math.Max(0, full-s.Litres(s.contents, s.top))) / full
}

// better tells whether a stick shows more than another, to a hundredth, or as much nearer
// to a place in plan.
func (s *standing) better(other *standing, middle r3.Vec) bool {
	mine, its := math.Round(100*s.hidden()), math.Round(100*other.hidden())
	away := func(p r3.Vec) float64 { return math.Hypot(p.X-middle.X, p.Y-middle.Y) }
	return mine < its || mine == its && away(s.Foot) < away(other.Foot)
}
