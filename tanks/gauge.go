package tanks

import (
	"fmt"
	"math"

	"floatarc/gauge"
	"floatarc/tanks/quantity"
	"floatarc/volume"
)

// A Gauge is the gauge of a rig.
type Gauge struct {
	Dial        *gauge.Dial
	Empty, Full gauge.Margin
	Response    *gauge.Lines // wired straight to the gauge; nil if not known
	Ends        []gauge.Pair // first and last pair of the response
	Needle      *gauge.Needle
	Settable    []float64 // positions on which an eye can set the needle, rising
	Fineness    gauge.Fineness
	Settle      float64       // s, that the needle needs; 0 if not given
	Sweep       float64       // degrees from the empty to the full mark; 0 if not given
	Ranges      []gauge.Range // of other gauges that might be wired to the sender
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
	g.Needle = readNeedle(t)
	g.Fineness = gauge.Fineness(t.choice("settable", string(gauge.Percents), string(gauge.Halves), string(gauge.OnMarks)))
	if t.has("settle") {
		g.Settle = t.positive("settle", quantity.Wait)
	}
	if t.has("sweep") {
		if g.Sweep = t.positive("sweep", quantity.Angle); g.Sweep < 10 || g.Sweep > 360 {
			t.fail("sweep", "%g°, expected 10 to 360", g.Sweep)
		}
	}
	g.Ranges = readRanges(t)
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
		return g
	}
	g.Dial = dial
	if g.Settable, err = dial.Settable(g.Fineness); err != nil {
		t.fail("settable", "%v", err)
	}
	return g
}

// readNeedle reads where the needle stands by what drives it, in any unit.
func readNeedle(t *table) *gauge.Needle {
	rows := t.rows("needle", 2, quantity.Share, quantity.Share)
	if rows == nil {
		return nil
	}
	var pairs [][2]float64
	for i, p := range rows {
		if p[1] < 0 || p[1] > 1 {
			t.doc.fail(fmt.Sprintf("%s[%d]", t.key("needle"), i), "dial position %g, expected 0 (empty mark) to 1 (full mark)", p[1])
		}
		pairs = append(pairs, [2]float64{p[0], p[1]})
	}
	needle, err := gauge.NewNeedle(pairs)
	if err != nil {
		t.fail("needle", "%v", err)
	}
	return needle
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
