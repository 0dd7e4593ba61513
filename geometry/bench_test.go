package geometry

import (
	"testing"

	"gonum.org/v1/gonum/spatial/r3"
)

var sink float64

func dished(b testing.TB) Solid {
	return lying(cylinder(b, Cylinder{Diameter: 508, Length: 914, Low: Head{Kind: Torispherical}, High: Head{Kind: Torispherical}}))
}

// BenchmarkTiltedVolume is one V(h, n), attitude prepared, of a tilted cylinder
// with torispherical heads.
func BenchmarkTiltedVolume(b *testing.B) {
	cut := dished(b).Cut(Mount{}.Up(Attitude{NoseUp: 7, LeftUp: 4}))
	for i := 0; b.Loop(); i++ {
		sink += cut.Volume(float64(i%400) - 200)
	}
}

// BenchmarkDip is 200 levels of the same tank, preparing the attitude included.
func BenchmarkDip(b *testing.B) {
	tank := dished(b)
	n := Mount{}.Up(Attitude{NoseUp: 7, LeftUp: 4})
	for b.Loop() {
		cut := tank.Cut(n)
		lo, hi := tank.Extent(n)
		for i := range 200 {
			sink += cut.Volume(lo + (hi-lo)*float64(i)/199)
		}
	}
}

// BenchmarkTiltedOutline is one V(h, n) of a tunnel section with fillets.
func BenchmarkTiltedOutline(b *testing.B) {
	s, err := Sweep([]Corner{{0, 0, 30}, {300, 0, 30}, {300, 150, 60}, {500, 150, 60}, {500, 0, 30}, {800, 0, 30}, {800, 350, 40}, {0, 350, 40}}, 600, 0)
	if err != nil {
		b.Fatal(err)
	}
	cut := Place(s, Across(X, r3.Vec{})).Cut(Mount{}.Up(Attitude{NoseUp: 7, LeftUp: 4}))
	for i := 0; b.Loop(); i++ {
		sink += cut.Volume(float64(i % 350))
	}
}
