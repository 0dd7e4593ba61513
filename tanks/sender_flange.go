package tanks

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"floatarc/float"
	"floatarc/geometry"
	"floatarc/tanks/quantity"
)

// A flange is what was measured from the sender's flange on a bench. Its own
// axes are those of the flange: down at right angles to its face, and along it
// where the arm points.
type flange struct {
	depth, ahead float64 // of the pivot: below the face, and ahead of the middle line
	lean         float64 // by which the flange's upper side leans to where the arm points
	stop         string  // the stop at which reach and drop were measured, "low" or "high"; "" for none
	angle        float64 // of the arm at it, in the tank
}

// tank turns an angle above the flange's face into one above the tank's x-y
// plane.
func (f *flange) tank(degrees float64) float64 { return degrees - f.lean }

// readFlange reads [sender.flange], and puts the pivot and the arm where its
// figures say.
func readFlange(t *table, arm *float.Arm, s *Sender) *flange {
	if t.has("pivot") {
		t.fail("pivot", "given as well as [sender.flange], expected one of the two")
	}
	b := t.table("flange")
	if !b.has("at") {
		b.missing("at", "the middle of the sender's hole in the tank, on the outside of the metal, such as [310, 160, 242]")
	}
	at := point(b, "at", r3.Vec{})
	f := &flange{depth: b.need("depth", quantity.Length), ahead: b.or("ahead", quantity.Length, 0), lean: b.or("lean", quantity.Angle, 0)}
	if math.Abs(f.lean) >= 90 {
		b.fail("lean", "%g°, expected less than a right angle", f.lean)
	}
	raised := b.or("neck", quantity.Length, 0) + b.or("gasket", quantity.Length, 0)
	sin, cos := geometry.Sincos(f.lean)
	plan, up := geometry.Heading(arm.Heading), r3.Vec{Z: 1}
	// The flange's own axes, the upper side leaning to where the arm points.
	out := r3.Add(r3.Scale(cos, up), r3.Scale(sin, plan))
	along := r3.Sub(r3.Scale(cos, plan), r3.Scale(sin, up))
	arm.Pivot = r3.Add(at, r3.Add(r3.Scale(raised-f.depth, out), r3.Scale(f.ahead, along)))

	given := t.has("arm")
	reach, hasReach := b.measure("reach", quantity.Length)
	drop, hasDrop := b.measure("drop", quantity.Length)
	switch {
	case given && (hasReach || hasDrop):
		b.fail("reach", "given as well as arm, expected one of the two: reach and drop give the arm")
	case given:
		arm.Length = t.positive("arm", quantity.Length)
	case !hasReach || !hasDrop:
		b.missing("reach", "reach and drop of the float centre at one stop, or arm = its distance from the pivot")
	default:
		f.stop = b.choice("stop", "low", "high")
		x, z := reach.Value-f.ahead, f.depth-drop.Value
		arm.Length = math.Hypot(x, z)
		if !(arm.Length > 0) {
			b.fail("drop", "the float centre lies in the pivot, expected it apart")
			return f
		}
		f.angle = f.tank(math.Atan2(z, x) * 180 / math.Pi)
	}
	b.done()
	words := fmt.Sprintf("From the flange: the axle lies at (%.1f, %.1f, %.1f) mm", arm.Pivot.X, arm.Pivot.Y, arm.Pivot.Z)
	if f.stop != "" {
		words += fmt.Sprintf(", the float %.1f mm from it, at %.1f° on the %s stop", arm.Length, f.angle, f.stop)
	}
	s.Derived = append(s.Derived, words+".")
	return f
}

// byDrop reads ohms by how far the float centre hangs below the flange's face,
// deepest first or last, and returns them by angle.
func (f *flange) byDrop(r *table, arm float64) [][]float64 {
	var out [][]float64
	for i, p := range r.rows("points_by_drop", 2, quantity.Length, quantity.Resistance) {
		sin := (f.depth - p[0]) / arm
		if math.Abs(sin) > 1 {
			r.fail(fmt.Sprintf("points_by_drop[%d]", i), "%g mm below the flange is %.4g mm from the pivot's depth of %.4g mm, expected no more than the arm, %.4g mm", p[0], math.Abs(p[0]-f.depth), f.depth, arm)
			return nil
		}
		row := []float64{f.tank(math.Asin(sin) * 180 / math.Pi), p[1]}
		if len(out) > 0 && row[0] < out[0][0] {
			out = append([][]float64{row}, out...)
		} else {
			out = append(out, row)
		}
	}
	return out
}
