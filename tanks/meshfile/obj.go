package meshfile

import (
	"bytes"
	"fmt"
	"slices"
	"strconv"

	"floatarc/geometry/mesh"
)

// free are the statements of free-form curves and surfaces, which are not
// triangles.
var free = []string{"curv", "curv2", "surf", "cstype", "deg", "bmat", "vp", "parm", "trim", "hole", "end"}

// readOBJ reads the vertices and faces of an OBJ; a face of more corners is cut
// into a fan of triangles, which encloses what the flat face does. Textures,
// normals, groups, materials and lines are passed over.
func readOBJ(data []byte) (*Drawing, error) {
	data = bytes.ReplaceAll(data, []byte("\\\r\n"), []byte("  "))
	data = bytes.ReplaceAll(data, []byte("\\\n"), []byte(" ")) // a line goes on
	f := mesh.NewFacets(len(data) / 60)
	var numbers []int32 // of the vertices in the order of the file
	var corners []int32
	err := eachLine(data, func(line int, words [][]byte) error {
		if i := slices.IndexFunc(words, func(w []byte) bool { return w[0] == '#' }); i >= 0 {
			words = words[:i]
		}
		if len(words) == 0 {
			return nil
		}
		switch word := string(words[0]); word {
		case "v":
			p, ok := vertex(words[1:])
			if !ok {
				return fmt.Errorf("line %d: expected \"v\" and three finite numbers", line)
			}
			numbers = append(numbers, f.Vertex(p))
		case "f", "fo":
			corners = corners[:0]
			for _, w := range words[1:] {
				k, err := corner(w, len(numbers))
				if err != nil {
					return fmt.Errorf("line %d: %w", line, err)
				}
				corners = append(corners, numbers[k])
			}
			if len(corners) < 3 {
				return fmt.Errorf("line %d: a face of %s, expected 3 or more", line, count(len(corners), "corner", "corners"))
			}
			for i := 2; i < len(corners); i++ {
				f.Face(corners[0], corners[i-1], corners[i])
			}
		default:
			if slices.Contains(free, word) {
				return fmt.Errorf("line %d: %q, a free-form surface, expected faces only: export it as triangles", line, word)
			}
		}
		return nil
	})
	if err != nil {
		return nil, err
	}
	return &Drawing{Facets: f}, nil
}

// corner reads the vertex of a face's corner, v or v/texture/normal, numbered
// from 1, or from the last vertex so far backwards with -1.
func corner(word []byte, vertices int) (int, error) {
	if i := bytes.IndexByte(word, '/'); i >= 0 {
		word = word[:i]
	}
	k, err := strconv.Atoi(text(word))
	if err != nil {
		return 0, fmt.Errorf("%q, expected the number of a vertex", clip(word))
	}
	if k < 0 {
		k += vertices + 1
	}
	if k < 1 || k > vertices {
		return 0, fmt.Errorf("vertex %s, expected one of the %d so far", clip(word), vertices)
	}
	return k - 1, nil
}
