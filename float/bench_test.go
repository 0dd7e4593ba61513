package float

import (
	"testing"

	"gonum.org/v1/gonum/spatial/r3"

	"floatarc/geometry"
)

// BenchmarkLevel is the surface that holds an arm with a dragging axle at one angle.
func BenchmarkLevel(b *testing.B) {
	lines, err := NewLines([][2]float64{{-50, 240}, {20, 33}})
	if err != nil {
		b.Fatal(err)
	}
	for _, c := range []struct {
		name  string
		shape Shape
		tilt  geometry.Attitude
	}{
		{"cylinder, level", Cylinder{44, 56}, geometry.Attitude{}},
		{"cylinder, aslant", Cylinder{44, 56}, geometry.Attitude{NoseUp: 7, LeftUp: 5}},
		{"sphere", Sphere{50}, geometry.Attitude{NoseUp: 7, LeftUp: 5}},
	} {
		b.Run(c.name, func(b *testing.B) {
			a, err := NewArm(Arm{Pivot: r3.Vec{Z: 185}, Length: 230, Low: -50, High: 20, Buoy: &Buoy{Shape: c.shape, Load: 28, Drag: 0.8, Density: 835}}, lines)
			if err != nil {
				b.Fatal(err)
			}
			path := a.On(Falling).In(c.tilt.Up())
			sum := 0.0
			for i := 0; b.Loop(); i++ {
				sum += path.Level(float64(i%60) - 45)
			}
			_ = sum
		})
	}
}
