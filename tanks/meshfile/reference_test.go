package meshfile

import (
	"encoding/json"
	"math"
	"os"
	"path/filepath"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"

	"floatarc/geometry"
	"floatarc/geometry/mesh"
)

// TestAgainstAnotherLibrary holds volumes below planes, and areas of sections,
// of two meshes that other programs made against those that an independent mesh
// library computed: testdata/reference/volumes.json, made by volumes.mjs beside
// it with manifold-3d 3.5.4 from npm. moulded.stl was exported by OpenSCAD
// 2021.01 from moulded.scad.
func TestAgainstAnotherLibrary(t *testing.T) {
	dir := filepath.Join("testdata", "reference")
	var reference struct {
		Meshes []struct {
			File      string
			Triangles int
			Volume    float64
			Cuts      []struct {
				Normal             [3]float64
				Level, Below, Area float64
			}
		}
	}
	text, err := os.ReadFile(filepath.Join(dir, "volumes.json"))
	if err != nil {
		t.Fatal(err)
	}
	if err := json.Unmarshal(text, &reference); err != nil {
		t.Fatal(err)
	}
	for _, r := range reference.Meshes {
		path := filepath.Join(dir, r.File)
		if r.File == "moulded.stl" {
			path = filepath.Join("..", "library", r.File)
		}
		data, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		d, err := Read(path, data)
		if err != nil {
			t.Fatal(err)
		}
		for i, p := range d.Points { // as the other program saw them
			d.Points[i] = r3.Vec{X: float64(float32(p.X)), Y: float64(float32(p.Y)), Z: float64(float32(p.Z))}
		}
		m, err := mesh.New(d.Facets, mesh.Unsaid)
		if err != nil {
			t.Fatalf("%s: %v", r.File, err)
		}
		worst, worstArea := math.Abs(geometry.Volume(m)-r.Volume)/r.Volume, 0.0
		for _, c := range r.Cuts {
			cut := m.Cut(r3.Vec{X: c.Normal[0], Y: c.Normal[1], Z: c.Normal[2]})
			worst = math.Max(worst, math.Abs(cut.Volume(c.Level)-c.Below)/r.Volume)
			if c.Area > 0 {
				worstArea = math.Max(worstArea, math.Abs(cut.Surface(c.Level)-c.Area)/c.Area)
			}
		}
		t.Logf("%s: %d triangles (theirs %d), worst volume off by %.2g of the capacity, worst area off by %.2g", r.File, m.Triangles(), r.Triangles, worst, worstArea)
		if worst > 1e-9 || worstArea > 1e-8 {
			t.Errorf("%s: volumes off by up to %.2g of the capacity, areas by %.2g", r.File, worst, worstArea)
		}
	}
}
