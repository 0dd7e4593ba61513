package mesh_test

import (
	"fmt"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"

	"floatarc/geometry"
	"floatarc/geometry/mesh"
	"floatarc/geometry/mesh/meshtest"
)

var sink float64

var tilt = geometry.Mount{}.Up(geometry.Attitude{NoseUp: 7, LeftUp: 4})

func saddle(tb testing.TB, triangles int) *mesh.Mesh {
	tb.Helper()
	m, err := mesh.New(meshtest.Saddle(triangles), mesh.Unsaid)
	if err != nil {
		tb.Fatal(err)
	}
	return m
}

var finenesses = []int{1e3, 1e4, 1e5, 1e6}

// BenchmarkCurve is the whole fill curve of a tilted saddle and 200 levels read
// from it, by number of triangles.
func BenchmarkCurve(b *testing.B) {
	for _, n := range finenesses {
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			m := saddle(b, n)
			b.ReportAllocs()
			for b.Loop() {
				cut := m.Cut(tilt)
				lo, hi := m.Extent(tilt)
				for i := range 200 {
					sink += cut.Volume(lo + (hi-lo)*float64(i)/199)
				}
			}
			b.ReportMetric(float64(m.Triangles()), "triangles")
			b.ReportMetric(m.Cut(tilt).Error()/geometry.Volume(m), "error/capacity")
		})
	}
}

// BenchmarkLevel is one volume, one level of a volume, and one free surface, of
// a curve that stands.
func BenchmarkLevel(b *testing.B) {
	for _, n := range finenesses {
		m := saddle(b, n)
		cut := m.Cut(tilt)
		lo, hi := m.Extent(tilt)
		whole := geometry.Volume(m)
		b.Run(fmt.Sprintf("%d/volume", n), func(b *testing.B) {
			for i := 0; b.Loop(); i++ {
				sink += cut.Volume(lo + (hi-lo)*float64(i%997)/996)
			}
		})
		b.Run(fmt.Sprintf("%d/level", n), func(b *testing.B) {
			for i := 0; b.Loop(); i++ {
				sink += cut.(geometry.Inverse).Level(whole * float64(i%997) / 996)
			}
		})
		b.Run(fmt.Sprintf("%d/surface", n), func(b *testing.B) {
			cut.FreeSurface(lo)
			for i := 0; b.Loop(); i++ {
				sink += cut.FreeSurface(lo + (hi-lo)*float64(i%997)/996).Area
			}
		})
		b.Run(fmt.Sprintf("%d/contains", n), func(b *testing.B) {
			m.Contains(r3.Vec{})
			for i := 0; b.Loop(); i++ {
				if m.Contains(r3.Vec{X: 300, Y: float64(i%500) + 30, Z: 200}) {
					sink++
				}
			}
		})
	}
}

// BenchmarkNew is the welded triangles to a checked solid.
func BenchmarkNew(b *testing.B) {
	for _, n := range finenesses {
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			f := meshtest.Saddle(n)
			for b.Loop() {
				if _, err := mesh.New(f, mesh.Unsaid); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
