package mesh_test

import (
	"errors"
	"flag"
	"math"
	"strings"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"
	"pgregory.net/rapid"

	"floatarc/geometry"
	"floatarc/geometry/mesh"
	"floatarc/geometry/mesh/meshtest"
)

// box returns a box of a size at a place; inward turns its triangles.
func box(at, size r3.Vec, inward bool) *mesh.Facets {
	f := meshtest.Block(3, 3, 3, func(u, v, w float64) r3.Vec {
		return r3.Vec{X: at.X + u*size.X, Y: at.Y + v*size.Y, Z: at.Z + w*size.Z}
	})
	if inward {
		for i, t := range f.Faces {
			f.Faces[i] = [3]int32{t[0], t[2], t[1]}
		}
	}
	return f
}

// together puts drawings into one.
func together(parts ...*mesh.Facets) *mesh.Facets {
	out := mesh.NewFacets(0)
	for _, p := range parts {
		for _, t := range p.Faces {
			out.Face(out.Vertex(p.Points[t[0]]), out.Vertex(p.Points[t[1]]), out.Vertex(p.Points[t[2]]))
		}
	}
	return out
}

// without leaves triangles out whose centre a test picks.
func without(f *mesh.Facets, drop func(r3.Vec) bool) *mesh.Facets {
	out := mesh.NewFacets(0)
	for _, t := range f.Faces {
		a, b, c := f.Points[t[0]], f.Points[t[1]], f.Points[t[2]]
		if !drop(r3.Scale(1./3, r3.Add(a, r3.Add(b, c)))) {
			out.Face(out.Vertex(a), out.Vertex(b), out.Vertex(c))
		}
	}
	return out
}

// tray is a box of sheet metal, open through a port in its roof: the walls are a
// block around the cavity with the port as a hole.
func tray() *mesh.Facets {
	inPort := func(p r3.Vec) bool { return p.X > 100 && p.X < 200 && p.Y > 100 && p.Y < 200 }
	outer := without(meshtest.Block(4, 3, 1, func(u, v, w float64) r3.Vec { return r3.Vec{X: 400 * u, Y: 300 * v, Z: 250 * w} }),
		func(p r3.Vec) bool { return p.Z == 250 && inPort(p) })
	inner := meshtest.Block(4, 3, 1, func(u, v, w float64) r3.Vec {
		p := r3.Vec{X: 400 * u, Y: 300 * v, Z: 4 + 242*w}
		if u == 0 || u == 1 {
			p.X = 4 + 392*u
		}
		if v == 0 || v == 1 {
			p.Y = 4 + 292*v
		}
		return p
	})
	for i, t := range inner.Faces {
		inner.Faces[i] = [3]int32{t[0], t[2], t[1]}
	}
	inner = without(inner, func(p r3.Vec) bool { return p.Z == 246 && inPort(p) })
	rim := mesh.NewFacets(8)
	ring := [][2]float64{{100, 100}, {200, 100}, {200, 200}, {100, 200}}
	for i, a := range ring {
		b := ring[(i+1)%4]
		at := func(p [2]float64, z float64) int32 { return rim.Vertex(r3.Vec{X: p[0], Y: p[1], Z: z}) }
		rim.Face(at(a, 250), at(b, 250), at(b, 246))
		rim.Face(at(a, 250), at(b, 246), at(a, 246))
	}
	return together(outer, inner, rim)
}

// saddleOfQuads is a U upside down, 400 mm long, whose large faces are two
// triangles each, cut along one diagonal or the other.
func saddleOfQuads(rising bool) *mesh.Facets {
	section := [][2]float64{{0, 0}, {80, 0}, {80, 120}, {200, 120}, {200, 0}, {280, 0}, {280, 300}, {0, 300}}
	f := mesh.NewFacets(0)
	at := func(i int, x float64) int32 {
		p := section[i%len(section)]
		return f.Vertex(r3.Vec{X: x, Y: p[0], Z: p[1]})
	}
	for i := range section {
		a, b, c, d := at(i, 0), at(i+1, 0), at(i+1, 400), at(i, 400)
		if rising {
			f.Face(a, b, c)
			f.Face(a, c, d)
		} else {
			f.Face(a, b, d)
			f.Face(b, c, d)
		}
	}
	for _, part := range [][4]int{{0, 1, 2, 7}, {2, 3, 6, 7}, {3, 4, 5, 6}} {
		for _, x := range []float64{0, 400} {
			a, b, c, d := at(part[0], x), at(part[1], x), at(part[2], x), at(part[3], x)
			if x == 0 {
				f.Face(a, c, b)
				f.Face(a, d, c)
			} else {
				f.Face(a, b, c)
				f.Face(a, c, d)
			}
		}
	}
	return f
}

func TestChecksOfDrawings(t *testing.T) {
	big, small := r3.Vec{X: 400, Y: 300, Z: 200}, r3.Vec{X: 392, Y: 292, Z: 192}
	in := r3.Vec{X: 4, Y: 4, Z: 4}
	module := r3.Vec{X: 60, Y: 60, Z: 60}
	for _, c := range []struct {
		name   string
		f      *mesh.Facets
		use    mesh.Use
		litres float64 // 0 for a refusal
		words  string
		notes  mesh.Notes
	}{
		{"a box", box(r3.Vec{}, big, false), mesh.Unsaid, 24, "", mesh.Notes{}},
		{"a box inside out", box(r3.Vec{}, big, true), mesh.Unsaid, 24, "", mesh.Notes{Flipped: true}},
		{"two boxes apart", together(box(r3.Vec{}, big, false), box(r3.Vec{X: 500}, big, false)), mesh.Unsaid, 48, "", mesh.Notes{}},
		{"two boxes side by side", together(box(r3.Vec{}, big, false), box(r3.Vec{X: 400}, big, false)), mesh.Unsaid, 48, "", mesh.Notes{}},
		{"one of two inside out", together(box(r3.Vec{}, big, false), box(r3.Vec{X: 500}, big, true)), mesh.Unsaid, 0, "faces inward while others face outward", mesh.Notes{}},
		{"walls", together(box(r3.Vec{}, big, false), box(in, small, true)), mesh.Unsaid, 0, `nested surfaces, 2.023 L of walls around a cavity of 21.98 L, expected use = "cavity"`, mesh.Notes{}},
		{"walls, both outward", together(box(r3.Vec{}, big, false), box(in, small, false)), mesh.Unsaid, 0, "nested surfaces", mesh.Notes{}},
		{"cavity", together(box(r3.Vec{}, big, false), box(in, small, true)), mesh.Cavity, 21.977088, "", mesh.Notes{Cavity: true}},
		{"cavity, both outward", together(box(r3.Vec{}, big, false), box(in, small, false)), mesh.Cavity, 21.977088, "", mesh.Notes{Cavity: true}},
		{"cavity with a module", together(box(r3.Vec{}, big, false), box(in, small, true), box(r3.Vec{X: 50, Y: 50, Z: 50}, module, false)), mesh.Cavity, 21.761088, "", mesh.Notes{Cavity: true, Voids: 1}},
		{"no cavity", box(r3.Vec{}, big, false), mesh.Cavity, 0, "no closed surface inside another", mesh.Notes{}},
		{"a module in the fuel", together(box(r3.Vec{}, big, false), box(r3.Vec{X: 50, Y: 50, Z: 50}, module, true)), mesh.Unsaid, 23.784, "", mesh.Notes{Voids: 1}},
		{"a module counted twice", together(box(r3.Vec{}, big, false), box(r3.Vec{X: 50, Y: 50, Z: 50}, module, false)), mesh.Unsaid, 0, "would count twice", mesh.Notes{}},
		{"boxes through each other", together(box(r3.Vec{}, big, false), box(r3.Vec{X: 300, Y: 20, Z: 20}, big, false)), mesh.Unsaid, 0, "surfaces run through each other", mesh.Notes{}},
		{"a large module in the fuel", together(box(r3.Vec{}, big, false), box(r3.Vec{X: 100, Y: 100, Z: 1}, r3.Vec{X: 100, Y: 100, Z: 99}, true)), mesh.Unsaid, 23.01, "", mesh.Notes{Voids: 1}},
		{"a module on the floor", together(box(r3.Vec{}, big, false), box(r3.Vec{X: 110, Y: 105}, r3.Vec{X: 100, Y: 100, Z: 99}, true)), mesh.Unsaid, 23.01, "", mesh.Notes{Voids: 1}},
		{"a saddle with parallel diagonals", saddleOfQuads(true), mesh.Unsaid, 27.84, "", mesh.Notes{}},
		{"the same with the others", saddleOfQuads(false), mesh.Unsaid, 27.84, "", mesh.Notes{}},
		{"thick walls", together(box(r3.Vec{}, r3.Vec{X: 100, Y: 100, Z: 100}, false), box(r3.Vec{X: 12, Y: 12, Z: 12}, r3.Vec{X: 76, Y: 76, Z: 76}, true)), mesh.Unsaid, 0, "nested surfaces", mesh.Notes{}},
		{"corners that nearly meet", func() *mesh.Facets {
			f := mesh.NewFacets(0)
			for i, t := range box(r3.Vec{}, big, false).Faces {
				shift := r3.Vec{X: 1e-5 * float64(i%5)}
				p := box(r3.Vec{}, big, false).Points
				f.Face(f.Vertex(r3.Add(p[t[0]], shift)), f.Vertex(r3.Add(p[t[1]], shift)), f.Vertex(r3.Add(p[t[2]], shift)))
			}
			return f
		}(), mesh.Unsaid, 0, "perhaps they are meant to be the same", mesh.Notes{}},
		{"an open box", without(box(r3.Vec{}, big, false), func(p r3.Vec) bool { return p.Z == 200 && p.X < 140 && p.Y < 110 }), mesh.Unsaid, 0, "open along 4 edges, in 1 hole (4 edges about (66.6667, 50, 200), 166.7 mm across)", mesh.Notes{}},
		{"one triangle turned", func() *mesh.Facets {
			f := box(r3.Vec{}, big, false)
			f.Faces[5] = [3]int32{f.Faces[5][0], f.Faces[5][2], f.Faces[5][1]}
			return f
		}(), mesh.Unsaid, 0, "face opposite ways", mesh.Notes{}},
		{"a collapsed triangle more", func() *mesh.Facets {
			f := box(r3.Vec{}, big, false)
			f.Face(3, 3, 5)
			return f
		}(), mesh.Unsaid, 24, "", mesh.Notes{Collapsed: 1}},
		{"sheet metal with a port", tray(), mesh.Unsaid, 0, "a thin solid: the drawing shows the metal", mesh.Notes{}},
		{"sheet metal, but meant", tray(), mesh.Solid, 2.259712, "", mesh.Notes{}},
		{"a flat sheet, twice", together(meshtest.Polyhedron([]r3.Vec{{}, {X: 9}, {Y: 9}}, [][]int{{0, 1, 2}, {0, 2, 1}}), meshtest.Polyhedron([]r3.Vec{{}, {X: 9}, {Y: 9}}, [][]int{{0, 1, 2}, {0, 2, 1}})), mesh.Unsaid, 0, "enclose", mesh.Notes{}},
		{"nothing", mesh.NewFacets(0), mesh.Unsaid, 0, "no triangles", mesh.Notes{}},
		{"not a number", box(r3.Vec{X: math.NaN()}, big, false), mesh.Unsaid, 0, "expected coordinates within", mesh.Notes{}},
	} {
		m, err := mesh.New(c.f, c.use)
		if c.litres == 0 {
			var d *geometry.DimensionError
			if !errors.As(err, &d) || d.Dimension != "file" || !strings.Contains(d.Reason, c.words) {
				t.Errorf("%s: %v, expected … %s …", c.name, err, c.words)
			}
			continue
		}
		if err != nil {
			t.Errorf("%s: %v", c.name, err)
			continue
		}
		if v := geometry.Volume(m) / 1e6; math.Abs(v-c.litres) > 1e-9 || m.Notes != c.notes {
			t.Errorf("%s: %.9f L, %+v, expected %.9f L, %+v", c.name, v, m.Notes, c.litres, c.notes)
		}
	}
}

// TestPlatonicSolids: edge 1, centred, below z = z0 (volumes of the whole solids:
// CRC Standard Mathematical Tables, 30th ed., and P. Bourke, 1993; the clipped
// ones computed by hulls and by slicing, which agree to 8 digits).
func TestPlatonicSolids(t *testing.T) {
	p := (1 + math.Sqrt(5)) / 2
	var icosa, dodeca, octa []r3.Vec
	cyclic := func(x, y, z float64) []r3.Vec {
		return []r3.Vec{{X: x, Y: y, Z: z}, {X: z, Y: x, Z: y}, {X: y, Y: z, Z: x}}
	}
	for _, a := range []float64{-1, 1} {
		octa = append(octa, r3.Scale(a/math.Sqrt2, r3.Vec{X: 1}), r3.Scale(a/math.Sqrt2, r3.Vec{Y: 1}), r3.Scale(a/math.Sqrt2, r3.Vec{Z: 1}))
		for _, b := range []float64{-1, 1} {
			icosa = append(icosa, cyclic(0, a/2, b*p/2)...)
			dodeca = append(dodeca, cyclic(0, a/2, b*p*p/2)...)
			for _, c := range []float64{-1, 1} {
				dodeca = append(dodeca, r3.Vec{X: a * p / 2, Y: b * p / 2, Z: c * p / 2})
			}
		}
	}
	for _, c := range []struct {
		name    string
		corners []r3.Vec
		whole   float64
		below   []float64
	}{
		{"icosahedron", icosa, 5 * (3 + math.Sqrt(5)) / 12, []float64{0.21065534, 0.50781424, 1.09084750, 1.49384232, 1.90586467}},
		{"dodecahedron", dodeca, (15 + 7*math.Sqrt(5)) / 4, []float64{1.63770632, 2.47061137, 3.83155948, 4.75279269, 5.82329706}},
		{"octahedron", octa, math.Sqrt2 / 3, []float64{0.00592232, 0.04498148, 0.23570226, 0.38446705, 0.46007401}},
	} {
		m, err := mesh.New(hull(c.corners), mesh.Unsaid)
		if err != nil {
			t.Fatalf("%s: %v", c.name, err)
		}
		if v := geometry.Volume(m); math.Abs(v-c.whole) > 1e-14*c.whole {
			t.Errorf("%s: %.15g, expected %.15g", c.name, v, c.whole)
		}
		cut := m.Cut(r3.Vec{Z: 1})
		for i, z := range []float64{-0.5, -0.3, 0, 0.2, 0.45} {
			if v := cut.Volume(z); math.Abs(v-c.below[i]) > 6e-9 {
				t.Errorf("%s below %g: %.10f, expected %.8f", c.name, z, v, c.below[i])
			}
		}
	}
}

// hull returns the convex hull of a few points, by looking at every plane through
// three of them.
func hull(points []r3.Vec) *mesh.Facets {
	f := mesh.NewFacets(0)
	for i, a := range points {
		for j, b := range points {
			for k, c := range points {
				normal := r3.Cross(r3.Sub(b, a), r3.Sub(c, a))
				if i > min(j, k) || j == k || i == j || i == k || r3.Norm(normal) < 1e-9 {
					continue
				}
				var face []int
				outside := true
				for l, q := range points {
					side := r3.Dot(normal, r3.Sub(q, a))
					outside = outside && side < 1e-9
					if math.Abs(side) < 1e-9 {
						face = append(face, l)
					}
				}
				// A face of more corners is taken once, as a fan from its first
				// corner: j and k must be neighbours on its rim.
				if !outside || face[0] != i || len(face) > 3 && !neighbours(points, face, normal, j, k) {
					continue
				}
				f.Face(f.Vertex(a), f.Vertex(b), f.Vertex(c))
			}
		}
	}
	return f
}

// neighbours tells whether no corner of a flat face lies beyond the edge jk.
func neighbours(points []r3.Vec, face []int, normal r3.Vec, j, k int) bool {
	edge := r3.Sub(points[k], points[j])
	for _, l := range face {
		if r3.Dot(normal, r3.Cross(edge, r3.Sub(points[l], points[j]))) < -1e-9 {
			return false
		}
	}
	return true
}

// drawMesh returns a lathe or a twisted block somewhere in space.
func drawMesh(t *rapid.T) *mesh.Mesh {
	size := rapid.Float64Range(50, 900)
	turn := rapid.Float64Range(-180, 180)
	f := geometry.Turned(r3.Vec{X: size.Draw(t, "x"), Y: size.Draw(t, "y"), Z: size.Draw(t, "z")}, turn.Draw(t, "rx"), turn.Draw(t, "ry"), turn.Draw(t, "rz"))
	if rapid.Bool().Draw(t, "square") {
		f = geometry.Across(geometry.Axis(rapid.IntRange(0, 2).Draw(t, "axis")), f.Origin)
	}
	out := func(p r3.Vec) r3.Vec {
		return r3.Add(f.Origin, r3.Add(r3.Scale(p.X, f.U), r3.Add(r3.Scale(p.Y, f.V), r3.Scale(p.Z, f.W))))
	}
	l, w, h := size.Draw(t, "length"), size.Draw(t, "width"), size.Draw(t, "height")
	bend := rapid.OneOf(rapid.Just(0.0), rapid.Float64Range(0, 0.3)).Draw(t, "bend")
	cells := rapid.IntRange(1, 6)
	facets := meshtest.Block(cells.Draw(t, "a"), cells.Draw(t, "b"), cells.Draw(t, "c"), func(u, v, x float64) r3.Vec {
		return out(r3.Vec{X: l * (u + bend*v*x), Y: w * (v + bend*math.Sin(3*u)), Z: h * (x + bend*u*u)})
	})
	m, err := mesh.New(facets, mesh.Solid)
	if err != nil {
		t.Fatal(err)
	}
	return m
}

func drawUp(t *rapid.T) r3.Vec {
	angle := rapid.OneOf(rapid.Just(0.0), rapid.Float64Range(-1e-6, 1e-6), rapid.Float64Range(-30, 30), rapid.SampledFrom([]float64{-90, 90, 180}))
	return r3.Scale(rapid.SampledFrom([]float64{1, 3, 0.2}).Draw(t, "long"), geometry.Mount{}.Up(geometry.Attitude{NoseUp: angle.Draw(t, "nose up"), LeftUp: angle.Draw(t, "left up")}))
}

// TestMeshProperties: the volume never falls, upside down is the complement, the
// level of a volume gives it back, the rates are the derivatives.
func TestMeshProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m, n := drawMesh(t), drawUp(t)
		cut, down, whole := m.Cut(n), m.Cut(r3.Scale(-1, n)), geometry.Volume(m)
		lo, hi := m.Extent(n)
		before := 0.0
		for i := range 41 {
			h := lo + (hi-lo)*float64(i)/40
			v := cut.Volume(h)
			if v < before {
				t.Fatalf("volume falls from %g to %g", before, v)
			}
			before = v
			if sum := v + down.Volume(-h); math.Abs(sum-whole) > 1e-12*whole {
				t.Fatalf("the two parts make %.15g of %.15g", sum, whole)
			}
			back := cut.(geometry.Inverse).Level(v)
			if again := cut.Volume(back); math.Abs(again-v) > 1e-12*whole {
				t.Fatalf("volume %g at the level of the volume %g", again, v)
			}
		}
		h := lo + (hi-lo)*rapid.Float64Range(0.02, 0.98).Draw(t, "level")
		f := cut.FreeSurface(h)
		if s := cut.Surface(h); math.Abs(f.Area-s) > 1e-9*whole/(hi-lo) {
			t.Fatalf("area %.12g, surface %.12g", f.Area, s)
		}
		step := 1e-6 * (hi - lo)
		bend := math.Abs(cut.Surface(h-step)-2*cut.Surface(h)+cut.Surface(h+step)) / (whole / (hi - lo))
		rate := r3.Scale(1/(2*step), r3.Sub(cut.Moment(h+step), cut.Moment(h-step)))
		if off := r3.Norm(r3.Sub(rate, f.First)) / (whole / (hi - lo) * 3000); off > 1e-4+2*bend {
			t.Fatalf("moments of the surface %v, rate of the moments %v", f.First, rate)
		}
		if off := r3.Norm(r3.Sub(f.Second.Apply(n), r3.Scale(h, f.First))); off > 1e-9*r3.Norm(n)*3000*3000*whole/(hi-lo) {
			t.Fatalf("second moment along up %v, expected %v", f.Second.Apply(n), r3.Scale(h, f.First))
		}
	})
}

// TestMeshPoints holds containment and clearance against each other and against
// the solid angle of all triangles.
func TestMeshPoints(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m := drawMesh(t)
		lo, hi := m.Box()
		at := rapid.Float64Range(-0.1, 1.1)
		p := r3.Vec{X: lo.X + (hi.X-lo.X)*at.Draw(t, "px"), Y: lo.Y + (hi.Y-lo.Y)*at.Draw(t, "py"), Z: lo.Z + (hi.Z-lo.Z)*at.Draw(t, "pz")}
		clear, inside := m.Clearance(p), m.Contains(p)
		if clear < 1e-4 {
			return
		}
		for i := range 50 {
			z := 1 - (2*float64(i)+1)/50
			sin, cos := math.Sincos(2.4 * float64(i))
			d := r3.Vec{X: math.Sqrt(1-z*z) * cos, Y: math.Sqrt(1-z*z) * sin, Z: z}
			if q := r3.Add(p, r3.Scale(clear*(1-1e-6)-1e-5, d)); m.Contains(q) != inside {
				t.Fatalf("within the clearance of %g of %v, %v lies on the other side", clear, p, q)
			}
		}
	})
}

// TestSlabsKeepDigits cuts a large mesh with a floor of the roughness of single
// precision, level and tilted, and compares with the sum over all triangles of
// their own clipped parts.
func TestSlabsKeepDigits(t *testing.T) {
	f := meshtest.Block(60, 50, 40, func(u, v, w float64) r3.Vec {
		wave := 3e-5 * math.Sin(40*u+7*v) * math.Cos(31*v) // as if rounded to float32 at 300 mm
		return r3.Vec{X: 620 * u, Y: 320*v + 9*math.Sin(5*u)*w, Z: 300 + 240*w*(1-0.3*u*v) + wave*(1-w)}
	})
	m, err := mesh.New(f, mesh.Solid)
	if err != nil {
		t.Fatal(err)
	}
	worst := 0.0
	for _, up := range []r3.Vec{{Z: 1}, {X: 1e-7, Z: 1}, tilt, {X: 1}} {
		cut, whole := m.Cut(up), geometry.Volume(m)
		lo, hi := m.Extent(up)
		for i := range 200 {
			h := lo + (hi-lo)*math.Pow(float64(i)/199, 3) // most of them near the floor
			worst = math.Max(worst, math.Abs(cut.Volume(h)-summed(f, up, h))/whole)
		}
	}
	t.Logf("worst error %.2g of the capacity over %d triangles", worst, m.Triangles())
	if worst > 1e-13 {
		t.Errorf("worst error %.2g of the capacity", worst)
	}
}

var large = flag.Int("large", 100_000, "number of triangles of the large saddle")

// TestLargeSaddleKeepsDigits does the same with a large smooth tank.
func TestLargeSaddleKeepsDigits(t *testing.T) {
	f := meshtest.Saddle(*large)
	m, err := mesh.New(f, mesh.Unsaid)
	if err != nil {
		t.Fatal(err)
	}
	worst := 0.0
	cut, whole := m.Cut(tilt), geometry.Volume(m)
	lo, hi := m.Extent(tilt)
	for i := range 40 {
		h := lo + (hi-lo)*float64(i)/39
		worst = math.Max(worst, math.Abs(cut.Volume(h)-summed(f, tilt, h))/whole)
	}
	t.Logf("worst error %.2g of the capacity over %d triangles", worst, m.Triangles())
	if worst > 1e-13 {
		t.Errorf("worst error %.2g of the capacity", worst)
	}
	// Points beside the middle of every thousandth triangle.
	for i := 0; i < len(f.Faces); i += 1000 {
		a, b, c := f.Points[f.Faces[i][0]], f.Points[f.Faces[i][1]], f.Points[f.Faces[i][2]]
		middle := r3.Scale(1./3, r3.Add(a, r3.Add(b, c)))
		out := r3.Scale(1e-3, r3.Unit(r3.Cross(r3.Sub(b, a), r3.Sub(c, a))))
		if p := r3.Add(middle, out); m.Contains(p) || math.Abs(m.Clearance(p)-1e-3) > 1e-9 {
			t.Fatalf("%v, outside: contained %t, clearance %g", p, m.Contains(p), m.Clearance(p))
		}
		if p := r3.Sub(middle, out); !m.Contains(p) || math.Abs(m.Clearance(p)-1e-3) > 1e-9 {
			t.Fatalf("%v, inside: contained %t, clearance %g", p, m.Contains(p), m.Clearance(p))
		}
	}
}

// summed returns the volume below a level by clipping every triangle by itself:
// with heights over the level, the divergence theorem with the field along up
// leaves the prisms between the clipped triangles and the level plane.
func summed(f *mesh.Facets, up r3.Vec, level float64) float64 {
	n := r3.Unit(up)
	h := level / r3.Norm(up)
	sum, lost := 0.0, 0.0
	for _, t := range f.Faces {
		var part []r3.Vec
		for i := range t {
			a, b := f.Points[t[i]], f.Points[t[(i+1)%3]]
			da, db := r3.Dot(n, a)-h, r3.Dot(n, b)-h
			if da <= 0 {
				part = append(part, a)
			}
			if da < 0 && db > 0 || da > 0 && db < 0 {
				part = append(part, r3.Add(a, r3.Scale(da/(da-db), r3.Sub(b, a))))
			}
		}
		for i := 2; i < len(part); i++ {
			area := r3.Scale(0.5, r3.Cross(r3.Sub(part[i-1], part[0]), r3.Sub(part[i], part[0])))
			depth := (r3.Dot(n, part[0])+r3.Dot(n, part[i-1])+r3.Dot(n, part[i]))/3 - h
			term := depth * r3.Dot(area, n)
			next := sum + term
			if math.Abs(sum) >= math.Abs(term) {
				lost += sum - next + term
			} else {
				lost += term - next + sum
			}
			sum = next
		}
	}
	return sum + lost
}
