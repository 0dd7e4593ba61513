package tanks

import (
	"fmt"
	"math"
	"regexp"
	"slices"
	"strconv"

	"floatarc/gauge"
	"floatarc/tanks/quantity"
)

// A care is what people measure badly, with the standard uncertainty of usual care
// (common practice, no source).
type care struct {
	key   *regexp.Regexp
	sigma func(r *Rig, value float64) float64
}

// whole matches a key, or any of several, and nothing around it.
func whole(pattern string) *regexp.Regexp { return regexp.MustCompile(`^(?:` + pattern + `)$`) }

// ofOhms matches the keys of a sender's ohms.
var ofOhms = whole(`sender\.resistance\.(low|high|points(_by_drop)?\[\d+\]\[1\])`)

// OfOhms tells whether a measure is ohms of the sender itself, at a stop or elsewhere.
func (m Measure) OfOhms() bool { return ofOhms.MatchString(m.Key) }

// OfWiring tells whether a measure is one of the wiring.
func (m Measure) OfWiring() bool { return under(m.Key, "wiring") }

// cares in the order in which they are told.
var cares = []care{
	{whole(`sender\.arm|sender\.flange\.(reach|drop)`), always(3)},           // mm
	{whole(`sender\.pivot\[2\]|sender\.flange\.(depth|at\[2\])`), always(2)}, // mm
	{whole(`sender\.(foot|head)\[2\]`), always(2)},                           // mm
	{whole(`sender\.stop_(low|high)`), always(1)},                            // degrees
	{whole(`sender\.(low|high)_height`), always(3)},                          // mm
	{ofOhms, ends},                         // ohm
	{whole(`wiring\.ground`), always(0.5)}, // ohm
	{whole(`tank\.scale`), always(0.01)},
}

func always(sigma float64) func(*Rig, float64) float64 {
	return func(*Rig, float64) float64 { return sigma }
}

// ends returns the uncertainty of a sender's ohms at a stop: of what its maker allows,
// anywhere within it alike (JCGM 100:2008, 4.3.7), or of an ohmmeter.
func ends(r *Rig, ohms float64) float64 {
	if r.Sender.Tolerance > 0 {
		return math.Hypot(gauge.MeterOhms, r.Sender.Tolerance*ohms) / math.Sqrt(3)
	}
	return math.Hypot(gauge.MeterOhms, gauge.MeterShare*ohms) / math.Sqrt(3)
}

// Stated returns the measures of which the file states an uncertainty, as they stand in
// it; but none of what nothing computed hangs on.
func (r *Rig) Stated() []Measure {
	var out []Measure
	for _, m := range r.doc.measures {
		if m.Sigma > 0 && m.Key != "tank.rated" && !under(m.Key, "gauge.range") {
			out = append(out, m)
		}
	}
	return out
}

// Doubts returns what people measure badly, each with its stated uncertainty or, where
// the file states none, the usual one; and after them what else the file states one of.
// Where it states one of a body's sizes, the tank as a whole is not doubted, too.
func (r *Rig) Doubts() []Measure {
	stated := map[string]Measure{}
	shape := false
	for _, m := range r.Stated() {
		stated[m.Key] = m
		shape = shape || under(m.Key, "tank.body")
	}
	var out []Measure
	every := slices.Concat(r.doc.measures, r.unwritten())
	for _, u := range cares {
		for _, m := range every {
			if !u.key.MatchString(m.Key) || m.Key == "tank.scale" && (shape || r.Sender.Poured) || !r.hangsOn(m.Key) {
				continue
			}
			if s, ok := stated[m.Key]; ok {
				m = s
				delete(stated, m.Key)
			} else {
				m.Sigma, m.Usual = u.sigma(r, m.Value), true
			}
			out = append(out, m)
		}
	}
	for _, m := range r.Stated() {
		if _, left := stated[m.Key]; left {
			out = append(out, m)
		}
	}
	return out
}

// unwritten returns what is doubted though the file does not name it.
func (r *Rig) unwritten() []Measure {
	var out []Measure
	for _, m := range []Measure{
		{Key: "wiring.ground", Dimension: quantity.Resistance},
		{Key: "tank.scale", Dimension: quantity.Share, Quantity: quantity.Quantity{Value: 1}},
	} {
		if _, written := r.Measure(m.Key); !written && !(m.Key == "tank.scale" && r.Tank.Bare) {
			out = append(out, m)
		}
	}
	return out
}

// hangsOn tells whether a usual doubt bears on the readings of the rig: of a table of
// ohms only the ends are doubted, and not joints where the wiring was measured.
func (r *Rig) hangsOn(key string) bool {
	switch {
	case key == "wiring.ground":
		return r.Wiring.Installed == nil
	case under(key, "sender.resistance.points"), under(key, "sender.resistance.points_by_drop"):
		return !r.Sender.Poured && r.outermost(key)
	}
	return true
}

// inTable matches the key of the ohms of a row of a table.
var inTable = regexp.MustCompile(`\[(\d+)\]\[1\]$`)

// outermost tells whether a key is that of the first or the last ohms of a table.
func (r *Rig) outermost(key string) bool {
	at := inTable.FindStringSubmatch(key)
	if at == nil {
		return false
	}
	n, err := strconv.Atoi(at[1])
	_, next := r.Measure(fmt.Sprintf("%s[%d][1]", key[:len(key)-len(at[0])], n+1))
	return err == nil && (n == 0 || !next)
}
