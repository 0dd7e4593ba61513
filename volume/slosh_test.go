package volume

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"
	"pgregory.net/rapid"

	"floatarc/geometry"
)

// TestSloshFormulas compares with frequencies of H. N. Abramson (ed.), NASA
// SP-106, 1966 (formulas from memory, values computed by another program), and
// with the printed 6.0578 rad/s of a tank of 0.57 m with 0.15 m in it (Liu and
// Lin, 2008, from memory), which takes g = 9.81 m/s².
func TestSloshFormulas(t *testing.T) {
	for _, c := range []struct{ length, depth, omega float64 }{
		{1000, 500, 5.3156455}, {570, 150, 6.0567943}, {600, 300, 6.8624689}, {400, 100, 7.1070450},
	} {
		if got := 2 * math.Pi / RectangularSlosh(c.length, c.depth); math.Abs(got-c.omega) > 1e-7 {
			t.Errorf("%g mm, %g mm deep: %.8f rad/s, expected %.7f", c.length, c.depth, got, c.omega)
		}
	}
	if got := 2 * math.Pi / RectangularSlosh(570, 150) * math.Sqrt(9.81/geometry.Gravity); math.Abs(got-6.0578) > 5e-5 {
		t.Errorf("the printed tank: %.5f rad/s, expected 6.0578", got)
	}
	for _, c := range []struct{ diameter, depth, omega float64 }{
		{1000, 500, 5.8599418}, {600, 200, 7.1180823}, {500, 1e5, 8.4984340},
	} {
		if got := 2 * math.Pi / CylindricalSlosh(c.diameter, c.depth); math.Abs(got-c.omega) > 1e-7 {
			t.Errorf("diameter %g mm, %g mm deep: %.8f rad/s, expected %.7f", c.diameter, c.depth, got, c.omega)
		}
	}
}

// TestSloshOfTanks: a box sloshes along its longer side, however it is turned in
// plan; an upright cylinder is known as one; a lying one takes the length of its
// surface.
func TestSloshOfTanks(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		length := rapid.Float64Range(300, 900).Draw(r, "length")
		width := length * rapid.Float64Range(0.2, 0.99).Draw(r, "width")
		depth := rapid.Float64Range(5, 190).Draw(r, "depth")
		tank := boxTank(t, length, width, 200)
		tank.Mount.Heading = rapid.Float64Range(-180, 180).Draw(r, "heading")
		got, ok := seen(r, tank, geometry.Attitude{}).Slosh(depth)
		if !ok || got.Round || math.Abs(got.Length/length-1) > 1e-9 || math.Abs(got.Depth/depth-1) > 1e-9 ||
			math.Abs(got.Period/RectangularSlosh(length, depth)-1) > 1e-9 {
			r.Fatalf("%+v of a box of %g by %g mm, %g mm deep", got, length, width, depth)
		}
	})
	s, err := geometry.Cylinder{Diameter: 600, Length: 500}.Solid()
	if err != nil {
		t.Fatal(err)
	}
	upright := &Tank{Solid: s}
	if got, ok := seen(t, upright, geometry.Attitude{}).Slosh(200); !ok || !got.Round || math.Abs(got.Length-600) > 1e-6 || math.Abs(2*math.Pi/got.Period-7.1180823) > 1e-6 {
		t.Errorf("upright cylinder: %+v", got)
	}
	lying := &Tank{Solid: geometry.Place(s, geometry.Across(geometry.X, r3.Vec{Z: 300}))}
	if got, ok := seen(t, lying, geometry.Attitude{}).Slosh(300); !ok || got.Round || math.Abs(got.Length-600) > 1e-6 || math.Abs(got.Depth-math.Pi/4*300) > 1e-6 {
		t.Errorf("lying cylinder: %+v", got) // 600 wide and 500 long at half: it sloshes across
	}
	if _, ok := seen(t, upright, geometry.Attitude{}).Slosh(0); ok {
		t.Error("an empty tank sloshes")
	}
}
