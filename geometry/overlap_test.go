package geometry

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"
)

func boxAt(t *testing.T, at r3.Vec, x, y, z float64) Solid {
	t.Helper()
	s, err := Box{Length: x, Width: y, Height: z}.Solid()
	if err != nil {
		t.Fatal(err)
	}
	return Place(s, Turned(at, 0, 0, 0))
}

func TestOverlap(t *testing.T) {
	a := boxAt(t, r3.Vec{}, 400, 300, 200)
	for _, c := range []struct {
		b    Solid
		want float64
	}{
		{boxAt(t, r3.Vec{X: 400}, 100, 300, 200), 0}, // they touch
		{boxAt(t, r3.Vec{X: 500}, 100, 300, 200), 0},
		{boxAt(t, r3.Vec{X: 350}, 100, 300, 200), 50 * 300 * 200},
		{boxAt(t, r3.Vec{X: 350, Y: 200, Z: 100}, 100, 300, 200), 50 * 100 * 100},
	} {
		if got := Overlap(a, c.b); math.Abs(got-c.want) > 1e-9*c.want {
			t.Errorf("overlap %g, expected %g", got, c.want)
		}
	}
	ball := Place(newRevolved(ellipseArc(0, 0, 100, 100, math.Pi, math.Pi/2), ellipseArc(0, 0, 100, 100, math.Pi/2, 0)), Turned(r3.Vec{X: 400, Y: 150, Z: 100}, 0, 0, 0))
	half := 2. / 3 * math.Pi * 1e6
	if got := Overlap(a, ball); math.Abs(got-half) > 0.02*half {
		t.Errorf("half a ball overlaps by %g, expected about %g", got, half)
	}
	if got := Outside(ball, []Solid{a}); math.Abs(got-half) > 0.02*half {
		t.Errorf("half a ball sticks out by %g, expected about %g", got, half)
	}
}

func TestApart(t *testing.T) {
	tank := Composite{Bodies: []Body{
		{Name: "a", Solid: boxAt(t, r3.Vec{}, 400, 300, 200)},
		{Name: "b", Solid: boxAt(t, r3.Vec{X: 700}, 100, 300, 200)},
	}}
	if a, b, apart := tank.Apart(); !apart || a != "a" || b != "b" {
		t.Errorf("%q, %q, %t", a, b, apart)
	}
	tank.Bodies = append(tank.Bodies, Body{Name: "between", Solid: boxAt(t, r3.Vec{X: 400}, 300, 300, 200)})
	if _, _, apart := tank.Apart(); apart {
		t.Error("a chain of three is called apart")
	}
}
