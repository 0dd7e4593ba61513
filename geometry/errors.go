package geometry

import "fmt"

// A DimensionError says which dimension of a shape is impossible, and why.
type DimensionError struct {
	// Dimension is the name of the dimension as a rig file spells it
	// ("diameter", "high_head.depth", "points").
	Dimension string
	// Reason says what is wrong and what was expected.
	Reason string
}

func (e *DimensionError) Error() string { return e.Dimension + ": " + e.Reason }

func wrong(dimension, format string, args ...any) error {
	return &DimensionError{Dimension: dimension, Reason: fmt.Sprintf(format, args...)}
}

// positive checks that a dimension in mm is a finite number above zero.
func positive(dimension string, value float64) error {
	if !(value > 0) || value > largest {
		return wrong(dimension, "%g mm, expected a length above 0 and below %g mm", value, float64(largest))
	}
	return nil
}

// largest is the greatest length accepted, in mm: a kilometre. It keeps fifth
// powers of a length far from overflow.
const largest = 1e6

// wallFits checks that a wall in mm leaves something of a size across.
func wallFits(wall float64, name string, size float64) error {
	if !(wall >= 0) || 2*wall >= size {
		return wrong("wall", "%g mm, expected 0 or more and less than half the %s %g mm", wall, name, size)
	}
	return nil
}
