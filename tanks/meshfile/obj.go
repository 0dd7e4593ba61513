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
// into triangles. Textures, normals, groups, materials and lines are passed over.
func readOBJ(data []byte) (*Drawing, error) {
	r := objText{facets: mesh.NewFacets(len(data) / 60)}
	var held [][]byte // of a line that goes on
	err := eachLine(data, func(line int, words [][]byte) error {
		if i := slices.IndexFunc(words, func(w []byte) bool { return w[0] == '#' }); i >= 0 {
			words = words[:i]
		}
		if n := len(words) - 1; n >= 0 && words[n][len(words[n])-1] == '\\' {
			held = append(held, words[:n]...)
			if rest := words[n][:len(words[n])-1]; len(rest) > 0 {
				held = append(held, rest)
			}
			return nil
		}
		if len(held) > 0 {
			words, held = append(held, words...), nil
		}
		if len(words) == 0 {
			return nil
		}
		if err := r.statement(words); err != nil {
			return fmt.Errorf("line %d: %w", line, err)
		}
		return nil
	})
	if err != nil {
		return nil, err
	}
	return &Drawing{Facets: r.facets}, nil
}

// objText is an OBJ half read.
type objText struct {
	facets  *mesh.Facets
	numbers []int32 // of the vertices in the order of the file
	corners []int32
}

func (r *objText) statement(words [][]byte) error {
	switch word := text(words[0]); word {
	case "v":
		p, ok := vertex(words[1:])
		if !ok {
			return fmt.Errorf("expected \"v\" and three finite numbers")
		}
		r.numbers = append(r.numbers, r.facets.Vertex(p))
	case "f", "fo":
		r.corners = r.corners[:0]
		for _, w := range words[1:] {
			k, err := corner(w, len(r.numbers))
			if err != nil {
				return err
			}
			r.corners = append(r.corners, r.numbers[k])
		}
		if len(r.corners) < 3 {
			return fmt.Errorf("a face of %s, expected 3 or more", count(len(r.corners), "corner", "corners"))
		}
		cutFace(r.facets, r.corners)
	default:
		if slices.Contains(free, word) {
			return fmt.Errorf("%q, a free-form surface, expected faces only: export it as triangles", word)
		}
	}
	return nil
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
