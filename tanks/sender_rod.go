package tanks

import (
	"gonum.org/v1/gonum/spatial/r3"

	"floatarc/float"
	"floatarc/tanks/quantity"
)

// readStem reads a float that slides on a stem, past contacts or along a
// resistance.
func readStem(t *table, tank Tank, density float64, s *Sender) {
	rod := readEnds(t, tank)
	rod.Stem = true
	pitch := 0.0
	if t.has("pitch") {
		pitch = t.positive("pitch", quantity.Length)
	}
	if t.has("float") {
		rod.Buoy = readBuoy(t.table("float"), density, 0, !armKeys)
	}
	readRod(t, rod, pitch, s)
}

// readProbe reads a tube along which the wetted length tells.
func readProbe(t *table, tank Tank, _ float64, s *Sender) {
	if t.has("float") {
		t.fail("float", "given for a probe, which has none, expected kind = \"stem\" for a float on a rod")
	}
	readRod(t, readEnds(t, tank), 0, s)
}

// readEnds reads foot and head.
func readEnds(t *table, tank Tank) float.Rod {
	var ends [2]r3.Vec
	for i, name := range []string{"foot", "head"} {
		if !t.has(name) {
			t.missing(name, "a point of the tank frame such as [300, 160, 12]")
		}
		ends[i] = point(t, name, r3.Vec{})
		if t.doc.err == nil && !tank.Shape.Encloses(ends[i]) {
			t.fail(name, "(%.5g, %.5g, %.5g) mm is outside the tank, expected it inside", ends[i].X, ends[i].Y, ends[i].Z)
		}
	}
	return float.Rod{Foot: ends[0], Head: ends[1]}
}

// readRod reads the resistance of a rod.
func readRod(t *table, rod float.Rod, pitch float64, s *Sender) {
	r := readResistance(t, s, "low (at the foot) and high (at the head)")
	low, high := ohms(r, "low"), ohms(r, "high")
	r.done()
	if t.doc.err != nil {
		return
	}
	var err error
	s.Rod, err = float.NewRod(rod, func(length float64) (float.Track, error) {
		if like := t.doc.like; pitch > 0 && like != nil {
			return like.Sender.Rod.Track().(*float.Contacts).Like(pitch, low, high), nil
		}
		if pitch > 0 {
			return float.NewContacts(length, pitch, low, high)
		}
		return float.NewLines([][2]float64{{0, low}, {length, high}})
	})
	switch {
	case err == nil:
	case rod.Buoy != nil && rod.Buoy.Check() != nil:
		t.fail("float", "%v", err)
	case pitch > 0:
		t.fail("pitch", "%v", err)
	default:
		t.fail("head", "%v", err)
	}
}

// readHeights reads ohms by the height of the surface.
func readHeights(t *table, _ Tank, _ float64, s *Sender) {
	s.LevelOnly = "a sender known by the height of the surface says nothing of a slope"
	s.Heights = readTable(t, s, quantity.Length, "points = [[height, ohm], …]")
}

// readPoured reads ohms by litres, as poured from cans.
func readPoured(t *table, tank Tank, _ float64, s *Sender) {
	s.LevelOnly, s.Poured = "a sender known by litres poured says nothing of a slope", true
	s.Heights = readTable(t, s, quantity.Volume, "points = [[litres, ohm], …]")
	if s.Heights == nil {
		return
	}
	if low, high := s.Heights.Stops(); low < 0 || high > tank.Capacity*(1+1e-9) {
		t.table("resistance").fail("points", "from %g to %g L, expected litres from 0 to the capacity, %.4g L", low, high, tank.Capacity)
	}
}

func readTable(t *table, s *Sender, dim *quantity.Dimension, expected string) *float.Heights {
	r := readResistance(t, s, expected)
	if !r.has("points") {
		r.missing("points", expected)
	}
	points := r.rows("points", 2, dim, quantity.Resistance)
	r.done()
	if t.doc.err != nil {
		return nil
	}
	lines := readLines(r, points, "points")
	if lines == nil || t.doc.err != nil {
		return nil
	}
	return float.NewHeights(lines)
}
