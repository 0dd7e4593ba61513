package geometry

import "testing"

// TestHalfBallsAgree takes one surface by two names: an ellipsoidal head as deep
// as its radius is hemispherical, outward and inward, with a wall and without.
func TestHalfBallsAgree(t *testing.T) {
	for _, depth := range []float64{200, -200} {
		for _, wall := range []float64{0, 3, 10} {
			volume := func(kind HeadKind) float64 {
				return Volume(cylinder(t, Cylinder{Diameter: 400, Length: 500, Low: Head{Kind: kind, Depth: depth}, Wall: wall}))
			}
			ellipsoidal, hemispherical, spherical := volume(Ellipsoidal), volume(Hemispherical), volume(Spherical)
			near(t, "ellipsoidal", ellipsoidal, hemispherical, 1e-9*hemispherical)
			near(t, "spherical", spherical, hemispherical, 1e-9*hemispherical)
		}
	}
}

// TestWallOffAHead holds a walled flat and a walled hemispherical cylinder
// against plain arithmetic.
func TestWallOffAHead(t *testing.T) {
	const pi = 3.14159265358979323846
	flat := cylinder(t, Cylinder{Diameter: 400, Length: 500, Wall: 5})
	near(t, "flat", Volume(flat), pi*195*195*490, 1e-3)
	ball := Head{Kind: Hemispherical}
	capsule := cylinder(t, Cylinder{Diameter: 400, Overall: 900, Low: ball, High: ball, Wall: 5})
	near(t, "capsule", Volume(capsule), pi*195*195*500+4./3*pi*195*195*195, 1e-3)
}
