package meshfile

import (
	"archive/zip"
	"bytes"
	"encoding/binary"
	"fmt"
	"math"
	"strings"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"

	"floatarc/geometry"
	"floatarc/geometry/mesh"
	"floatarc/geometry/mesh/meshtest"
)

// binaryOf writes triangles as binary STL.
func binaryOf(f *mesh.Facets) []byte {
	out := make([]byte, stlHeader, stlHeader+stlFacet*len(f.Faces))
	copy(out, "written by a test")
	binary.LittleEndian.PutUint32(out[80:], uint32(len(f.Faces)))
	for _, t := range f.Faces {
		out = append(out, make([]byte, stlNormal)...)
		for _, v := range t {
			p := f.Points[v]
			for _, c := range []float64{p.X, p.Y, p.Z} {
				out = binary.LittleEndian.AppendUint32(out, math.Float32bits(float32(c)))
			}
		}
		out = append(out, 0, 0)
	}
	return out
}

func textOf(f *mesh.Facets) []byte {
	var b bytes.Buffer
	fmt.Fprintln(&b, "solid a tank")
	for _, t := range f.Faces {
		fmt.Fprintln(&b, "  facet normal 0 0 0\n    outer loop")
		for _, v := range t {
			p := f.Points[v]
			fmt.Fprintf(&b, "      vertex %v %v %e\n", p.X, p.Y, p.Z)
		}
		fmt.Fprintln(&b, "    endloop\n  endfacet")
	}
	fmt.Fprintln(&b, "endsolid a tank")
	return b.Bytes()
}

func objOf(f *mesh.Facets) []byte {
	var b bytes.Buffer
	fmt.Fprintln(&b, "# a tank\nmtllib none.mtl\no tank")
	for _, p := range f.Points {
		fmt.Fprintf(&b, "v %v %v %v\n", p.X, p.Y, p.Z)
	}
	for i, t := range f.Faces {
		if i%2 == 0 {
			fmt.Fprintf(&b, "f %d/1/2 %d//3 %d\n", t[0]+1, t[1]+1, t[2]+1)
		} else { // counted from the end
			n := int32(len(f.Points))
			fmt.Fprintf(&b, "f %d %d %d # and back\n", t[0]-n, t[1]-n, t[2]-n)
		}
	}
	return b.Bytes()
}

// modelOf writes triangles as the XML of a 3MF, with a build.
func modelOf(f *mesh.Facets, unit, build string) string {
	var b strings.Builder
	fmt.Fprintf(&b, `<?xml version="1.0" encoding="UTF-8"?><model unit=%q xml:lang="en-US"><resources><object id="1" type="model"><mesh><vertices>`, unit)
	for _, p := range f.Points {
		fmt.Fprintf(&b, "<vertex x=\"%v\" y=\"%v\" z=\"%v\"/>\n", p.X, p.Y, p.Z)
	}
	b.WriteString("</vertices><triangles>")
	for _, t := range f.Faces {
		fmt.Fprintf(&b, "<triangle v1=\"%d\" v2=\"%d\" v3=\"%d\"/>\n", t[0], t[1], t[2])
	}
	b.WriteString(`</triangles></mesh></object>` + build + `</model>`)
	return b.String()
}

func archiveOf(tb testing.TB, model string) []byte {
	var b bytes.Buffer
	w := zip.NewWriter(&b)
	for _, part := range []struct{ name, text string }{
		{"_rels/.rels", `<Relationships><Relationship Target="/3D/3dmodel.model" Id="rel0" Type="http://example.org/2013/01/3dmodel"/></Relationships>`},
		{"3D/other.model", "<model/>"},
		{"3D/3dmodel.model", model},
	} {
		f, err := w.Create(part.name)
		if err != nil {
			tb.Fatal(err)
		}
		if _, err := f.Write([]byte(part.text)); err != nil {
			tb.Fatal(err)
		}
	}
	if err := w.Close(); err != nil {
		tb.Fatal(err)
	}
	return b.Bytes()
}

const placedOnce = `</resources><build><item objectid="1"/></build>`

func litres(t *testing.T, name string, data []byte) float64 {
	t.Helper()
	d, err := Read(name, data)
	if err != nil {
		t.Fatalf("%s: %v", name, err)
	}
	if d.Unit > 0 {
		d.Scale(d.Unit)
	}
	m, err := mesh.New(d.Facets, mesh.Unsaid)
	if err != nil {
		t.Fatalf("%s: %v", name, err)
	}
	return geometry.Volume(m) / 1e6
}

// TestFormatsAgree writes one tank in every format and reads it back.
func TestFormatsAgree(t *testing.T) {
	f := meshtest.Saddle(2000)
	m, err := mesh.New(meshtest.Saddle(2000), mesh.Unsaid)
	if err != nil {
		t.Fatal(err)
	}
	want := geometry.Volume(m) / 1e6
	for _, c := range []struct {
		name string
		data []byte
		to   float64
	}{
		{"tank.stl", binaryOf(f), 1e-7}, // single precision
		{"tank.STL", append(binaryOf(f), "appended by some program"...), 1e-7},
		{"text.stl", textOf(f), 1e-6}, // %e writes 6 digits of z
		{"crlf.stl", bytes.ReplaceAll(textOf(f), []byte("\n"), []byte("\r\n")), 1e-6},
		{"tank.obj", objOf(f), 1e-12},
		{"tank.3mf", archiveOf(t, modelOf(f, "millimeter", placedOnce)), 1e-12},
		{"tank", archiveOf(t, modelOf(f, "millimeter", placedOnce)), 1e-12},
		{"tank.bin", binaryOf(f), 1e-7},
	} {
		if got := litres(t, c.name, c.data); math.Abs(got/want-1) > c.to {
			t.Errorf("%s: %.12g L, expected %.12g", c.name, got, want)
		}
	}
}

// TestThreeMFPlaces: units, transforms by rows, mirrors, objects made of objects.
func TestThreeMFPlaces(t *testing.T) {
	cube := func() *mesh.Facets {
		return meshtest.Block(1, 1, 1, func(u, v, w float64) r3.Vec { return r3.Vec{X: u, Y: v, Z: w} })
	}
	for _, c := range []struct {
		name, unit, build string
		want              float64 // mm³
	}{
		{"once", "inch", placedOnce, 25.4 * 25.4 * 25.4},
		{"in metres", "meter", placedOnce, 1e9},
		{"twice", "millimeter", `</resources><build><item objectid="1"/><item objectid="1" transform="1 0 0 0 1 0 0 0 1 5 0 0"/></build>`, 2},
		{"mirrored", "millimeter", `</resources><build><item objectid="1" transform="-2 0 0 0 3 0 0 0 4 5 0 0"/></build>`, 24},
		{"sheared", "millimeter", `</resources><build><item objectid="1" transform="1 0 0 0.5 1 0 0 0 2 0 0 0"/></build>`, 2},
		{"of parts", "millimeter", `<object id="2"><components><component objectid="1" transform="2 0 0 0 1 0 0 0 1 0 0 0"/><component objectid="1" transform="1 0 0 0 1 0 0 0 1 0 4 0"/></components></object></resources>` +
			`<build><item objectid="2" transform="1 0 0 0 1 0 0 0 3 0 0 0"/></build>`, 9},
	} {
		got := litres(t, "x.3mf", archiveOf(t, modelOf(cube(), c.unit, c.build))) * 1e6
		if math.Abs(got/c.want-1) > 1e-12 {
			t.Errorf("%s: %.12g mm³, expected %.12g", c.name, got, c.want)
		}
	}
}

func TestOBJPolygonsAndLongLines(t *testing.T) {
	cube := "v 0 0 0\nv 1 0 0\nv 1 1 0\nv 0 1 0\nv 0 0 1 0.5 0.5 0.5\nv 1 0 1\nv 1 1 1\nv 0 1 1\nvn 0 0 1\nl 1 2\ns off\n" +
		"f 4 3 2 1\nf 5 6 \\\n7 8\nf 1 2 6 5\nf 2 3 7 6\nf 3 4 8 7\nf 4 1 5 8\n"
	if got := litres(t, "cube.obj", []byte(cube)) * 1e6; math.Abs(got-1) > 1e-14 {
		t.Errorf("%g mm³, expected 1", got)
	}
}

// TestConcaveFace: a face that recedes is cut into triangles that cover no more
// than it does.
func TestConcaveFace(t *testing.T) {
	for turn := range 6 {
		section := [][2]float64{{0, 0}, {900, 0}, {900, 200}, {400, 200}, {400, 600}, {0, 600}}
		var b strings.Builder
		for _, z := range []float64{0, 300} {
			for _, p := range section {
				fmt.Fprintf(&b, "v %g %g %g\n", p[0], p[1], z)
			}
		}
		face := func(of func(i int) int) {
			b.WriteString("f")
			for i := range 6 {
				fmt.Fprintf(&b, " %d", of((i+turn)%6))
			}
			b.WriteString("\n")
		}
		face(func(i int) int { return 6 - i })
		face(func(i int) int { return 7 + i })
		for i := range 6 {
			fmt.Fprintf(&b, "f %d %d %d %d\n", i+1, (i+1)%6+1, (i+1)%6+7, i+7)
		}
		d, err := Read("l.obj", []byte(b.String()))
		if err != nil {
			t.Fatal(err)
		}
		m, err := mesh.New(d.Facets, mesh.Unsaid)
		if err != nil {
			t.Fatal(err)
		}
		p := r3.Vec{X: 430, Y: 400, Z: 300}
		if v := geometry.Volume(m); math.Abs(v/(300*(900*200+400*400))-1) > 1e-12 || m.Contains(p) || math.Abs(m.Clearance(p)-30) > 1e-9 {
			t.Errorf("turned by %d: %g mm³, a point 30 mm outside: contained %t, clearance %g", turn, v, m.Contains(p), m.Clearance(p))
		}
	}
}

// TestUsualVariants reads what other programs write.
func TestUsualVariants(t *testing.T) {
	f := meshtest.Saddle(200)
	want := litres(t, "a.stl", textOf(f))
	header := binaryOf(f)
	copy(header, "solid facet")
	cube := meshtest.Block(1, 1, 1, func(u, v, w float64) r3.Vec { return r3.Vec{X: u, Y: v, Z: w} })
	slices := `<s:slicestack id="9"><s:slice ztop="1"><s:vertices><s:vertex x="0" y="1"/></s:vertices></s:slice></s:slicestack>`
	support := strings.Replace(strings.Replace(modelOf(cube, "millimeter", ""), `id="1" type="model"`, `id="5" type="support"`, 1), `</model>`, "", 1)
	support = support[strings.Index(support, "<object"):]
	for _, c := range []struct {
		name string
		data []byte
		want float64
	}{
		{"cr.stl", bytes.ReplaceAll(textOf(f), []byte("\n"), []byte("\r")), want},
		{"facets.stl", bytes.ReplaceAll(textOf(f), []byte("\n    "), []byte(" ")), want},
		{"solid.stl", append(header, 0, 0), litres(t, "a.stl", binaryOf(f))},
		{"sliced.3mf", archiveOf(t, strings.Replace(modelOf(cube, "millimeter", placedOnce), "<resources>", "<resources>"+slices, 1)), 1e-6},
		{"supported.3mf", archiveOf(t, modelOf(cube, "millimeter", support+`</resources><build><item objectid="1"/><item objectid="5" transform="1 0 0 0 1 0 0 0 1 5 0 0"/></build>`)), 1e-6},
	} {
		if got := litres(t, c.name, c.data); math.Abs(got/c.want-1) > 1e-12 {
			t.Errorf("%s: %.12g L, expected %.12g", c.name, got, c.want)
		}
	}
	// Line numbers count lines that go on.
	_, err := Read("a.obj", []byte("v 0 0 0\nv 1 0 0\nf 1 \\\n2 \\\n9\n"))
	if err == nil || !strings.HasPrefix(err.Error(), "line 5: vertex 9") {
		t.Errorf("%v", err)
	}
}

// TestBadFiles: an error that says where and what was expected, never a crash.
func TestBadFiles(t *testing.T) {
	whole := binaryOf(meshtest.Saddle(200))
	nan := bytes.Clone(whole)
	binary.LittleEndian.PutUint32(nan[stlHeader+stlFacet*7+stlNormal+12:], math.Float32bits(float32(math.NaN())))
	claims := bytes.Clone(whole)
	binary.LittleEndian.PutUint32(claims[80:], math.MaxUint32)
	cube := meshtest.Block(1, 1, 1, func(u, v, w float64) r3.Vec { return r3.Vec{X: u, Y: v, Z: w} })
	model := modelOf(cube, "millimeter", placedOnce)
	for _, c := range []struct {
		file  string
		data  []byte
		words string
	}{
		{"a.stl", whole[:len(whole)-20], "the file ends in the middle of number"},
		{"a.stl", whole[:40], "40 bytes, expected an STL"},
		{"a.stl", nil, "0 bytes, expected an STL"},
		{"a.stl", nan, "facet 8, corner 2 is not finite"},
		{"a.stl", claims, "the header says 4294967295 facets"},
		{"a.stl", []byte("solid\nfacet normal 0 0 0\nouter loop\nvertex 0 0\n"), `line 4: expected "vertex" and three finite numbers`},
		{"a.stl", []byte("solid\nfacet normal 0 0 0\nouter loop\nvertex 0 0 inf\n"), "line 4: expected"},
		{"a.stl", []byte("solid\nfacet normal 0 0 0\nouter loop\nvertex 0 0 0\nendloop\nendfacet"), "line 6: the facet has 1 corner, expected 3"},
		{"a.stl", []byte("solid\nfacet\nvertex 0 0 0\nvertex 0 0 1\nvertex 0 1 0\nvertex 0 1 1"), "line 6: a vertex outside a facet, or the fourth"},
		{"a.stl", []byte("solid\nfacet\nvertex 0 0 0\n"), "ends in the middle of a facet"},
		{"a.stl", []byte("solid\nfacet\nfacette\n"), `line 3: "facette", expected one of`},
		{"a.stl", []byte("solid nothing\nendsolid"), "without facets"},
		{"a.obj", []byte("v 1 2\n"), `line 1: expected "v" and three finite numbers`},
		{"a.obj", []byte("v 0 0 0\nf 1 2 3\n"), "line 2: vertex 2, expected one of the 1 so far"},
		{"a.obj", []byte("v 0 0 0\nf 1 -2 1\n"), "line 2: vertex -2, expected one of the 1 so far"},
		{"a.obj", []byte("v 0 0 0\nf 1 x 1\n"), `line 2: "x", expected the number of a vertex`},
		{"a.obj", []byte("v 0 0 0\nf 1 1\n"), "line 2: a face of 2 corners"},
		{"a.obj", []byte("v 0 0 0\ncurv 0 1 1 1\n"), `line 2: "curv", a free-form surface`},
		{"a.3mf", []byte("PK"), "not a 3MF"},
		{"a.3mf", archiveOf(t, "<model>"), "no item in the build"},
		{"a.3mf", archiveOf(t, "<other/>"), "no model element"},
		{"a.3mf", archiveOf(t, model[:len(model)/2]), ""},
		{"a.3mf", archiveOf(t, strings.Replace(model, `x="1"`, `x="one"`, 1)), `vertex x = "one", expected a number`},
		{"a.3mf", archiveOf(t, strings.Replace(model, `x="1"`, `x="NaN"`, 1)), "not finite"},
		{"a.3mf", archiveOf(t, strings.Replace(model, `v1="0"`, `v1="99"`, 1)), `triangle v1 = "99", expected the number of one of the 8 vertices`},
		{"a.3mf", archiveOf(t, strings.Replace(model, "millimeter", "furlong", 1)), `unit "furlong"`},
		{"a.3mf", archiveOf(t, modelOf(cube, "inch", `</resources><build><item objectid="7"/></build>`)), `object "7" is placed but not there`},
		{"a.3mf", archiveOf(t, modelOf(cube, "inch", `</resources><build><item objectid="1" transform="1 2 3"/></build>`)), "a transform of 3 numbers, expected 12"},
		{"a.3mf", archiveOf(t, modelOf(cube, "inch", `<object id="2"><components><component objectid="2"/></components></object></resources><build><item objectid="2"/></build>`)), "more than 16 deep"},
		{"a.3mf", archiveOf(t, modelOf(cube, "inch", `</resources><build><item objectid="1" p:path="/3D/b.model"/></build>`)), "in another part"},
		{"a.step", []byte("ISO-10303-21;"), "expected a file ending in .stl, .obj or .3mf"},
	} {
		d, err := Read(c.file, c.data)
		if err == nil || !strings.Contains(err.Error(), c.words) || strings.Contains(err.Error(), "\n") {
			t.Errorf("%s %.40q: %v, %v, expected … %s …", c.file, c.data, d, err, c.words)
		}
	}
}

// TestManyCopiesAreRefused: objects made of objects can claim far more than the
// file holds.
func TestManyCopiesAreRefused(t *testing.T) {
	var b strings.Builder
	for i := 2; i < 16; i++ {
		fmt.Fprintf(&b, `<object id="%d"><components>%s</components></object>`, i, strings.Repeat(fmt.Sprintf(`<component objectid="%d"/>`, i-1), 50))
	}
	cube := meshtest.Block(1, 1, 1, func(u, v, w float64) r3.Vec { return r3.Vec{X: u, Y: v, Z: w} })
	_, err := Read("a.3mf", archiveOf(t, modelOf(cube, "inch", b.String()+`</resources><build><item objectid="15"/></build>`)))
	if err == nil || !strings.Contains(err.Error(), "expected fewer") {
		t.Errorf("%v", err)
	}
	// Many vertices, one face, many copies.
	many := meshtest.Saddle(40000)
	many.Faces = many.Faces[:1]
	items := strings.Repeat(`<item objectid="1"/>`, 20000)
	_, err = Read("a.3mf", archiveOf(t, modelOf(many, "inch", `</resources><build>`+items+`</build>`)))
	if err == nil || !strings.Contains(err.Error(), "expected fewer") {
		t.Errorf("%v", err)
	}
}

// fuzz reads any bytes; what is read must be usable or refused.
func fuzz(f *testing.F, name string, seeds ...[]byte) {
	for _, s := range seeds {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		d, err := Read(name, data)
		if err != nil {
			return
		}
		for _, face := range d.Faces {
			for _, v := range face {
				if v < 0 || int(v) >= len(d.Points) {
					t.Fatalf("triangle %v of %d points", face, len(d.Points))
				}
			}
		}
		m, err := mesh.New(d.Facets, mesh.Unsaid)
		if err != nil {
			return
		}
		up := r3.Vec{X: 0.1, Y: -0.2, Z: 0.97}
		cut := m.Cut(up)
		lo, hi := m.Extent(up)
		v := cut.Volume((lo + hi) / 2)
		if !(v >= 0) || v > cut.Volume(hi)*(1+1e-9) {
			t.Fatalf("volume %g of %g", v, cut.Volume(hi))
		}
	})
}

func FuzzSTL(f *testing.F) {
	tank := meshtest.Saddle(60)
	fuzz(f, "a.stl", binaryOf(tank), textOf(tank), []byte("solid\nfacet normal 0 0 1\nouter loop\nvertex 0 0 0\nvertex 1 0 0\nvertex 0 1 0\nendloop\nendfacet\nendsolid\n"))
}

func FuzzOBJ(f *testing.F) {
	fuzz(f, "a.obj", objOf(meshtest.Saddle(60)), []byte("v 0 0 0\nv 1 0 0\nv 0 1 0\nv 0 0 1\nf 1 3 2\nf 1 2 4\nf 2 3 4\nf -4 -1 -2\n"))
}

func Fuzz3MF(f *testing.F) {
	tank := meshtest.Saddle(60)
	f.Add(modelOf(tank, "millimeter", placedOnce))
	f.Add(modelOf(tank, "inch", `<object id="2"><components><component objectid="1" transform="2 0 0 0 1 0 0 0 1 0 0 0"/></components></object></resources><build><item objectid="2"/></build>`))
	f.Fuzz(func(t *testing.T, model string) {
		d, err := Read("a.3mf", archiveOf(t, model))
		if err == nil {
			if _, err := mesh.New(d.Facets, mesh.Unsaid); err != nil && strings.Contains(err.Error(), "\n") {
				t.Fatalf("%q", err)
			}
		}
	})
}

var sink float64

// BenchmarkFile is a file to the fill curve: decoded, welded, checked and swept.
func BenchmarkFile(b *testing.B) {
	up := geometry.Mount{}.Up(geometry.Attitude{NoseUp: 7, LeftUp: 4})
	for _, n := range []int{1e3, 1e4, 1e5, 1e6} {
		f := meshtest.Saddle(n)
		for _, format := range []struct {
			name string
			data []byte
		}{{"a.stl", binaryOf(f)}, {"text.stl", textOf(f)}, {"a.obj", objOf(f)}, {"a.3mf", archiveOf(b, modelOf(f, "millimeter", placedOnce))}} {
			b.Run(fmt.Sprintf("%s/%d", format.name, n), func(b *testing.B) {
				b.ReportAllocs()
				b.SetBytes(int64(len(format.data)))
				for b.Loop() {
					d, err := Read(format.name, format.data)
					if err != nil {
						b.Fatal(err)
					}
					m, err := mesh.New(d.Facets, mesh.Unsaid)
					if err != nil {
						b.Fatal(err)
					}
					sink += m.Cut(up).Volume(200)
				}
			})
		}
	}
}
