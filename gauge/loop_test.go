package gauge

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/mat"
	"pgregory.net/rapid"
)

// TestLoopAgainstKirchhoff solves the nodes of the same circuit as a linear system (gonum):
// the gauge's sender terminal, the sender's terminal, the sender's body.
func TestLoopAgainstKirchhoff(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		draw := func(name string, low, high float64) float64 { return rapid.Float64Range(low, high).Draw(t, name) }
		l := Loop{Battery: draw("battery", 9, 30), Coil: draw("coil", 20, 300), Wire: draw("wire", 0.01, 50), Sender: draw("sender", 1, 400), Return: draw("return", 0.01, 60)}
		if rapid.Bool().Draw(t, "two gauges") {
			l.Second = draw("second", 20, 300)
		}
		if rapid.Bool().Draw(t, "a pump") {
			l.Shared = draw("pump", 0, 8)
		}
		y := mat.NewDense(3, 3, nil)
		rhs := mat.NewVecDense(3, nil)
		join := func(a, b int, ohms float64) {
			g := 1 / ohms
			y.Set(a, a, y.At(a, a)+g)
			y.Set(b, b, y.At(b, b)+g)
			y.Set(a, b, y.At(a, b)-g)
			y.Set(b, a, y.At(b, a)-g)
		}
		fed := func(a int, volts, ohms float64) {
			y.Set(a, a, y.At(a, a)+1/ohms)
			rhs.SetVec(a, rhs.AtVec(a)+volts/ohms)
		}
		fed(0, l.Battery, l.Coil)
		join(0, 1, l.Wire)
		join(1, 2, l.Sender)
		fed(2, 0, l.Return)
		if l.Second > 0 {
			fed(1, l.Battery, l.Second)
		}
		rhs.SetVec(2, rhs.AtVec(2)+l.Shared)
		var v mat.VecDense
		if err := v.SolveVec(y, rhs); err != nil {
			t.Skip("nearly singular")
		}
		current := (l.Battery - v.AtVec(0)) / l.Coil
		if want, got := v.AtVec(0)/current, l.Seen(); math.Abs(got-want) > 1e-7*math.Abs(want)+1e-7 {
			t.Fatalf("%+v: %.10g ohm, Kirchhoff says %.10g", l, got, want)
		}
		if want, got := v.AtVec(2), l.ReturnVolts(); math.Abs(got-want) > 1e-8*math.Abs(want)+1e-9 {
			t.Fatalf("%+v: %.10g V, Kirchhoff says %.10g", l, got, want)
		}
	})
}

// TestLoopSimple: alone a gauge sees its sender, wire and return; two alike see twice the sender.
func TestLoopSimple(t *testing.T) {
	if got := (Loop{Battery: 12, Coil: 100, Wire: 1, Sender: 90, Return: 0.5}).Seen(); math.Abs(got-91.5) > 1e-12 {
		t.Errorf("%g ohm, expected 91.5", got)
	}
	if got := (Loop{Battery: 12, Coil: 100, Sender: 90, Second: 100}).Seen(); math.Abs(got-180) > 1e-12 {
		t.Errorf("two gauges: %g ohm, expected 180", got)
	}
	if got := (Loop{Battery: 12, Coil: 100, Sender: math.Inf(1)}).Seen(); !math.IsInf(got, 1) {
		t.Errorf("open: %g ohm", got)
	}
}
