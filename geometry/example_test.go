package geometry_test

import (
	"fmt"

	"gonum.org/v1/gonum/spatial/r3"

	"floatarc/geometry"
)

// A lying drum with dished heads, half a metre across, on a climb of 10 %: the
// litres when the fuel stands 200 mm high at the middle of its bottom.
func Example() {
	dished := geometry.Head{Kind: geometry.Torispherical}
	drum, err := geometry.Cylinder{Diameter: 500, Length: 800, Low: dished, High: dished}.Solid()
	if err != nil {
		fmt.Println(err)
		return
	}
	// Along x, its lowest line at z = 0 and its low tip at x = 0.
	tank := geometry.Place(drum, geometry.Across(geometry.X, r3.Vec{Z: 250}))
	up := geometry.Mount{}.Up(geometry.Attitude{NoseUp: 5.710593})
	low, high := tank.Extent(r3.Vec{X: 1})
	level := r3.Dot(up, r3.Vec{X: (low + high) / 2, Z: 200})
	fmt.Printf("%.2f of %.2f L\n", tank.Cut(up).Volume(level)/1e6, geometry.Volume(tank)/1e6)
	// Output: 65.92 of 177.33 L
}
