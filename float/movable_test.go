package float

import (
	"math"
	"strings"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"
)

// TestInFuel: an upright float of constant section sits as deep as Archimedes says in
// either fuel, and the surface that holds it at an angle lies so much lower in the
// heavier one.
func TestInFuel(t *testing.T) {
	const area, load = 1200., 15. // mm², g
	a := newArm(t, Arm{Pivot: r3.Vec{Z: 200}, Length: 150, Low: -50, High: 10, Buoy: &Buoy{Shape: Upright{Height: 40, Area: area}, Load: load, Density: 745}})
	water, err := InFuel(a, 999.1)
	if err != nil {
		t.Fatal(err)
	}
	up := r3.Vec{Z: 1}
	deeper := load*1e6/745/area - load*1e6/999.1/area
	if got := a.In(up).Level(-20) - water.In(up).Level(-20); math.Abs(got-deeper) > 1e-9 {
		t.Errorf("the surface in fuel lies %.6f mm higher, expected %.6f", got, deeper)
	}
	if a.Buoy.Density != 745 {
		t.Error("the sender itself is changed")
	}
	if _, err := InFuel(a, 200); err == nil || !strings.Contains(err.Error(), "sinks") {
		t.Errorf("in 200 kg/m3: %v, expected it to sink", err)
	}
	bare := newArm(t, Arm{Length: 150, Low: -50, High: 10})
	if same, err := InFuel(bare, 999.1); err != nil || same != Sender(bare) {
		t.Errorf("without a float: %v, %v", same, err)
	}
}
