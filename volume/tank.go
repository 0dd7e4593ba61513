package volume

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"floatarc/geometry"
)

const perLitre = 1e6 // mm³ in a litre

// A Tank holds fuel.
type Tank struct {
	Solid  geometry.Solid
	Mount  geometry.Mount
	Full   float64 // litres in it when the filler or vent stops the fill
	Pickup Pickup  // nil if it can be drawn empty
	// LevelOnly says why the tank is known on level ground only, such as "a
	// dip table has no shape"; empty if it is known at any attitude.
	LevelOnly string
}

// A LevelError refuses an attitude of a tank that is known on level ground only.
type LevelError struct {
	Why      string
	Attitude geometry.Attitude
}

func (e *LevelError) Error() string {
	return fmt.Sprintf("nose up %g°, left up %g°: %s, so that nothing is known of it tilted, expected level ground", e.Attitude.NoseUp, e.Attitude.LeftUp, e.Why)
}

// A Pickup is where fuel is drawn from.
type Pickup interface {
	// Unusable returns the litres that cannot be drawn at the attitude of the
	// contents, or NaN if that is not known.
	Unusable(c *Contents) float64
}

// DrawPoint is a pickup at a point of the tank frame: the fuel below the level
// plane through it cannot be drawn.
type DrawPoint r3.Vec

// Unusable implements [Pickup].
func (p DrawPoint) Unusable(c *Contents) float64 { return c.Litres(r3.Dot(c.Up, r3.Vec(p))) }

// Measured is a pickup of which only the litres left behind on level ground are
// known.
type Measured float64

// Unusable implements [Pickup].
func (m Measured) Unusable(c *Contents) float64 {
	if c.Attitude != (geometry.Attitude{}) {
		return math.NaN()
	}
	return float64(m)
}

// Capacity returns the litres to the brim.
func (t *Tank) Capacity() float64 { return geometry.Volume(t.Solid) / perLitre }

// Extent returns the levels of the lowest and the highest point at an attitude,
// or a [LevelError]. It costs much less than the contents.
func (t *Tank) Extent(a geometry.Attitude) (bottom, top float64, err error) {
	if err := t.allows(a); err != nil {
		return 0, 0, err
	}
	bottom, top = t.Solid.Extent(t.Mount.Up(a))
	return bottom, top, nil
}

func (t *Tank) allows(a geometry.Attitude) error {
	if t.LevelOnly != "" && a != (geometry.Attitude{}) {
		return &LevelError{Why: t.LevelOnly, Attitude: a}
	}
	return nil
}

// At returns the tank as it lies when the vehicle stands at an attitude, or a
// [LevelError].
func (t *Tank) At(a geometry.Attitude) (*Contents, error) {
	if err := t.allows(a); err != nil {
		return nil, err
	}
	up := t.Mount.Up(a)
	c := &Contents{Attitude: a, Up: up, Forward: t.Mount.Forward(a), cut: t.Solid.Cut(up)}
	c.Bottom, c.Top = t.Solid.Extent(up)
	c.capacity = c.cut.Volume(c.Top)
	c.Unusable = 0
	if t.Pickup != nil {
		c.Unusable = t.Pickup.Unusable(c)
	}
	return c, nil
}
