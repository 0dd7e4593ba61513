package tanks

import (
	"fmt"
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r3"

	"floatarc/float"
	"floatarc/tanks/quantity"
)

// readArm reads a float on an arm: pivot, arm and stops, or the flange from which
// they follow.
func readArm(t *table, tank Tank, density float64, s *Sender) {
	arm := float.Arm{Heading: heading(t)}
	var bench *flange
	if t.has("flange") {
		bench = readFlange(t, &arm, s)
	} else {
		if !t.has("pivot") {
			t.missing("pivot", "the point about which the arm swings, such as [310, 160, 195] (or a [sender.flange])")
		}
		arm.Pivot, arm.Length = point(t, "pivot", r3.Vec{}), t.positive("arm", quantity.Length)
	}
	track := readArmTrack(t, &arm, bench, s)
	if t.has("low_height") || t.has("high_height") {
		s.Derived = append(s.Derived, fmt.Sprintf("From the heights of the float centre: stops at %.1f° and %.1f°.", arm.Low, arm.High))
	}
	if t.has("float") {
		f := t.table("float")
		arm.Offset = f.or("offset", quantity.Length, 0)
		arm.Buoy = readBuoy(f, density, arm.Length, armKeys)
	}
	if t.doc.err != nil {
		return
	}
	if bench == nil && !tank.Shape.Encloses(arm.Pivot) { // an axle may sit in the neck under a flange
		t.fail("pivot", "(%.5g, %.5g, %.5g) mm is outside the tank, expected the axle of the arm inside it", arm.Pivot.X, arm.Pivot.Y, arm.Pivot.Z)
		return
	}
	var err error
	if s.Arm, err = float.NewArm(arm, track); err != nil {
		name := "resistance"
		if arm.Buoy != nil && arm.Buoy.Check() != nil {
			name = "float"
		}
		t.fail(name, "%v", err)
		return
	}
	if like := t.doc.like; like != nil && like.Sender.Arm != nil {
		s.Swing, err = s.Arm.SwingLike(like.Sender.Swing, tank.Shape)
	} else {
		s.Swing, err = s.Arm.Swing(tank.Shape)
	}
	if err != nil {
		t.fail("arm", "%v: look at pivot, arm and heading", err)
	}
}

// readArmTrack reads the stops and [sender.resistance].
func readArmTrack(t *table, arm *float.Arm, bench *flange, s *Sender) *float.Lines {
	r := readResistance(t, s, "low and high, or points")
	s.Turns = r.integer("turns", 0, 2, 100000)
	points := r.rows("points", 2, quantity.Angle, quantity.Resistance)
	if n := len(points); n > 1 && points[0][0] > points[n-1][0] {
		slices.Reverse(points) // written from the top down
	}
	name := "points"
	if bench != nil && r.has("points_by_drop") {
		if points != nil {
			r.fail("points_by_drop", "given as well as points, expected one of the two")
		}
		name = "points_by_drop"
		points = bench.byDrop(r, arm.Length)
	} else if r.has("points_by_drop") {
		r.fail("points_by_drop", "given without [sender.flange], expected the flange from which drops are measured")
	}
	if points != nil {
		for _, end := range []string{"low", "high"} {
			if r.has(end) {
				r.fail(end, "given as well as %s, expected one or the other", name)
			}
		}
		// Without stops of its own the arm stops where the table ends.
		first, last := points[0][0], points[len(points)-1][0]
		arm.Low, arm.High = readStop(t, arm, "low", bench, first), readStop(t, arm, "high", bench, last)
		if t.doc.like != nil { // a stop that comes out beyond the table shows what its end does
			arm.Low, arm.High = math.Max(arm.Low, first), math.Min(arm.High, last)
		}
	} else {
		arm.Low, arm.High = readStop(t, arm, "low", bench, math.NaN()), readStop(t, arm, "high", bench, math.NaN())
		points = [][]float64{{arm.Low, ohms(r, "low")}, {arm.High, ohms(r, "high")}}
		name = "high"
	}
	r.done()
	if t.doc.err != nil {
		return nil
	}
	if arm.Low >= arm.High {
		t.fail("stop_low", "%.4g° is not below stop_high = %.4g°, expected the stop on low fuel to be the smaller angle", arm.Low, arm.High)
		return nil
	}
	if arm.High-arm.Low > 360 {
		t.fail("stop_high", "%g° is more than a whole turn above stop_low = %g°, expected the angle at the stop on high fuel", arm.High, arm.Low)
		return nil
	}
	return readLines(r, points, name)
}

// readStop reads the angle of a stop: stop_low, or low_height, the height of the
// float centre in the tank frame; or takes what the flange's figures gave, or
// the end of a table.
func readStop(t *table, arm *float.Arm, end string, bench *flange, table float64) float64 {
	stop, height := "stop_"+end, end+"_height"
	switch {
	case t.has(stop) && t.has(height):
		t.fail(height, "given as well as %s, expected one of the two", stop)
	case t.has(height) && bench != nil && bench.stop == end:
		t.fail(height, "given although reach and drop tell it, expected one of the two")
	case t.has(height):
		z := t.or(height, quantity.Length, 0)
		sin := (z - arm.Pivot.Z) / arm.Length
		if math.Abs(sin) > 1 {
			t.fail(height, "%g mm is %.4g mm from the pivot's height of %.4g mm, expected no more than the arm, %.4g mm", z, math.Abs(z-arm.Pivot.Z), arm.Pivot.Z, arm.Length)
			return 0
		}
		return math.Asin(sin) * 180 / math.Pi
	case t.has(stop):
		if bench != nil && bench.stop == end {
			t.fail(stop, "given although reach and drop tell it, expected one of the two")
		}
		return t.need(stop, quantity.Angle)
	case bench != nil && bench.stop == end:
		return bench.angle
	case math.IsNaN(table):
		t.missing(stop, fmt.Sprintf("the angle at the stop on %s fuel such as %s, or %s = the height of the float centre then", end, quantity.Angle.Hint, height))
		return 0
	}
	return table
}
