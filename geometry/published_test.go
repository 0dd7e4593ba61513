package geometry

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"
)

const (
	inch     = 25.4        // mm, exact (international yard and pound, 1959)
	usGallon = 3785411.784 // mm³, exact: 231 cubic inches (NIST Handbook 44, appendix C)
)

func cylinder(t testing.TB, c Cylinder) Solid {
	t.Helper()
	s, err := c.Solid()
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// lying returns a solid with its axis along x.
func lying(s Solid) Solid { return Place(s, Across(X, r3.Vec{})) }

// TestShapedHeadsHorizontal checks eight of the ten worked examples of a horizontal tank
// in D. Jones, "Calculating Tank Volume": D = 108 in, L = 156 in, a = 42 in,
// torispherical f = 1, k = 0.06; US gallons. The figures are quoted from
// memory, each recomputed by two independent slicings. Tolerance: half of the last printed digit.
func TestShapedHeadsHorizontal(t *testing.T) {
	for _, c := range []struct {
		name     string
		head     Head
		h36, h84 float64
	}{
		{"conical", Head{Kind: Cone, Depth: 42 * inch}, 2041.19, 6180.54},
		{"ellipsoidal", Head{Kind: Ellipsoidal, Depth: 42 * inch}, 2380.96, 7103.45},
		{"spherical", Head{Kind: Spherical, Depth: 42 * inch}, 2303.96, 6935.16},
		{"torispherical", Head{Kind: Torispherical}, 2028.63, 5939.90},
	} {
		tank := lying(cylinder(t, Cylinder{Diameter: 108 * inch, Length: 156 * inch, Low: c.head, High: c.head}))
		cut := tank.Cut(up)
		for _, want := range []struct{ h, gallons float64 }{{36, c.h36}, {84, c.h84}} {
			got := cut.Volume((want.h-54)*inch) / usGallon
			if math.Abs(got-want.gallons) > 0.0051 {
				t.Errorf("%s at %g in: %.6f US gal, published %.2f", c.name, want.h, got, want.gallons)
			}
		}
	}
}

// TestGuppyHeads checks the remaining two of the ten: a head that is a cone with
// its apex level with the top of the cylinder, here a right cone sheared.
func TestGuppyHeads(t *testing.T) {
	const radius, depth, length = 54 * inch, 42 * inch, 156 * inch
	shell := &Prism{Outline: Circle(radius), Length: length}
	head := newRevolved(straight(-depth, 0, 0, radius))
	tank := Composite{Bodies: []Body{{Solid: Place(shell, Across(X, r3.Vec{}))}}}
	for _, end := range []struct{ at, outward float64 }{{0, 1}, {length, -1}} {
		f := Across(X, r3.Vec{X: end.at})
		f.W = r3.Vec{X: end.outward, Z: -radius / depth}
		tank.Bodies = append(tank.Bodies, Body{Solid: Place(head, f)})
	}
	for _, want := range []struct{ h, gallons float64 }{{36, 1931.72}, {84, 5954.11}} {
		got := tank.Cut(up).Volume((want.h-54)*inch) / usGallon
		if math.Abs(got-want.gallons) > 0.0051 {
			t.Errorf("guppy at %g in: %.6f US gal, published %.2f", want.h, got, want.gallons)
		}
	}
	inside, outside := r3.Vec{X: -depth / 2, Z: radius * 0.9}, r3.Vec{X: -depth / 2, Z: -radius * 0.1}
	if !tank.Contains(inside) || tank.Contains(outside) {
		t.Error("the sheared cone is not where it should be")
	}
}

// TestShapedHeadsVertical checks the worked examples of the same work for a
// vertical tank: bottom head only, concave ones included.
func TestShapedHeadsVertical(t *testing.T) {
	for _, c := range []struct {
		name     string
		diameter float64
		head     Head
		h, want  float64
	}{
		{"conical", 132, Head{Kind: Cone, Depth: 33 * inch}, 24, 250.67},
		{"conical", 132, Head{Kind: Cone, Depth: 33 * inch}, 60, 2251.18},
		{"ellipsoidal", 132, Head{Kind: Ellipsoidal, Depth: 33 * inch}, 24, 783.36},
		{"ellipsoidal", 132, Head{Kind: Ellipsoidal, Depth: 33 * inch}, 60, 2902.83},
		{"spherical", 132, Head{Kind: Spherical, Depth: 33 * inch}, 24, 583.60},
		{"spherical", 132, Head{Kind: Spherical, Depth: 33 * inch}, 60, 2658.46},
		{"torispherical", 132, Head{Kind: Torispherical}, 24, 904.07},
		{"torispherical", 132, Head{Kind: Torispherical}, 60, 3036.76},
		{"concave conical", 113, Head{Kind: Cone, Depth: -33 * inch}, 15, 251.16},
		{"concave ellipsoidal", 113, Head{Kind: Ellipsoidal, Depth: -33 * inch}, 15, 44.85},
		{"concave spherical", 113, Head{Kind: Spherical, Depth: -33 * inch}, 15, 112.81},
		{"concave torispherical", 113, Head{Kind: Torispherical, Depth: -27.218666 * inch, DishRadius: 0.71 * 113 * inch, KnuckleRadius: 0.081 * 113 * inch}, 15, 103.89},
	} {
		tank := cylinder(t, Cylinder{Diameter: c.diameter * inch, Length: 300 * inch, Low: c.head})
		// The level is measured from the lowest point inside.
		got := tank.Cut(up).Volume(c.h*inch) / usGallon
		if math.Abs(got-c.want) > 0.0051 {
			t.Errorf("%s D=%g at %g in: %.6f US gal, published %.2f", c.name, c.diameter, c.h, got, c.want)
		}
	}
}
