package float

import "gonum.org/v1/gonum/spatial/r3"

// A Movable sender can be looked at with its measures a little otherwise (mm);
// nil where it has no such measure.
type Movable interface {
	Longer(by float64) Sender // arm
	Raised(by float64) Sender // pivot, or the whole rod
	Deeper(by float64) Sender // draught of the float
}

// Longer implements [Movable].
func (a *Arm) Longer(by float64) Sender {
	b := *a
	b.Length += by
	return &b
}

// Raised implements [Movable].
func (a *Arm) Raised(by float64) Sender {
	return a.Moved(r3.Vec{Z: by})
}

// Deeper implements [Movable]: at one angle, the surface lies higher.
func (a *Arm) Deeper(by float64) Sender {
	b := *a
	b.sunk += by
	return &b
}

// Longer implements [Movable]: a rod has no arm.
func (r *Rod) Longer(float64) Sender { return nil }

// Raised implements [Movable].
func (r *Rod) Raised(by float64) Sender {
	return r.Moved(r3.Vec{Z: by})
}

// Deeper implements [Movable]; a probe has no float.
func (r *Rod) Deeper(by float64) Sender {
	if !r.Stem {
		return nil
	}
	return r.Raised(by)
}

// Moved returns the arm with its axle in another place.
func (a *Arm) Moved(by r3.Vec) *Arm {
	b := *a
	b.Pivot = r3.Add(a.Pivot, by)
	return &b
}

// Moved returns the rod in another place.
func (r *Rod) Moved(by r3.Vec) *Rod {
	b := *r
	b.Foot, b.Head = r3.Add(r.Foot, by), r3.Add(r.Head, by)
	return &b
}

// InFuel returns the sender in fuel of another density, kg/m³, in which its float sits
// deeper or higher; an error if it sinks.
func InFuel(s Sender, density float64) (Sender, error) {
	switch s := s.(type) {
	case *Arm:
		if s.Buoy != nil {
			b := *s
			var err error
			b.Buoy, err = s.Buoy.in(density)
			return &b, err
		}
	case *Rod:
		if s.Buoy != nil {
			b := *s
			var err error
			b.Buoy, err = s.Buoy.in(density)
			return &b, err
		}
	}
	return s, nil
}
