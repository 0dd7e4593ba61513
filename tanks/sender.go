package tanks

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"floatarc/float"
	"floatarc/geometry"
	"floatarc/tanks/quantity"
)

// A Sender is the sender of a rig.
type Sender struct {
	Arm       *float.Arm
	Swing     float.Swing
	Tolerance float64 // share of the reading, ±; 0 if not given
	Turns     int     // wire-wound steps; 0 if not given
	Float     *Float  // nil if not given
}

// A Float is what a file says of the float's own body.
type Float struct {
	Shape    string // sphere, cylinder or upright
	Diameter float64
	Length   float64 // of a cylinder, mm
	Height   float64 // of an upright float, mm
	Area     float64 // of an upright float, mm²
	Mass     float64 // g
	ArmMass  float64 // g
	Friction float64 // N.mm at the axle
}

var headings = map[string]float64{"forward": 0, "left": 90, "port": 90, "aft": 180, "right": -90, "starboard": -90}

// readSender reads [sender] and puts the arm into the tank.
func readSender(t *table, tank Tank) Sender {
	var s Sender
	if kind, ok := t.text("kind"); ok && kind != "arm" {
		t.fail("kind", "%q, expected \"arm\" (the one kind that is built so far)", kind)
	}
	if !t.has("pivot") {
		t.missing("pivot", "the point about which the arm swings, such as [310, 160, 195]")
	}
	arm := float.Arm{
		Pivot: point(t, "pivot", r3.Vec{}), Length: t.positive("arm", quantity.Length), Heading: heading(t),
	}
	track := readTrack(t, &arm, &s)
	if t.has("float") {
		s.Float = readFloat(t.table("float"))
	}
	t.done()
	if t.doc.err != nil {
		return s
	}
	if !tank.Shape.Encloses(arm.Pivot) {
		t.fail("pivot", "(%.5g, %.5g, %.5g) mm is outside the tank, expected the axle of the arm inside it", arm.Pivot.X, arm.Pivot.Y, arm.Pivot.Z)
		return s
	}
	var err error
	if s.Arm, err = float.NewArm(arm, track); err != nil {
		t.fail("resistance", "%v", err)
		return s
	}
	if s.Swing, err = s.Arm.Swing(tank.Shape); err != nil {
		t.fail("arm", "%v: look at pivot, arm and heading", err)
	}
	return s
}

// heading reads a plan direction in degrees or in words.
func heading(t *table) float64 {
	if word, ok := t.values["heading"].(string); ok {
		if degrees, known := headings[word]; known {
			t.has("heading")
			return degrees
		}
		if _, err := quantity.Angle.Parse(word); err != nil {
			t.fail("heading", "%q, expected forward, left, aft or right, or degrees from forward towards left", word)
		}
	}
	degrees := t.or("heading", quantity.Angle, 0)
	if math.Abs(degrees) > 360 {
		t.fail("heading", "%g°, expected at most a whole turn", degrees)
	}
	return degrees
}

// readTrack reads the stops and [sender.resistance].
func readTrack(t *table, arm *float.Arm, s *Sender) *float.Track {
	r := t.table("resistance")
	if !t.has("resistance") {
		t.missing("resistance", "a table [sender.resistance] with low and high, or points")
		return nil
	}
	s.Turns = r.integer("turns", 0, 2, 100000)
	if q, ok := r.measure("tolerance", quantity.Share); ok {
		s.Tolerance = q.Value
		if !(q.Value >= 0 && q.Value < 1) {
			r.fail("tolerance", "%g, expected 0 or more and less than 1 (or a percentage)", q.Value)
		}
	}
	points := r.rows("points", 2, quantity.Angle, quantity.Resistance)
	if points != nil {
		for _, name := range []string{"low", "high"} {
			if r.has(name) {
				r.fail(name, "given as well as points, expected one or the other")
			}
		}
		// Without stops of its own the arm stops where the table ends.
		first, last := points[0][0], points[len(points)-1][0]
		arm.Low, arm.High = t.or("stop_low", quantity.Angle, first), t.or("stop_high", quantity.Angle, last)
	} else {
		arm.Low, arm.High = t.need("stop_low", quantity.Angle), t.need("stop_high", quantity.Angle)
		points = [][]float64{{arm.Low, ohms(r, "low")}, {arm.High, ohms(r, "high")}}
	}
	r.done()
	if t.doc.err != nil {
		return nil
	}
	if arm.Low >= arm.High {
		t.fail("stop_low", "%g° is not below stop_high = %g°, expected the stop on low fuel to be the smaller angle", arm.Low, arm.High)
		return nil
	}
	if arm.High-arm.Low > 360 {
		t.fail("stop_high", "%g° is more than a whole turn above stop_low = %g°, expected the angle at the stop on high fuel", arm.High, arm.Low)
		return nil
	}
	return newTrack(r, points)
}

func ohms(r *table, name string) float64 {
	v := r.need(name, quantity.Resistance)
	r.atLeast(name, v, 0, "ohm")
	if v > mostOhms {
		r.fail(name, "%g ohm, expected at most %g", v, mostOhms)
	}
	return v
}

func newTrack(r *table, points [][]float64) *float.Track {
	pairs := make([][2]float64, len(points))
	for i, p := range points {
		pairs[i] = [2]float64{p[0], p[1]}
	}
	name := "points"
	if !r.has("points") {
		name = "high"
	}
	track, err := float.NewTrack(pairs)
	if err != nil {
		r.fail(name, "%v", err)
	}
	return track
}

func readFloat(t *table) *Float {
	f := &Float{Shape: t.choice("shape", "cylinder", "sphere", "upright")}
	if !t.has("shape") {
		t.missing("shape", `"sphere", "cylinder" or "upright"`)
	}
	switch f.Shape {
	case "sphere":
		f.Diameter = t.positive("diameter", quantity.Length)
	case "cylinder":
		f.Diameter, f.Length = t.positive("diameter", quantity.Length), t.positive("length", quantity.Length)
	case "upright":
		f.Height = t.positive("height", quantity.Length)
		if t.has("diameter") {
			f.Diameter = t.positive("diameter", quantity.Length)
			f.Area = math.Pi / 4 * f.Diameter * f.Diameter
		} else {
			f.Area = t.positive("area", quantity.Area)
		}
	}
	f.Mass = t.positive("mass", quantity.Mass)
	f.ArmMass = t.or("arm_mass", quantity.Mass, 0)
	t.atLeast("arm_mass", f.ArmMass, 0, "g")
	f.Friction = t.or("friction", quantity.Torque, 0)
	t.atLeast("friction", f.Friction, 0, "N.mm")
	t.done()
	return f
}

// readMount reads [mount].
func readMount(t *table) geometry.Mount {
	var m geometry.Mount
	for _, a := range []struct {
		name string
		into *float64
	}{{"nose_up", &m.NoseUp}, {"left_up", &m.LeftUp}} {
		*a.into = t.or(a.name, quantity.Angle, 0)
		if math.Abs(*a.into) >= 90 {
			t.fail(a.name, "%g°, expected less than a right angle", *a.into)
		}
	}
	m.Heading = heading(t)
	t.done()
	return m
}
