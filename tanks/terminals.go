package tanks

import (
	"fmt"
	"math"

	"floatarc/gauge"
	"floatarc/tanks/quantity"
	"floatarc/volume"
)

// readWiring reads [wiring].
func readWiring(t *table) gauge.Wiring {
	var w gauge.Wiring
	length, wired := t.measure("length", quantity.Length)
	t.atLeast("length", length.Value, 0, "mm")
	w.Wire.Length = length.Value / 1000
	w.Wire.Temperature = t.or("temperature", quantity.Temperature, 20)
	if w.Wire.Temperature < -100 || w.Wire.Temperature > 300 {
		t.fail("temperature", "%g degC, expected -100 to 300", w.Wire.Temperature)
	}
	w.Ground = t.or("ground", quantity.Resistance, 0)
	t.atLeast("ground", w.Ground, 0, "ohm")
	if w.Ground > mostOhms {
		t.fail("ground", "%g ohm, expected at most %g", w.Ground, mostOhms)
	}
	if v, ok := t.get("size"); ok {
		w.Wire.Area = wireArea(t, v)
	} else if wired && w.Wire.Length > 0 {
		t.missing("size", `the size of the wire such as "18 AWG" or "1.0 mm2"`)
	}
	t.done()
	return w
}

// mostOhms bounds the resistances of a rig: no fuel sender or joint comes near.
const mostOhms = 1e6

func wireArea(t *table, v any) float64 {
	if _, isText := v.(string); !isText {
		t.fail("size", "%s, expected a size with its unit such as \"18 AWG\" or \"1.0 mm2\"", describe(v))
		return 1
	}
	q, dim := t.doc.measure(t.key("size"), v, quantity.Area, quantity.WireGauge)
	if dim == quantity.WireGauge {
		area, err := gauge.AWG(q.Value)
		if err != nil {
			t.fail("size", "%v", err)
		}
		return area
	}
	if q.Value <= 0 {
		t.fail("size", "%g mm2, expected more than 0", q.Value)
	}
	return q.Value
}

// A Conditioner is the conditioner of a rig, with the settings it allows.
type Conditioner struct {
	gauge.Conditioner
	Step   float64   // smallest change of an input setting, ohm; 0 if not given
	Inputs []float64 // the only inputs that can be chosen, ohm; nil for any
}

// mostPlaces bounds how many pairs a conditioner may store.
const mostPlaces = 1000

func readConditioner(t *table, marks int) Conditioner {
	c := Conditioner{Conditioner: gauge.Conditioner{Law: gauge.Resistance{}}}
	c.Places = t.integer("points", marks, 2, mostPlaces)
	if t.choice("law", "resistance", "divider") == "divider" {
		c.Law = gauge.Divider{PullUp: t.positive("pull_up", quantity.Resistance)}
	} else if t.has("pull_up") {
		t.fail("pull_up", "given without law = \"divider\", expected it with a divider only")
	}
	if t.has("step") {
		c.Step = t.positive("step", quantity.Resistance)
	}
	for i, v := range t.list("inputs", "resistances") {
		key := fmt.Sprintf("%s[%d]", t.key("inputs"), i)
		q, _ := t.doc.measure(key, v, quantity.Resistance)
		if q.Value < 0 {
			t.doc.fail(key, "%g ohm, expected 0 or more", q.Value)
		}
		if i > 0 && q.Value <= c.Inputs[i-1] {
			t.doc.fail(key, "%g ohm follows %g ohm, expected a rising order", q.Value, c.Inputs[i-1])
		}
		c.Inputs = append(c.Inputs, q.Value)
	}
	c.Stored = readPairs(t, "stored")
	t.done()
	return c
}

// readPairs reads pairs (input, position): different inputs, different
// positions within 0…1.
func readPairs(t *table, name string) []gauge.Pair {
	var out []gauge.Pair
	for i, p := range t.rows(name, 2, quantity.Resistance, quantity.Share) {
		key := fmt.Sprintf("%s[%d]", t.key(name), i)
		if p[0] < 0 {
			t.doc.fail(key, "%g ohm, expected 0 or more", p[0])
		}
		if p[1] < 0 || p[1] > 1 {
			t.doc.fail(key, "dial position %g, expected 0 (empty mark) to 1 (full mark)", p[1])
		}
		for j, other := range out {
			if other.Input == p[0] {
				t.doc.fail(key, "the input %g ohm stands in %s[%d] as well, expected every input once", p[0], name, j)
			}
			if other.Position == p[1] {
				t.doc.fail(key, "the position %g stands in %s[%d] as well, expected every position once", p[1], name, j)
			}
		}
		out = append(out, gauge.Pair{Input: p[0], Position: p[1]})
	}
	return out
}

// A Gauge is the gauge of a rig.
type Gauge struct {
	Dial        *gauge.Dial
	Empty, Full gauge.Margin
	Response    *gauge.Lines // wired straight to the gauge; nil if not known
	Ends        []gauge.Pair // first and last pair of the response
}

// readMarks reads the printed marks, before what they stand for is known.
func readMarks(t *table) []gauge.Mark {
	if !t.has("marks") {
		return gauge.FiveMarks()
	}
	var out []gauge.Mark
	for i, m := range t.tables("marks") {
		var mark gauge.Mark
		mark.Label, _ = m.text("label")
		mark.Share = m.need("share", quantity.Share)
		mark.Position = m.or("position", quantity.Share, mark.Share)
		if mark.Label == "" {
			mark.Label = fmt.Sprintf("%g", mark.Share)
		}
		m.done()
		for _, v := range []struct {
			name  string
			value float64
		}{{"share", mark.Share}, {"position", mark.Position}} {
			if v.value < 0 || v.value > 1 {
				m.fail(v.name, "%g, expected 0 (empty) to 1 (full)", v.value)
			}
		}
		for _, other := range out {
			if other.Label == mark.Label {
				m.fail("label", "%q names two marks, expected every label once", mark.Label)
			}
		}
		if i > 0 && (mark.Share <= out[i-1].Share || mark.Position <= out[i-1].Position) {
			m.fail("share", "mark %q (share %g, position %g) follows %q (share %g, position %g), expected both to rise",
				mark.Label, mark.Share, mark.Position, out[i-1].Label, out[i-1].Share, out[i-1].Position)
		}
		out = append(out, mark)
	}
	if len(out) < 2 {
		t.fail("marks", "%d marks, expected 2 or more", len(out))
	}
	return out
}

// readGauge reads [gauge] for a sender on level ground.
func readGauge(t *table, marks []gauge.Mark, tank Tank, level *volume.Relation) Gauge {
	var g Gauge
	g.Empty, g.Full = margin(t, "empty"), margin(t, "full")
	g.Response, g.Ends = readResponse(t)
	t.done()
	if t.doc.err != nil {
		return g
	}
	low, high := level.Live()
	empty, full := gauge.Ends(level.Contents.Unusable, tank.Full, low, high, g.Empty, g.Full)
	dial, err := gauge.NewDial(marks, empty, full)
	if err != nil {
		name := "full"
		if !t.has("full") {
			name = "empty"
		}
		t.fail(name, "%v", err)
	}
	g.Dial = dial
	return g
}

// margin reads how far a mark stands from the end of the usable fuel.
func margin(t *table, name string) gauge.Margin {
	v, ok := t.get(name)
	if !ok {
		return gauge.Margin{}
	}
	if v == "sender" {
		return gauge.Margin{Sender: true}
	}
	q, _ := t.doc.measure(t.key(name), v, quantity.Volume)
	t.atLeast(name, q.Value, 0, "L")
	return gauge.Margin{Litres: q.Value}
}

// readResponse reads the gauge's own response to a resistance.
func readResponse(t *table) (*gauge.Lines, []gauge.Pair) {
	rows := t.rows("response", 2, quantity.Resistance, quantity.Share)
	if rows == nil {
		return nil, nil
	}
	var pairs []gauge.Pair
	for i, p := range rows {
		key := fmt.Sprintf("%s[%d]", t.key("response"), i)
		if p[0] < 0 {
			t.doc.fail(key, "%g ohm, expected 0 or more", p[0])
		}
		if p[1] < 0 || p[1] > 1 {
			t.doc.fail(key, "dial position %g, expected 0 (empty mark) to 1 (full mark)", p[1])
		}
		if i > 0 && (p[0] == rows[i-1][0] || math.Signbit(p[0]-rows[i-1][0]) != math.Signbit(rows[1][0]-rows[0][0])) {
			t.doc.fail(key, "%g ohm follows %g ohm, expected ohms that all rise or all fall", p[0], rows[i-1][0])
		}
		pairs = append(pairs, gauge.Pair{Input: p[0], Position: p[1]})
	}
	if len(pairs) < 2 {
		t.fail("response", "%d points, expected 2 or more", len(pairs))
	}
	if t.doc.err != nil {
		return nil, nil
	}
	lines, err := gauge.NewLines(gauge.Resistance{}, pairs)
	if err != nil {
		t.fail("response", "%v", err)
		return nil, nil
	}
	return lines, []gauge.Pair{pairs[0], pairs[len(pairs)-1]}
}
