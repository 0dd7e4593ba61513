package tanks

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"floatarc/geometry"
	"floatarc/geometry/mesh"
	"floatarc/tanks/meshfile"
	"floatarc/tanks/quantity"
)

// readMesh reads a drawing. Its own coordinates are kept; `at` is added to them.
func readMesh(t *table, b *Body, _ geometry.Axis) geometry.Solid {
	if b.Wall > 0 {
		t.fail("wall", "given for a mesh, expected a drawing of the inside: a mesh has no one surface parallel to it")
	}
	use := mesh.Unsaid
	if t.has("use") {
		use = map[string]mesh.Use{"solid": mesh.Solid, "cavity": mesh.Cavity}[t.choice("use", "solid", "cavity")]
	}
	unit, given := t.text("unit")
	name, ok := t.text("file")
	if !ok {
		t.missing("file", "the path of a drawing ending in .stl, .obj or .3mf")
	}
	if t.doc.err != nil {
		return nil
	}
	scale := 1.0
	if given {
		q, err := quantity.Length.Parse("1 " + unit)
		if err != nil {
			t.fail("unit", "%q, expected mm, cm, m, in or ft", unit)
			return nil
		}
		scale = q.Value
	}
	data, err := t.doc.beside(t.key("file"), name)
	if err != nil {
		t.fail("file", "%v", err)
		return nil
	}
	drawing, err := meshfile.Read(name, data)
	if err != nil {
		t.fail("file", "%s: %v", name, err)
		return nil
	}
	if own := drawing.Unit; own > 0 {
		if given && math.Abs(own/scale-1) > 1e-9 {
			t.fail("unit", "%q, but the file itself says that its unit is %g mm, expected the same or none", unit, own)
			return nil
		}
		scale = own
	}
	drawing.Scale(scale)
	m, err := mesh.New(drawing.Facets, use)
	if err != nil {
		shaped(t, nil, err)
		return nil
	}
	b.Notes = meshNotes(m)
	b.size = func(mm sizer) string {
		lo, hi := m.Box()
		d := r3.Sub(hi, lo)
		return fmt.Sprintf("%s of %d triangles, %s by %s by %s", name, m.Triangles(), mm(d.X), mm(d.Y), mm(d.Z))
	}
	return m
}

// meshNotes tells what was done to a drawing.
func meshNotes(m *mesh.Mesh) []string {
	var out []string
	if n := m.Notes.Collapsed; n > 0 {
		out = append(out, fmt.Sprintf("%d of its triangles have two corners in one place and were left out", n))
	}
	if m.Notes.Flipped {
		out = append(out, "its triangles all faced inward and were turned")
	}
	if m.Notes.Cavity {
		out = append(out, "it draws the walls, and the fuel is taken to be inside the inner surface")
	}
	if n := m.Notes.Voids; n > 0 {
		out = append(out, fmt.Sprintf("closed surfaces inside it (%d) are taken to displace fuel", n))
	}
	return out
}
