package tanks

import (
	"fmt"
	"maps"
	"math"
	"reflect"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"floatarc/tanks/quantity"
)

func measured(key string, dim *quantity.Dimension, value, sigma float64) Measure {
	return Measure{Key: key, Dimension: dim, Quantity: quantity.Quantity{Value: value, Sigma: sigma}}
}

// TestRewrite holds whole texts against what they become.
func TestRewrite(t *testing.T) {
	for _, c := range []struct {
		name, text, want string
		measures         []Measure
	}{
		{
			"values where they stand, comments and units kept",
			"# mine\n[sender]   # the sender\narm = 210 # taped\npivot = [310, 160, \"7 3/4 in\"]\n\n[wiring]\nlength = \"4 m\"\n\n[gauge]\n",
			"# mine\n[sender]   # the sender\narm = \"214.10 ± 1.2 mm\" # taped\npivot = [310, 160, \"7.7756 ± 0.031 in\"]\n\n[wiring]\nlength = \"4 m\"\n\n[gauge]\n",
			[]Measure{measured("sender.arm", quantity.Length, 214.1, 1.2), measured("sender.pivot[2]", quantity.Length, 197.5, 0.8)},
		},
		{
			"a key that is added at the end of its table",
			"[wiring]\nlength = \"4 m\"   # one way\n\n# the box\n[conditioner]\npoints = 5\n",
			"[wiring]\nlength = \"4 m\"   # one way\nground = \"1.100 ± 0.20 ohm\"   # found by a fill log\n\n# the box\n[conditioner]\npoints = 5\n",
			[]Measure{measured("wiring.ground", quantity.Resistance, 1.1, 0.2)},
		},
		{
			"a table that is added",
			"[[tank.body]]\nlength = 600\n[tank.fill]\nheight = 240",
			"[[tank.body]]\nlength = 600\n[tank.fill]\nheight = 240\n\n[tank]\nscale = \"1.0120 ± 0.010\"   # found by a fill log\n",
			[]Measure{measured("tank.scale", quantity.Share, 1.012, 0.01)},
		},
		{
			"an inline table",
			"[sender]\nresistance = { low = 240, high = 33 }\n",
			"[sender]\nresistance = { low = \"238.70 ± 1.2 ohm\", high = 33 }\n",
			[]Measure{measured("sender.resistance.low", quantity.Resistance, 238.7, 1.2)},
		},
		{
			"a key added to an inline table",
			"wiring = { length = \"4 m\" }\n",
			"wiring = { length = \"4 m\", ground = \"1.100 ± 0.20 ohm\" }\n",
			[]Measure{measured("wiring.ground", quantity.Resistance, 1.1, 0.2)},
		},
		{
			"dotted keys",
			"sender.arm = 210\nsender.resistance.low = 240\n",
			"sender.arm = \"214.10 ± 1.2 mm\"\nsender.resistance.low = 240\n",
			[]Measure{measured("sender.arm", quantity.Length, 214.1, 1.2)},
		},
		{
			"an array over several lines",
			"[sender.resistance]\npoints = [\n  [-48, 240],   # low\n  [8, 33],\n]\n",
			"[sender.resistance]\npoints = [\n  [-48, \"238.70 ± 1.2 ohm\"],   # low\n  [8, 33],\n]\n",
			[]Measure{measured("sender.resistance.points[0][1]", quantity.Resistance, 238.7, 1.2)},
		},
		{
			"inches by their mark, and a text with escapes",
			"[sender]\narm = \"8 1/4\\\"\"\ndrop = '8 1/4\"'\nreach = \"8\\u0020in\"\n",
			"[sender]\narm = \"8.2677 ± 0.039 in\"\ndrop = \"8.2677 ± 0.039 in\"\nreach = \"8.2677 ± 0.039 in\"\n",
			[]Measure{measured("sender.arm", quantity.Length, 210, 1), measured("sender.drop", quantity.Length, 210, 1), measured("sender.reach", quantity.Length, 210, 1)},
		},
		{
			"an inline table over several lines, with a comma at its end",
			"wiring = {\n  length = 4,\n  size = \"18 AWG\", # { one way }\n}\n",
			"wiring = {\n  length = 4,\n  size = \"18 AWG\", ground = \"1.100 ± 0.20 ohm\", # { one way }\n}\n",
			[]Measure{measured("wiring.ground", quantity.Resistance, 1.1, 0.2)},
		},
		{
			"empty inline tables",
			"wiring = {}\ntank = { }\n",
			"wiring = { ground = \"1.100 ± 0.20 ohm\" }\ntank = { scale = \"1.0120 ± 0.010\" }\n",
			[]Measure{measured("wiring.ground", quantity.Resistance, 1.1, 0.2), measured("tank.scale", quantity.Share, 1.012, 0.01)},
		},
		{ // a table that dots make can have no heading as well (TOML 1.0, table)
			"keys added to tables that dots make",
			"wiring.length = 4\n[sender]\nresistance.low = 240 # one\narm = 210\n",
			"wiring.length = 4\nwiring.ground = \"1.100 ± 0.20 ohm\"   # found by a fill log\n[sender]\nresistance.low = 240 # one\nresistance.high = \"33.00 ± 1.0 ohm\"   # found by a fill log\narm = 210\n",
			[]Measure{measured("wiring.ground", quantity.Resistance, 1.1, 0.2), measured("sender.resistance.high", quantity.Resistance, 33, 1)},
		},
		{
			"a key in a table that dots make in braces",
			"sender = { resistance.low = 240, arm = 210 }\n",
			"sender = { resistance.low = 240, resistance.high = \"33.00 ± 1.0 ohm\", arm = 210 }\n",
			[]Measure{measured("sender.resistance.high", quantity.Resistance, 33, 1)},
		},
		{
			"line ends of two bytes, keys set in",
			"[wiring]\r\n  length = 4 # one way\r\n  # ground = 1\r\n",
			"[wiring]\r\n  length = 4 # one way\r\n  ground = \"1.100 ± 0.20 ohm\"   # found by a fill log\r\n  # ground = 1\r\n\r\n[tank]\r\nscale = \"1.0120 ± 0.010\"   # found by a fill log\r\n",
			[]Measure{measured("wiring.ground", quantity.Resistance, 1.1, 0.2), measured("tank.scale", quantity.Share, 1.012, 0.01)},
		},
		{
			"blank lines at the end",
			"[sender]\narm = 210\n\n\n",
			"[sender]\narm = 210\n\n\n[wiring]\nground = \"1.100 ± 0.20 ohm\"   # found by a fill log\n",
			[]Measure{measured("wiring.ground", quantity.Resistance, 1.1, 0.2)},
		},
		{
			"a key of the second of several tables, before the next heading's comment",
			"[[tank.body]]\nlength = 600\n[[tank.body]]\nlength = [\n  5,\n] # list\n\n# filler\n[tank.fill]\n",
			"[[tank.body]]\nlength = 600\n[[tank.body]]\nlength = [\n  5,\n] # list\nwidth = \"214.10 ± 1.2 mm\"   # found by a fill log\n\n# filler\n[tank.fill]\n",
			[]Measure{measured("tank.body[1].width", quantity.Length, 214.1, 1.2)},
		},
	} {
		got, err := rewrite(c.text, c.measures)
		if err != nil || got != c.want {
			t.Errorf("%s: %v\n%s\nexpected\n%s", c.name, err, got, c.want)
		}
	}
}

func TestRewriteRefusals(t *testing.T) {
	for _, c := range []struct{ text, key, says string }{
		{"[sender]\npivot = [1, 2, 3]\n", "sender.pivot", "expected a measure"},
		{"[sender]\npivot = [1, 2]\n", "sender.pivot[2]", "expected a key of a table or an element"},
		{"sender = 5\n", "sender.arm", "not within a table"},
		{"x = [", "sender.arm", "expected"},
		{"[sender.float]\nmass = 1\n", "sender", "sender: a table, expected a measure"},
		{"[sender.float]\nmass = 1\n", "sender.float", "sender.float: a table, expected a measure"},
		{"[sender]\narm = true\n", "sender.arm", "sender.arm: true, expected a measure"},
		{"[[tank.body]]\n", "tank.body[1].length", "tank.body[1].length: there is no element"},
		{"[[tank.body]]\n", "tank.body.length", "tank.body.length: length is not within a table"},
		{"[sender]\n\"\\u0061rm\" = 4\n", "sender.arm", "sender.arm: the new value does not fit"},
	} {
		if got, err := rewrite(c.text, []Measure{measured(c.key, quantity.Length, 1, 0.1)}); err == nil || !strings.Contains(err.Error(), c.says) {
			t.Errorf("%q, %s: %v, expected a word of %q\n%s", c.text, c.key, err, c.says, got)
		}
	}
}

// TestRewriteFigures: what would not read back is not written.
func TestRewriteFigures(t *testing.T) {
	for _, c := range [][2]float64{{math.NaN(), 1}, {math.Inf(1), 1}, {1, math.NaN()}, {1, math.Inf(1)}, {1, -1}, {1e300, 0.1}, {1, 5e-324}} {
		got, err := rewrite("[sender]\narm = 4\n", []Measure{measured("sender.arm", quantity.Length, c[0], c[1])})
		if err == nil || !strings.Contains(err.Error(), "sender.arm: ") {
			t.Errorf("%g ± %g: %v, expected an error\n%s", c[0], c[1], err, got)
		}
	}
}

// TestRewriteTrees puts figures anywhere in the built-in texts at other values: each decodes
// to the same tree but for them, and every line that none stands on is the same.
func TestRewriteTrees(t *testing.T) {
	rigs, tanks := Names()
	rapid.Check(t, func(t *rapid.T) {
		name := rapid.SampledFrom(append(rigs, tanks...)).Draw(t, "file")
		data, err := library.ReadFile("library/" + name + ".toml")
		if err != nil {
			t.Fatal(err)
		}
		text := string(data)
		want, err := treeOf(text)
		if err != nil {
			t.Fatal(err)
		}
		keys := figuresIn("", want)
		changed := map[int]bool{}
		var moved []Measure
		for _, key := range rapid.SliceOfNDistinct(rapid.SampledFrom(keys), 1, min(4, len(keys)), rapid.ID).Draw(t, "keys") {
			moved = append(moved, measured(key, quantity.Length, rapid.Float64Range(-1e4, 1e4).Draw(t, key), rapid.Float64Range(0.01, 100).Draw(t, key+" ±")))
			changed[scan(text).lines[key]] = true
		}
		out, err := rewrite(text, moved)
		if err != nil {
			t.Fatal(err)
		}
		got, err := treeOf(out)
		if err != nil {
			t.Fatal(err)
		}
		for _, m := range moved {
			steps := overrideStep.FindAllString(m.Key, -1)
			words, _ := lookup(got, steps).(string)
			if q, err := quantity.Length.Parse(words); err != nil || math.Abs(q.Value-m.Value) > m.Sigma/20 || math.Abs(q.Sigma-m.Sigma) > m.Sigma/19 {
				t.Fatalf("%s: %q, %v, expected %g ± %g", m.Key, words, err, m.Value, m.Sigma)
			}
			if _, err := assign(want, steps, words); err != nil {
				t.Fatal(err)
			}
		}
		if !reflect.DeepEqual(got, want) {
			t.Fatalf("%v, expected %v", got, want)
		}
		before, after := strings.Split(text, "\n"), strings.Split(out, "\n")
		for i, line := range before {
			_, comment, _ := strings.Cut(line, "#")
			if len(before) != len(after) || !changed[i+1] && line != after[i] || !strings.HasSuffix(after[i], comment) {
				t.Fatalf("line %d of %d is %q, expected %q", i+1, len(after), after[i], line)
			}
		}
	})
}

// figuresIn returns the keys below a path at which numbers stand.
func figuresIn(path string, node any) []string {
	var out []string
	switch n := node.(type) {
	case map[string]any:
		for _, k := range slices.Sorted(maps.Keys(n)) {
			out = append(out, figuresIn(join(path, k), n[k])...)
		}
	case []any:
		for i, e := range n {
			out = append(out, figuresIn(fmt.Sprintf("%s[%d]", path, i), e)...)
		}
	case int64, float64:
		out = append(out, path)
	}
	return out
}

// TestSpans: the span of a value is the value, with nothing around it.
func TestSpans(t *testing.T) {
	text := "a.b = 1 # x\n[s]\nf = { g = 'q # }' , h = [ 2 , 3 ] }  # y\nm = [\n  [1, \"u\"], # z\n  4.5\n]\nl = \"\"\"\n# no\n\"\"\" # w\r\n[[t]]\nv = true\t\n[[t]]\nv = 1979-05-27 07:32:00\n"
	spans := scan(text).spans
	for key, want := range map[string]string{
		"a.b": "1", "s.f": "{ g = 'q # }' , h = [ 2 , 3 ] }", "s.f.g": "'q # }'", "s.f.h": "[ 2 , 3 ]", "s.f.h[0]": "2", "s.f.h[1]": "3",
		"s.m": "[\n  [1, \"u\"], # z\n  4.5\n]", "s.m[0]": "[1, \"u\"]", "s.m[0][1]": "\"u\"", "s.m[1]": "4.5",
		"s.l": "\"\"\"\n# no\n\"\"\"", "t[0].v": "true", "t[1].v": "1979-05-27 07:32:00",
	} {
		at, ok := spans[key]
		if !ok || text[at.from:at.to] != want {
			t.Errorf("%s: %q, expected %q", key, text[at.from:at.to], want)
		}
	}
}

// TestRewriteLibrary puts what is doubted of built-in rigs at other values: the file then
// loads with them, and keeps its comments and the order of its lines.
func TestRewriteLibrary(t *testing.T) {
	rigs, _ := Names()
	rapid.Check(t, func(t *rapid.T) {
		rig, err := Load(rapid.SampledFrom(rigs).Draw(t, "rig"), nil)
		if err != nil {
			t.Fatal(err)
		}
		var moved []Measure
		for _, m := range rig.Doubts() {
			if rapid.Bool().Draw(t, m.Key) {
				m.Value += m.Sigma * rapid.Float64Range(0, 0.5).Draw(t, m.Key+" by")
				moved = append(moved, m)
			}
		}
		text, err := rig.Rewritten(moved, Fitted{})
		if err != nil {
			t.Fatal(err)
		}
		for _, line := range strings.Split(rig.doc.text, "\n") {
			if _, comment, ok := strings.Cut(line, "#"); ok && !strings.Contains(text, comment) {
				t.Fatalf("the comment %q is lost", comment)
			}
		}
		d, err := parse(rig.File, text)
		if err != nil {
			t.Fatal(err)
		}
		before := strings.Count(rig.doc.text, "\n")
		if after := strings.Count(text, "\n"); after < before || after > before+8 {
			t.Fatalf("%d lines, before there were %d", after, before)
		}
		for _, m := range moved {
			steps := overrideStep.FindAllString(m.Key, -1)
			v, _ := lookup(d.tree, steps).(string)
			q, err := m.Dimension.Parse(v)
			if err != nil || q.Value < m.Value-m.Sigma/20 || q.Value > m.Value+m.Sigma/20 {
				t.Fatalf("%s: %v, %v, expected %g ± %g", m.Key, v, err, m.Value, m.Sigma)
			}
		}
	})
}

// FuzzRewrite: no text and no key makes it panic, and what it returns is TOML.
func FuzzRewrite(f *testing.F) {
	f.Add("[wiring]\nground = 1 # x\n", "wiring.ground", 2.0)
	f.Add("a = { b = 1 }\n", "a.c", -1e-9)
	f.Add("[[tank.body]]\nlength = \"1 in\"\n[tank.fill]\n", "tank.scale", 1.0)
	f.Add("x = [[1, 2],\n[3, '''4''']]\n", "x[1][0]", 3e8)
	f.Add("a.b = 1\r\n[c]\r\nd.e = \"1 ft\" # y\r\n", "a.c", 12.5)
	f.Add("a = { b = 1, # }\n c.d = '1\"', }\n", "a.c.e", 0.0)
	f.Fuzz(func(t *testing.T, text, key string, value float64) {
		if !overrideKey.MatchString(key) || len(text) > 4000 {
			return
		}
		out, err := rewrite(text, []Measure{measured(key, quantity.Length, value, 0.1)})
		if err != nil {
			return
		}
		tree, err := treeOf(out)
		if err != nil {
			t.Fatalf("%q becomes %q: %v", text, out, err)
		}
		words, _ := lookup(tree, overrideStep.FindAllString(key, -1)).(string)
		if q, err := quantity.Length.Parse(words); err != nil || math.Abs(q.Value-value) > 0.005+1e-5*math.Abs(value) {
			t.Fatalf("%q becomes %q: %s is %q, expected %g", text, out, key, words, value)
		}
	})
}
