package tanks

import (
	"floatarc/float"
	"floatarc/tanks/quantity"
)

// A Sender is the sender of a rig. Exactly one of Arm, Rod and Heights is set.
type Sender struct {
	Kind    string
	Arm     *float.Arm
	Rod     *float.Rod
	Heights *float.Heights

	Swing     float.Swing // of an arm
	Derived   []string    // what the file's figures came to, in words
	Tolerance float64     // share of the reading, ±; 0 if not given
	Turns     int         // wire-wound steps; 0 if not given
	LevelOnly string      // why it is known on level ground only
	Poured    bool        // it tells litres, and the tank has no heights
}

// Sender returns the sender as calibration asks for it.
func (s Sender) Sender() float.Sender {
	switch {
	case s.Arm != nil:
		return s.Arm
	case s.Rod != nil:
		return s.Rod
	}
	return s.Heights
}

// Winding returns the steps in which the reading moves; none if the file tells of
// none.
func (s Sender) Winding() float.Winding {
	if s.Rod != nil {
		if c, ok := s.Rod.Track().(*float.Contacts); ok {
			return c.Winding()
		}
		return float.Winding{}
	}
	if s.Turns == 0 {
		return float.Winding{}
	}
	low, high := s.Sender().Stops()
	return float.Winding{Start: low, Width: (high - low) / float64(s.Turns), Steps: s.Turns}
}

// Free returns the travel that the tank leaves free.
func (s Sender) Free() (low, high float64) {
	if s.Arm != nil {
		return s.Swing.Low, s.Swing.High
	}
	return s.Sender().Stops()
}

// Buoy returns the float's own body; nil if the file gives none.
func (s Sender) Buoy() *float.Buoy {
	switch {
	case s.Arm != nil:
		return s.Arm.Buoy
	case s.Rod != nil:
		return s.Rod.Buoy
	}
	return nil
}

// A senderReader reads the keys of one kind of sender, for fuel of a density
// (kg/m³), and fills s.
type senderReader func(t *table, tank Tank, density float64, s *Sender)

// senders that a file can name.
var senders = []struct {
	name string
	read senderReader
}{{"arm", readArm}, {"stem", readStem}, {"probe", readProbe}, {"table", readHeights}, {"poured", readPoured}}

// readSender reads [sender] and puts it into the tank.
func readSender(t *table, tank Tank, density float64) Sender {
	var names []string
	for _, k := range senders {
		names = append(names, k.name)
	}
	if !t.has("kind") && t.has("foot") {
		t.missing("kind", `"stem" or "probe" beside foot and head`)
	}
	s := Sender{Kind: t.choice("kind", names...)}
	if tank.Bare && s.Kind != "poured" {
		t.fail("kind", "%q in a tank known by its capacity alone, expected \"poured\", or [[tank.body]] for its shape", s.Kind)
	}
	if t.doc.err != nil {
		return s
	}
	for _, k := range senders {
		if k.name == s.Kind {
			k.read(t, tank, density, &s)
		}
	}
	t.done()
	return s
}

// readResistance opens [sender.resistance] and reads what every kind has in it.
func readResistance(t *table, s *Sender, expected string) *table {
	r := t.table("resistance")
	if !t.has("resistance") {
		t.missing("resistance", "a table [sender.resistance] with "+expected)
		return r
	}
	if q, ok := r.measure("tolerance", quantity.Share); ok {
		s.Tolerance = q.Value
		if !(q.Value >= 0 && q.Value < 1) {
			r.fail("tolerance", "%g, expected 0 or more and less than 1 (or a percentage)", q.Value)
		}
	}
	return r
}

func ohms(r *table, name string) float64 {
	v := r.need(name, quantity.Resistance)
	r.judgeOhms(name, v)
	return v
}

// judgeOhms refuses ohms that no sender has. In a variation they may come out a little
// below 0, as those of a meter that shows 0 may be.
func (t *table) judgeOhms(name string, ohms float64) {
	if t.doc.like == nil {
		t.atLeast(name, ohms, 0, "ohm")
	}
	if ohms > mostOhms {
		t.fail(name, "%g ohm, expected at most %g", ohms, mostOhms)
	}
}

// readLines returns the track of points (travel, ohm), which name gives.
func readLines(r *table, points [][]float64, name string) *float.Lines {
	pairs := make([][2]float64, len(points))
	for i, p := range points {
		pairs[i] = [2]float64{p[0], p[1]}
		r.judgeOhms(name, p[1])
	}
	track, err := float.NewLines(pairs)
	if err != nil {
		r.fail(name, "%v", err)
	}
	return track
}
