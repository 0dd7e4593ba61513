package reserve

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"
	"pgregory.net/rapid"

	"floatarc/calibration"
	"floatarc/float"
	"floatarc/gauge"
	"floatarc/geometry"
	"floatarc/volume"
)

// A long tank is a box in which everything in the plane of the nose has a closed
// form: the volume below a line through a rectangle.
type longTank struct {
	length, width, height float64
	pickup                [2]float64 // x, z
	pivot                 [2]float64
	arm, low, high        float64
	aft                   bool // the arm points aft
	ohmsLow, ohmsHigh     float64
}

// below returns the litres below the line through (x, z) that rises forward, seen
// from the tank, by -tan(nose): the area is clipped wall by wall.
func (b longTank) below(x, z, nose float64) float64 {
	tan := math.Tan(nose * math.Pi / 180)
	depth := func(at float64) float64 { return z - (at-x)*tan }
	const steps = 20000 // the integrand is piecewise linear
	sum, previous := 0.0, 0.0
	for i := range steps + 1 {
		d := math.Max(0, math.Min(b.height, depth(b.length*float64(i)/steps)))
		if i > 0 {
			sum += (d + previous) / 2
		}
		previous = d
	}
	return sum * b.length / steps * b.width / 1e6
}

// centre returns where the float is at an angle.
func (b longTank) centre(degrees float64) (x, z float64) {
	sin, cos := math.Sincos(degrees * math.Pi / 180)
	if b.aft {
		cos = -cos
	}
	return b.pivot[0] + b.arm*cos, b.pivot[1] + b.arm*sin
}

// promise builds the same tank of the project's parts.
func (b longTank) promise(t interface{ Fatal(...any) }) *Promise {
	must := func(err error) {
		if err != nil {
			t.Fatal(err)
		}
	}
	solid, err := geometry.Box{Length: b.length, Width: b.width, Height: b.height}.Solid()
	must(err)
	tank := &volume.Tank{
		Solid: geometry.Composite{Bodies: []geometry.Body{{Name: "box", Solid: solid}}},
		Full:  b.length * b.width * b.height / 1e6 * 0.97, Pickup: volume.DrawPoint{X: b.pickup[0], Y: b.width / 2, Z: b.pickup[1]},
	}
	track, err := float.NewLines([][2]float64{{b.low, b.ohmsLow}, {b.high, b.ohmsHigh}})
	must(err)
	heading := 0.0
	if b.aft {
		heading = 180
	}
	arm, err := float.NewArm(float.Arm{Pivot: r3.Vec{X: b.pivot[0], Y: b.width / 2, Z: b.pivot[1]}, Length: b.arm, Heading: heading, Low: b.low, High: b.high}, track)
	must(err)
	contents, err := tank.At(geometry.Attitude{})
	must(err)
	level, ok := volume.Relate(contents, arm, b.low, b.high, tank.Full)
	if !ok {
		t.Fatal("the arm follows the fuel nowhere")
	}
	return &Promise{Rig: &calibration.Rig{
		Tank: tank, Sender: arm, Low: b.low, High: b.high, Level: level,
		Wiring: gauge.Wiring{Ground: 0.7}, Conditioner: gauge.Conditioner{Law: gauge.Resistance{}},
	}}
}

// drawLong draws a long tank; its float swings from near the floor to near the roof.
func drawLong(t *rapid.T) longTank {
	b := longTank{length: rapid.Float64Range(500, 1400).Draw(t, "length"), width: 300, height: rapid.Float64Range(180, 320).Draw(t, "height")}
	b.arm = b.height * rapid.Float64Range(0.75, 1).Draw(t, "arm")
	b.aft = rapid.Bool().Draw(t, "aft")
	room := b.length - 2*b.arm
	b.pivot = [2]float64{b.arm + room*rapid.Float64Range(0, 1).Draw(t, "pivot"), 0.55 * b.height}
	b.low = -math.Asin((b.pivot[1]-8)/b.arm) * 180 / math.Pi
	b.high = math.Asin((b.height-8-b.pivot[1])/b.arm) * 180 / math.Pi
	b.pickup = [2]float64{b.length * rapid.Float64Range(0.02, 0.98).Draw(t, "pickup"), rapid.Float64Range(2, 20).Draw(t, "pickup height")}
	b.ohmsLow, b.ohmsHigh = 240, 33
	if rapid.Bool().Draw(t, "rising ohms") {
		b.ohmsLow, b.ohmsHigh = 10, 180
	}
	return b
}

// TestPromiseByBruteForce holds the guarantee over pairs of slopes on a grid that
// the solver did not use, in a tank whose litres are added up here: wherever the
// lamp lights, the reserve can be drawn on every other slope, and not much more. A
// pickup at one end of a long tank, with the float at the other, is the case that
// tells.
func TestPromiseByBruteForce(t *testing.T) {
	if testing.Short() {
		t.Skip("long")
	}
	worst, kept, refused := 0.0, 0, 0
	rapid.Check(t, func(t *rapid.T) {
		b := drawLong(t)
		p := b.promise(t)
		p.Envelope = Envelope{NoseUp: rapid.Float64Range(1, 12).Draw(t, "nose")}
		p.Reserve = rapid.Float64Range(0.5, 18).Draw(t, "reserve")
		p.Tolerance = rapid.SampledFrom([]float64{0, 0.03, 0.08}).Draw(t, "tolerance")
		if turns := rapid.SampledFrom([]int{0, 60}).Draw(t, "turns"); turns > 0 {
			p.Winding = float.Winding{Start: b.low, Width: (b.high - b.low) / float64(turns), Steps: turns}
		}
		w, err := p.Solve()
		if err != nil {
			refused++
			b.noLamp(t, p)
			return
		}
		kept++
		lights, unusable := b.outcome(p, w.Chosen.On)
		capacity := b.length * b.width * b.height / 1e6
		over := (lights - unusable - p.Reserve) / capacity
		if over < -1e-5 || over > 1e-4 && !w.Chosen.AtStop {
			t.Fatalf("lights with %.6g L at the least, %.6g L are unusable at the most, reserve %.6g L: off by %.2g of the capacity", lights, unusable, p.Reserve, over)
		}
		if !w.Chosen.AtStop {
			worst = math.Max(worst, math.Abs(over))
		}
	})
	t.Logf("%d promises kept, to %.1g of the capacity, and %d refused", kept, worst, refused)
}

// outcome returns the least litres with which the lamp lights, and the most that
// cannot be drawn, over slopes of this test's own.
func (b longTank) outcome(p *Promise, on float64) (lights, unusable float64) {
	// The late end of the sender: the ohms are off by the tolerance towards full,
	// and the travel by a turn.
	ohms := on - 0.7
	if b.ohmsLow > b.ohmsHigh {
		ohms /= 1 - p.Tolerance
	} else {
		ohms /= 1 + p.Tolerance
	}
	angle := b.low + (ohms-b.ohmsLow)/(b.ohmsHigh-b.ohmsLow)*(b.high-b.low) - p.Winding.Width
	x, z := b.centre(angle)
	lights = math.Inf(1)
	const slopes = 173
	for i := range slopes + 1 {
		nose := p.Envelope.NoseUp * (2*float64(i)/slopes - 1)
		lights = math.Min(lights, b.below(x, z, nose))
		unusable = math.Max(unusable, b.below(b.pickup[0], b.pickup[1], nose))
	}
	if angle < b.low {
		lights = 0
	}
	return lights, unusable
}

// noLamp checks a refusal: with the threshold as high as it goes while a full tank
// on level ground still puts the lamp out, the promise is broken: it goes out a fiftieth
// of the inputs later, and full shows one step beyond that, a two-hundredth where the
// conditioner tells none.
func (b longTank) noLamp(t *rapid.T, p *Promise) {
	full := b.high - 1e-6
	if top := 0.97*b.height - b.pivot[1]; top < b.arm*math.Sin(full*math.Pi/180) {
		full = math.Asin(top/b.arm)*180/math.Pi - 1e-6
	}
	on := b.ohmsLow + (full-b.low)/(b.high-b.low)*(b.ohmsHigh-b.ohmsLow) + 0.7 - (b.ohmsHigh-b.ohmsLow)*(1./50+1./200)
	lights, unusable := b.outcome(p, on)
	if lights-unusable-p.Reserve > 1e-4*b.length*b.width*b.height/1e6 {
		t.Fatalf("called impossible, but a lamp at %.4g ohm lights with %.6g L at the least, of which %.6g L are unusable: enough for %.6g L", on, lights, unusable, p.Reserve)
	}
}

// TestUnusableInATiltedCylinder compares with the closed form of a tilted cylinder
// (by another program): R = 0.5 m, L = 2 m, tilted by 10 degrees, 0.25 m deep at the
// low end, dry at the high one; and with its own closed form at the other end.
func TestUnusableInATiltedCylinder(t *testing.T) {
	s, err := geometry.Cylinder{Diameter: 1000, Length: 2000}.Solid()
	if err != nil {
		t.Fatal(err)
	}
	lying := geometry.Place(s, geometry.Across(geometry.X, r3.Vec{Z: 500}))
	low, _ := lying.Extent(r3.Vec{X: 1})
	p := longTank{length: 600, width: 300, height: 250, pivot: [2]float64{300, 150}, arm: 150, low: -60, high: 30, pickup: [2]float64{10, 10}, ohmsLow: 240, ohmsHigh: 33}.promise(t)
	p.Rig.Tank = &volume.Tank{Solid: lying, Full: 1500, Pickup: volume.DrawPoint{X: low, Z: 250}}
	stance, err := p.stand(geometry.Attitude{NoseUp: 10})
	if err != nil {
		t.Fatal(err)
	}
	if got := stance.Unusable; math.Abs(got-89.2661723791) > 1e-6 {
		t.Errorf("nose up 10°: %.10g L, expected 89.2661723791", got)
	}
	p.Envelope = Envelope{NoseUp: 10}
	worst, err := p.MostUnusable()
	if err != nil {
		t.Fatal(err)
	}
	g := func(depth float64) float64 {
		k := math.Max(-1, math.Min(1, 1-depth/0.5))
		return k*math.Acos(k) - (k*k+2)*math.Sqrt(1-k*k)/3
	}
	tan := math.Tan(10 * math.Pi / 180)
	want := 1000 * 0.125 / tan * (g(0.25) - g(0.25+2*tan))
	if worst.Attitude.NoseUp != -10 || math.Abs(worst.Litres-want) > 1e-6*want {
		t.Errorf("worst %+v, expected %.8g L with the nose down by 10°", worst, want)
	}
}
