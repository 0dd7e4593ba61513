package meshfile

import (
	"bytes"
	"encoding/binary"
	"fmt"
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"floatarc/geometry/mesh"
)

// A binary STL is a header of 80 bytes, the number of facets as 32 bits, little
// end first, and 50 bytes a facet: the normal, three corners, two bytes to spare
// (the format's original description of 1989, from memory).
const (
	stlHeader = 84
	stlFacet  = 50
	stlNormal = 12
)

// binarySTL tells whether the number of facets fits the size of the file; some
// binary files begin like a text.
func binarySTL(data []byte) bool {
	return len(data) >= stlHeader && stlClaim(data) == (len(data)-stlHeader)/stlFacet && (len(data)-stlHeader)%stlFacet == 0
}

func stlClaim(data []byte) int { return int(binary.LittleEndian.Uint32(data[80:])) }

func readSTL(data []byte) (*Drawing, error) {
	text := bytes.HasPrefix(bytes.TrimLeft(data, " \t\r\n\ufeff"), []byte("solid")) && bytes.IndexByte(data, 0) < 0
	switch {
	case binarySTL(data):
		return readBinarySTL(data, stlClaim(data))
	case text && bytes.Contains(data, []byte("facet")):
		return readTextSTL(data)
	case text && len(data) < stlHeader:
		return nil, fmt.Errorf("a text STL without facets, expected triangles")
	case len(data) < stlHeader:
		return nil, fmt.Errorf("%d bytes, expected an STL: text that begins with \"solid\", or 84 bytes and 50 for each facet", len(data))
	}
	claim, room := stlClaim(data), (len(data)-stlHeader)/stlFacet
	if claim > room {
		return nil, fmt.Errorf("the header says %d facets, but the file ends in the middle of number %d, expected a whole file of %d bytes", claim, room+1, stlHeader+stlFacet*claim)
	}
	return readBinarySTL(data, claim) // some programs append to the file
}

func readBinarySTL(data []byte, n int) (*Drawing, error) {
	f := mesh.NewFacets(n)
	var corner [3]int32
	for i := range n {
		facet := data[stlHeader+stlFacet*i:][:stlFacet]
		for k := range corner {
			p := stlVertex(facet[stlNormal+12*k:])
			if !finite(p) {
				return nil, fmt.Errorf("facet %d, corner %d is not finite, expected three numbers", i+1, k+1)
			}
			corner[k] = f.Vertex(p)
		}
		f.Face(corner[0], corner[1], corner[2])
	}
	return &Drawing{Facets: f}, nil
}

func stlVertex(b []byte) r3.Vec {
	_ = b[11]
	at := func(i int) float64 { return float64(math.Float32frombits(binary.LittleEndian.Uint32(b[i:]))) }
	return r3.Vec{X: at(0), Y: at(4), Z: at(8)}
}

// readTextSTL reads the words of a text STL, on lines as they come: facet normal
// x y z, outer loop, three times vertex x y z, endloop, endfacet. Names after
// solid are not looked at, and neither are normals: the order of the corners
// tells the outside.
func readTextSTL(data []byte) (*Drawing, error) {
	r := stlText{facets: mesh.NewFacets(len(data) / 250)}
	err := eachLine(data, func(number int, words [][]byte) error {
		for len(words) > 0 {
			used, err := r.statement(words)
			if err != nil {
				return fmt.Errorf("line %d: %w", number, err)
			}
			words = words[min(used, len(words)):]
		}
		return nil
	})
	if err == nil && r.open {
		err = fmt.Errorf("the file ends in the middle of a facet, expected endfacet")
	}
	if err != nil {
		return nil, err
	}
	return &Drawing{Facets: r.facets}, nil
}

// stlText is a text STL half read.
type stlText struct {
	facets  *mesh.Facets
	corners []int32
	open    bool // within a facet
}

// statement reads one statement, and returns of how many words it is.
func (r *stlText) statement(words [][]byte) (used int, err error) {
	switch word := text(bytes.ToLower(words[0])); word {
	case "facet":
		r.open, r.corners = true, r.corners[:0]
		if len(words) > 1 && text(bytes.ToLower(words[1])) == "normal" {
			return 5, nil
		}
		return 1, nil
	case "vertex":
		p, ok := vertex(words[1:])
		if !ok {
			return 0, fmt.Errorf("expected \"vertex\" and three finite numbers")
		}
		if !r.open || len(r.corners) == 3 {
			return 0, fmt.Errorf("a vertex outside a facet, or the fourth of one, expected three between facet and endfacet")
		}
		r.corners = append(r.corners, r.facets.Vertex(p))
		return 4, nil
	case "endfacet":
		if len(r.corners) != 3 || !r.open {
			return 0, fmt.Errorf("the facet has %s, expected 3", count(len(r.corners), "corner", "corners"))
		}
		r.open = false
		r.facets.Face(r.corners[0], r.corners[1], r.corners[2])
		return 1, nil
	case "outer":
		return 2, nil
	case "endloop":
		return 1, nil
	case "solid", "endsolid":
		return len(words), nil
	}
	return 0, fmt.Errorf("%q, expected one of solid, facet, outer loop, vertex, endloop, endfacet, endsolid", clip(words[0]))
}
