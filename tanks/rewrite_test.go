package tanks

import (
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
	} {
		if got, err := rewrite(c.text, []Measure{measured(c.key, quantity.Length, 1, 0.1)}); err == nil || !strings.Contains(err.Error(), c.says) {
			t.Errorf("%q, %s: %v, expected a word of %q\n%s", c.text, c.key, err, c.says, got)
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
		text, err := rig.Rewritten(moved)
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
			v := lookup(d.tree, steps)
			q, err := m.Dimension.Parse(v.(string))
			if err != nil || q.Value < m.Value-m.Sigma/20 || q.Value > m.Value+m.Sigma/20 {
				t.Fatalf("%s: %v, %v, expected %g ± %g", m.Key, v, err, m.Value, m.Sigma)
			}
		}
	})
}

// lookup returns what stands at the end of steps.
func lookup(node any, steps []string) any {
	for _, s := range steps {
		switch n := node.(type) {
		case map[string]any:
			node = n[s]
		case []any:
			node = n[int(s[1]-'0')]
		}
	}
	return node
}

// FuzzRewrite: no text and no key makes it panic, and what it returns is TOML.
func FuzzRewrite(f *testing.F) {
	f.Add("[wiring]\nground = 1 # x\n", "wiring.ground", 2.0)
	f.Add("a = { b = 1 }\n", "a.c", -1e-9)
	f.Add("[[tank.body]]\nlength = \"1 in\"\n[tank.fill]\n", "tank.scale", 1.0)
	f.Add("x = [[1, 2],\n[3, '''4''']]\n", "x[1][0]", 3e8)
	f.Fuzz(func(t *testing.T, text, key string, value float64) {
		if !overrideKey.MatchString(key) || len(text) > 4000 {
			return
		}
		out, err := rewrite(text, []Measure{measured(key, quantity.Length, value, 0.1)})
		if err != nil {
			return
		}
		if _, err := treeOf(out); err != nil {
			t.Fatalf("%q becomes %q: %v", text, out, err)
		}
	})
}
