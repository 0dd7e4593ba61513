package tanks

import (
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"floatarc/geometry"
)

// folder puts files into a folder of their own, and returns the path of the
// first.
func folder(t testing.TB, files ...[2]string) string {
	t.Helper()
	dir := t.TempDir()
	for _, f := range files {
		if err := os.WriteFile(filepath.Join(dir, f[0]), []byte(f[1]), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	return filepath.Join(dir, files[0][0])
}

// cubeOBJ is a cube of edge 1, facing outward.
const cubeOBJ = "v 0 0 0\nv 1 0 0\nv 1 1 0\nv 0 1 0\nv 0 0 1\nv 1 0 1\nv 1 1 1\nv 0 1 1\nf 4 3 2 1\nf 5 6 7 8\nf 1 2 6 5\nf 2 3 7 6\nf 3 4 8 7\nf 4 1 5 8\n"

// TestShapesHold reads every shape and compares its capacity, and where its box
// lies, with what they must be.
func TestShapesHold(t *testing.T) {
	for _, c := range []struct {
		name, body string
		litres     float64
		lo, hi     [3]float64
	}{
		{"cone", "shape = \"cone\"\nlow_diameter = 400\nhigh_diameter = 1000\nlength = 900\nalong = \"z\"", 367.566340471, [3]float64{0, 0, 0}, [3]float64{1000, 1000, 900}},
		{"cone to a tip, along x", "shape = \"cone\"\nlow_diameter = 0\nhigh_diameter = 200\nlength = 300\nat = [10, 20, 30]", math.Pi, [3]float64{10, 20, 30}, [3]float64{310, 220, 230}},
		{"sphere", "shape = \"sphere\"\ndiameter = 200\nat = [5, 6, 7]", 4 * math.Pi / 3, [3]float64{5, 6, 7}, [3]float64{205, 206, 207}},
		{"ellipsoid with a wall", "shape = \"ellipsoid\"\nlength = 304\nwidth = 204\nheight = 104\nwall = 2", math.Pi, [3]float64{2, 2, 2}, [3]float64{302, 202, 102}},
		{"obelisk of stations", "shape = \"stations\"\nalong = \"z\"\nstations = [{ at = 0, points = [[0,0],[200,0],[200,300],[0,300]] }, { at = 600, points = [[-100,-200],[300,-200],[300,500],[-100,500]] }]", 94, [3]float64{-100, -200, 0}, [3]float64{300, 500, 600}},
		{"template", "shape = \"outline\"\nlength = 1000\noffsets = [[0, 100, 200], [100, 150, 250], [\"200 mm\", 0, 0]]", 1000 * (100*(300+400)/2 + 100*400/2) / 1e6, [3]float64{0, -250, 0}, [3]float64{1000, 150, 200}},
		{"mesh in inches", "shape = \"mesh\"\nfile = \"cube.obj\"\nunit = \"in\"\nat = [100, 0, 0]", 0.016387064, [3]float64{100, 0, 0}, [3]float64{125.4, 25.4, 25.4}},
		{"mesh, turned", "shape = \"mesh\"\nfile = \"cube.obj\"\nunit = \"cm\"\nturn = [0, 0, 90]\nat = [100, 0, 0]", 0.001, [3]float64{90, 0, 0}, [3]float64{100, 10, 10}},
		{"dip", "shape = \"dip\"\ntable = [[0, 0], [\"4 in\", \"2 L\"], [200, 5.5]]\nat = [0, 0, 10]", 5.5, [3]float64{math.Inf(-1), math.Inf(-1), 10}, [3]float64{math.Inf(1), math.Inf(1), 210}},
		{"dip file", "shape = \"dip\"\nfile = \"dip.csv\"", 3 * 3.785411784, [3]float64{math.Inf(-1), math.Inf(-1), 0}, [3]float64{math.Inf(1), math.Inf(1), 215.9}},
	} {
		path := folder(t, [2]string{"tank.toml", "format = 1\nname = \"t\"\n[[tank.body]]\n" + c.body + "\n"}, [2]string{"cube.obj", cubeOBJ},
			[2]string{"dip.csv", "# poured by the can\nheight in,volume (US gal),note\n0,0,dry\n4,1.2,\n\"8 1/2\",3,full\n"})
		tank, err := LoadTank(path, nil)
		if err != nil {
			t.Errorf("%s: %v", c.name, err)
			continue
		}
		if math.Abs(tank.Capacity-c.litres) > 1e-9*c.litres {
			t.Errorf("%s: %.12g L, expected %.12g", c.name, tank.Capacity, c.litres)
		}
		for i, axis := range []geometry.Axis{geometry.X, geometry.Y, geometry.Z} {
			lo, hi := tank.Shape.Extent(geometry.Across(axis, tank.level().Up).W)
			if off := func(a, b float64) bool { return a != b && math.Abs(a-b) > 1e-9 }; off(lo, c.lo[i]) || off(hi, c.hi[i]) {
				t.Errorf("%s: from %g to %g along axis %d, expected %g to %g", c.name, lo, hi, i, c.lo[i], c.hi[i])
			}
		}
	}
}

// TestShapesAreRefused compares whole errors, without the path of the file.
func TestShapesAreRefused(t *testing.T) {
	square := "[[0,0],[300,0],[300,200],[0,200]]"
	big := "shape = \"box\"\nlength = 600\nwidth = 300\nheight = 250\n"
	dip := "shape = \"dip\"\ntable = [[0, 0], [100, 5]]\n"
	for _, c := range []struct{ body, want string }{
		{"shape = \"mesh\"\nfile = \"none.stl\"\n", `:4: tank.body[0].file: DIR/none.stl: no such file, expected a path beside the file that names it`},
		{"shape = \"mesh\"\nfile = \".\"\n", `:4: tank.body[0].file: DIR is not a file`},
		{"shape = \"mesh\"\n", `:2: tank.body[0].file: missing, expected the path of a drawing ending in .stl, .obj or .3mf`},
		{"shape = \"mesh\"\nfile = \"open.obj\"\n", `:4: tank.body[0].file: the surface is open along 4 edges, in 1 hole (4 edges about (0, 0.5, 0.5), 1.414 mm across), expected a closed one: cap ports and fillers, close cracks`},
		{"shape = \"mesh\"\nfile = \"bad.stl\"\n", `:4: tank.body[0].file: bad.stl: 6 bytes, expected an STL: text that begins with "solid", or 84 bytes and 50 for each facet`},
		{"shape = \"mesh\"\nfile = \"cube.obj\"\nunit = \"furlong\"\n", `:5: tank.body[0].unit: "furlong", expected mm, cm, m, in or ft`},
		{"shape = \"mesh\"\nfile = \"cube.obj\"\nwall = 2\n", `:5: tank.body[0].wall: given for a mesh, expected a drawing of the inside: a mesh has no one surface parallel to it`},
		{"shape = \"mesh\"\nfile = \"cube.obj\"\nuse = \"inside\"\n", `:5: tank.body[0].use: "inside", expected "solid" or "cavity"`},
		{"shape = \"mesh\"\nfile = \"cube.obj\"\nuse = \"cavity\"\n", `:4: tank.body[0].file: no closed surface inside another although use = "cavity", expected an outer and an inner surface: cap the ports so that the inside closes`},
		{"shape = \"stations\"\nwall = 2\nstations = [{ at = 0, points = " + square + " }]\n", `:4: tank.body[0].wall: given for stations, expected inside sizes: a ruled surface has no parallel one that is ruled too`},
		{"shape = \"stations\"\nstations = [{ at = 0, points = " + square + " }]\n", `:4: tank.body[0].stations: 1 of them, expected two or more`},
		{"shape = \"stations\"\nstations = [\n{ at = 0, points = " + square + " },\n{ at = 9, points = [[0,0],[300,0],[0,200]] },\n]\n", `:6: tank.body[0].stations[1].points: 3 corners, expected three or more, and as many in every station (the first has 4)`},
		{"shape = \"stations\"\nstations = [{ at = 0, points = [[0,0,5],[300,0],[0,200]] }]\n", `:4: tank.body[0].stations[0].points[0]: a fillet, which the surface ruled between two stations does not know, expected a corner of two numbers: give the arc as some corners`},
		{"shape = \"stations\"\n", `:2: tank.body[0].stations: missing, expected two or more of { at = 0, points = [[0, 0], [600, 0], [600, 300], [0, 300]] }`},
		{"shape = \"outline\"\nlength = 100\n", `:2: tank.body[0].points: missing, expected a list of corners such as [[0, 0], [600, 0], [600, 300, 40], [0, 300]], or offsets = [[v, left, right], …]`},
		{"shape = \"outline\"\nlength = 100\noffsets = [[0, 10, 20], [0, 20, 30]]\n", `:5: tank.body[0].offsets[1]: height 0 mm is not above the row before, 0 mm, expected rising heights`},
		{"shape = \"outline\"\nlength = 100\noffsets = [[0, 10, 20], [50, -20, 10]]\n", `:5: tank.body[0].offsets[1]: the left edge lies to the right of the right one, expected left + right of 0 or more`},
		{"shape = \"outline\"\nlength = 100\noffsets = [[0, 10, 20]]\n", `:5: tank.body[0].offsets: 1 rows, expected two or more of [v, left, right]`},
		{"shape = \"cone\"\nlow_diameter = 0\nhigh_diameter = 0\nlength = 100\n", `:5: tank.body[0].high_diameter: 0 mm at both ends, expected a diameter above 0 at one of them`},
		{"shape = \"sphere\"\ndiameter = 100\nwall = 60\n", `:5: tank.body[0].wall: 60 mm, expected 0 or more and less than half the diameter 100 mm`},
		{dip + "[[tank.body]]\n" + big, `:2: tank.body[0]: a dip table beside other bodies, expected it alone: it has no place among them`},
		{dip + "[mount]\nnose_up = 2\n", `:2: tank.body[0]: a dip table is known on level ground only, but [mount] tilts it (nose up 2°, left up 0°), expected a mount that is level, or a body with a shape`},
		{dip + "turn = [0, 0, 90]\n", `:5: tank.body[0].turn: given for a dip table, expected none: it has no shape to turn`},
		{"shape = \"dip\"\ntable = [[0, 0], [100, 5], [90, 6]]\n", `:4: tank.body[0].table[2]: height 90 mm is not above the row before, 100 mm, expected rising heights`},
		{"shape = \"dip\"\nfile = \"fall.csv\"\n", `:4: tank.body[0].file: fall.csv: table[2]: volume 3 L is less than in the row before, 5 L, expected volumes that rise with the height`},
		{"shape = \"dip\"\nfile = \"one.csv\"\n", `:4: tank.body[0].file: one.csv: line 2: 1 field, expected height and volume with a comma between`},
		{"shape = \"dip\"\nfile = \"decimal.csv\"\n", `:4: tank.body[0].file: decimal.csv: line 2: 3 fields, expected 2 (a decimal comma? write a decimal point; further columns need a heading)`},
		{"shape = \"dip\"\nfile = \"comma.csv\"\n", `:4: tank.body[0].file: comma.csv: line 1: heading "height_furlong": "furlong" is not a unit, expected that of a length such as 620, "24 3/8 in", "2 ft 3 in" or "61 cm"`},
		{big + "name = \"cab side\"\n[[tank.body]]\nname = \"saddle\"\nshape = \"sphere\"\ndiameter = 100\nat = [550, 100, 100]\n", `:8: tank.body[1]: saddle and cab side (body[0]) overlap by about 0.262 L, which would count twice, expected bodies that only touch`},
		{big + "name = \"shell\"\n[[tank.body]]\nname = \"module\"\nshape = \"cylinder\"\nalong = \"z\"\ndiameter = 100\nlength = 200\nat = [200, 100, 70]\ndisplace = true\n", `:8: tank.body[1]: module displaces fuel, but about 0.157 L of it stick out of shell, expected it inside the fuel`},
	} {
		path := folder(t, [2]string{"tank.toml", "format = 1\n[[tank.body]]\n" + c.body}, [2]string{"cube.obj", cubeOBJ}, [2]string{"bad.stl", "bodies"},
			[2]string{"open.obj", strings.Replace(cubeOBJ, "f 4 1 5 8\n", "", 1)},
			[2]string{"fall.csv", "0,0\n5,5\n9,3\n"}, [2]string{"one.csv", "0,0\n5\n"}, [2]string{"decimal.csv", "0,0\n100,5,10\n"}, [2]string{"comma.csv", "height_furlong,volume\n0,0\n"})
		_, err := LoadTank(path, nil)
		if err == nil {
			t.Errorf("%q: taken, expected %s", c.body, c.want)
			continue
		}
		got := strings.ReplaceAll(strings.TrimPrefix(err.Error(), path), filepath.Dir(path), "DIR")
		if got != c.want {
			t.Errorf("%q:\n got %s\nwant %s", c.body, got, c.want)
		}
	}
}

// TestDrawingBesideATankFile: a path is relative to the file that names it.
func TestDrawingBesideATankFile(t *testing.T) {
	tank := "format = 1\n[[tank.body]]\nshape = \"mesh\"\nfile = \"cube.obj\"\nunit = \"m\"\n"
	dir := t.TempDir()
	for name, text := range map[string]string{"a/tank.toml": tank, "a/cube.obj": cubeOBJ, "rig.toml": "format = 1\n[tank]\nfile = \"a/tank.toml\"\n"} {
		if err := os.MkdirAll(filepath.Dir(filepath.Join(dir, name)), 0o700); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(filepath.Join(dir, name), []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	got, err := LoadTank(filepath.Join(dir, "rig.toml"), nil)
	if err != nil || math.Abs(got.Capacity-1000) > 1e-9 {
		t.Errorf("%+v, %v", got, err)
	}
}

func FuzzDipFile(f *testing.F) {
	for _, s := range []string{"0,0\n10,2.5\n", "height in,volume (US gal)\n0,0\n\"8 1/2\",3\n", "level_mm,litres,surface_cm2\n0,0,5\n# x\n\n3,1,5", "\"", "\ufeffmm,L\n1,1\n2,2"} {
		f.Add([]byte(s))
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		rows, err := parseDip(data)
		if err != nil {
			if strings.Contains(err.Error(), "\n") {
				t.Fatalf("%q", err)
			}
			return
		}
		if dip, err := geometry.NewDip(rows); err == nil && !(geometry.Volume(dip) > 0) {
			t.Fatalf("a table that holds %g", geometry.Volume(dip))
		}
	})
}
