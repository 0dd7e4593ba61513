package tanks

import (
	"fmt"

	"floatarc/gauge"
	"floatarc/tanks/quantity"
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
	t.judgeOhms("ground", w.Ground)
	if v, ok := t.get("size"); ok {
		w.Wire.Area = wireArea(t, v)
	} else if wired && w.Wire.Length > 0 {
		t.missing("size", `the size of the wire such as "18 AWG" or "1.0 mm2"`)
	}
	w.Installed = readInstalled(t)
	t.done()
	return w
}

// readInstalled reads the wiring as it was found: the sender's ohms, and what the
// terminals showed.
func readInstalled(t *table) *gauge.Installed {
	var found []gauge.Found
	for i, r := range t.rows("measured", 2, quantity.Resistance, quantity.Resistance) {
		if r[0] < 0 || r[1] < 0 {
			t.doc.fail(fmt.Sprintf("%s[%d]", t.key("measured"), i), "%g and %g ohm, expected 0 or more", r[0], r[1])
		}
		found = append(found, gauge.Found{Sender: r[0], Terminals: r[1]})
	}
	if found == nil || t.doc.err != nil {
		return nil
	}
	installed, err := gauge.Install(found)
	if err != nil {
		t.fail("measured", "%v", err)
	}
	return installed
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
