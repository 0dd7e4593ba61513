package mesh_test

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"

	"floatarc/geometry"
	"floatarc/geometry/mesh"
	"floatarc/geometry/mesh/meshtest"
)

// TestMeshesConvergeToSweptBodies cuts the same tank as a swept body and as
// inscribed meshes of rising fineness, at a tilt: volumes, first moments, and
// second moments of the free surface must differ by a quarter each time the
// steps are halved, which checks the two kinds of cuts against each other.
func TestMeshesConvergeToSweptBodies(t *testing.T) {
	arc := func(steps int, from, to float64, at func(sin, cos float64) [2]float64) [][2]float64 {
		var out [][2]float64
		for i := range steps + 1 {
			sin, cos := math.Sincos(from + (to-from)*float64(i)/float64(steps))
			p := at(sin, cos)
			if i == 0 && from == 0 || i == steps && to == math.Pi {
				p[1] = 0
			}
			out = append(out, p)
		}
		return out
	}
	along := geometry.Across(geometry.X, r3.Vec{})
	for _, c := range []struct {
		name    string
		swept   func() (geometry.Solid, error)
		profile func(n int) [][2]float64
	}{
		{"capsule", func() (geometry.Solid, error) {
			head := geometry.Head{Kind: geometry.Hemispherical}
			return geometry.Cylinder{Diameter: 500, Length: 700, Low: head, High: head}.Solid()
		}, func(n int) [][2]float64 {
			low := arc(n/4, 0, math.Pi/2, func(s, c float64) [2]float64 { return [2]float64{250 - 250*c, 250 * s} })
			return append(low, arc(n/4, math.Pi/2, math.Pi, func(s, c float64) [2]float64 { return [2]float64{950 - 250*c, 250 * s} })...)
		}},
		{"frustum", func() (geometry.Solid, error) { return geometry.Frustum(300, 560, 800, 0) },
			func(int) [][2]float64 { return [][2]float64{{0, 150}, {800, 280}} }},
		{"an ellipsoidal head and a cone", func() (geometry.Solid, error) {
			return geometry.Cylinder{Diameter: 400, Length: 600, Low: geometry.Head{Kind: geometry.Ellipsoidal}, High: geometry.Head{Kind: geometry.Cone, Depth: 150}}.Solid()
		}, func(n int) [][2]float64 {
			low := arc(n/4, 0, math.Pi/2, func(s, c float64) [2]float64 { return [2]float64{100 - 100*c, 200 * s} })
			return append(low, [2]float64{700, 200}, [2]float64{850, 0})
		}},
	} {
		swept, err := c.swept()
		if err != nil {
			t.Fatal(err)
		}
		swept = geometry.Place(swept, along)
		up := geometry.Mount{}.Up(geometry.Attitude{NoseUp: 12, LeftUp: -7})
		forward := geometry.Mount{}.Forward(geometry.Attitude{NoseUp: 12, LeftUp: -7})
		lo, hi := swept.Extent(up)
		h := lo + 0.37*(hi-lo)
		exact := swept.Cut(up)
		var before [3]float64
		for _, n := range []int{64, 128, 256} {
			m, err := mesh.New(meshtest.Lathe(c.profile(n), n), mesh.Unsaid)
			if err != nil {
				t.Fatalf("%s: %v", c.name, err)
			}
			cut := m.Cut(up)
			off := [3]float64{
				exact.Volume(h) - cut.Volume(h),
				exact.FreeSurface(h).About(forward, up) - cut.FreeSurface(h).About(forward, up),
				r3.Norm(r3.Sub(exact.Moment(h), cut.Moment(h))),
			}
			for i, what := range []string{"volume", "second moment of the surface", "first moment"} {
				if ratio := before[i] / off[i]; n > 64 && (ratio < 3.7 || ratio > 4.3) {
					t.Errorf("%s, %s: off by %g with %d steps, by %g before, a ratio of %.2f, expected 4", c.name, what, off[i], n, before[i], ratio)
				}
			}
			before = off
		}
	}
}
