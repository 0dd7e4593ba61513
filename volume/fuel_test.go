package volume

import (
	"math"
	"testing"
)

// TestVolumeCorrection compares with Table 54B of ASTM D1250-80: two factors
// printed in worked examples, and values computed from its equations by another
// program, by product group.
func TestVolumeCorrection(t *testing.T) {
	for _, c := range []struct{ rho, celsius, want, to float64 }{
		{992.0, 36, 0.9857, 5e-5}, {990.3, 34, 0.9870, 5e-5}, // printed
		{720, -20, 1.04406, 5e-6}, {720, 25, 0.987175, 1e-6}, {720, 50, 0.954737, 1e-6},
		{745, 0, 1.01809, 5e-6}, {745, 20, 0.993923, 1e-6}, {745, 40, 0.969413, 1e-6},
		{780, 20, 0.994780, 1e-6}, {780, 50, 0.963147, 1e-6},
		{800, -20, 1.03218, 5e-6}, {800, 30, 0.986009, 1e-6},
		{835, 20, 0.995731, 1e-6}, {835, 50, 0.969904, 1e-6},
		{845, 0, 1.01251, 5e-6}, {845, 40, 0.978943, 1e-6},
	} {
		if got := (Fuel{Density: c.rho}).Correction(c.celsius); math.Abs(got-c.want) > c.to {
			t.Errorf("%g kg/m³ at %g degC: %.7f, expected %g", c.rho, c.celsius, got, c.want)
		}
	}
	// Water: 998.2 at 20, 999.97 at 4 degC (any handbook, from memory).
	water := Fuel{Density: 999.1, Water: true}
	for celsius, want := range map[float64]float64{4: 999.97, 15: 999.1, 20: 998.2, 25: 997.05} {
		if got := water.DensityAt(celsius); math.Abs(got-want) > 0.03 {
			t.Errorf("water at %g degC: %.3f kg/m³, expected %g", celsius, got, want)
		}
	}
}

// TestBrimful: a tank filled at 15 degC to a share is full to the brim at these
// temperatures, by the equations of ASTM D1250-80, Table 54B, in another program.
func TestBrimful(t *testing.T) {
	for _, c := range []struct{ rho, share, want float64 }{
		{745, 0.95, 55.68}, {800, 0.95, 68.12}, {835, 0.95, 72.87}, {745, 0.98, 31.39}, {800, 0.98, 36.41}, {835, 0.98, 38.32},
	} {
		if got := (Fuel{Density: c.rho}).Brimful(c.share, 15); math.Abs(got-c.want) > 0.005 {
			t.Errorf("%g kg/m³ filled to %g: %.3f degC, expected %g", c.rho, c.share, got, c.want)
		}
	}
	if got := (Fuel{Density: 745}).Brimful(0.5, 15); !math.IsInf(got, 1) {
		t.Errorf("half full: %g degC, expected never", got)
	}
}
