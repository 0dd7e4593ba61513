package mesh

import (
	"fmt"

	"gonum.org/v1/gonum/spatial/r3"

	"floatarc/geometry"
)

// wrong refuses a drawing; in a rig it is the file that is wrong.
func wrong(format string, args ...any) error {
	return &geometry.DimensionError{Dimension: "file", Reason: fmt.Sprintf(format, args...)}
}

// place writes a point for a message.
func place(p r3.Vec) string { return fmt.Sprintf("(%.6g, %.6g, %.6g)", p.X, p.Y, p.Z) }
