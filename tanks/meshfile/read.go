// Package meshfile reads drawings of solids as other programs export them: STL,
// binary and text, OBJ, and 3MF. It only gathers triangles; package mesh checks
// what they enclose.
package meshfile

import (
	"bytes"
	"fmt"
	"math"
	"path/filepath"
	"strings"

	"gonum.org/v1/gonum/spatial/r3"

	"floatarc/geometry/mesh"
)

// A Drawing is the triangles of a file.
type Drawing struct {
	*mesh.Facets
	// Unit is the length of one unit of the coordinates in mm where the file
	// says so; 0 where it does not, as in STL and OBJ.
	Unit float64
}

// Read reads a file of any of the formats; the name tells which by its ending,
// and where it has none of the usual ones, the content does. Errors say where
// and what was expected, in one line without the name of the file.
func Read(name string, data []byte) (*Drawing, error) {
	switch strings.ToLower(filepath.Ext(name)) {
	case ".stl":
		return readSTL(data)
	case ".obj":
		return readOBJ(data)
	case ".3mf":
		return read3MF(data)
	}
	switch {
	case bytes.HasPrefix(data, []byte("PK\x03\x04")):
		return read3MF(data)
	case binarySTL(data) || bytes.HasPrefix(bytes.TrimSpace(data), []byte("solid")):
		return readSTL(data)
	}
	return nil, fmt.Errorf("not a drawing that can be read, expected a file ending in .stl, .obj or .3mf")
}

// finite tells whether a vertex has three finite coordinates.
func finite(p r3.Vec) bool {
	return !math.IsNaN(p.X-p.X) && !math.IsNaN(p.Y-p.Y) && !math.IsNaN(p.Z-p.Z)
}

// count says how many there are of something.
func count(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return fmt.Sprintf("%d %s", n, many)
}
