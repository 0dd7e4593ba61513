package float

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"floatarc/geometry"
)

// A Buoy is the float at the end of an arm: its own solid, what weighs on it and
// what drags at the axle.
type Buoy struct {
	Shape   Shape
	Load    float64 // what it carries where it floats freely: its own mass and half the arm's, g
	Drag    float64 // torque of friction at the axle, N·mm
	Density float64 // of the fuel, kg/m³
}

// A Shape is the solid of a float about its centre. Surfaces are told by their
// height over the centre, along the unit vector up; axle is the unit vector
// along the axle of the arm.
type Shape interface {
	// Volume returns the volume, mm³.
	Volume() float64

	// Afloat returns, for one attitude, the height of the surface under which so
	// much of the float is immersed, above 0 and below the whole volume.
	Afloat(up, axle r3.Vec) Waterline

	// Immersed returns the volume below a surface that lies across the
	// float's own vertical when it floats at rest, as deep as draft above the
	// lowest point.
	Immersed(draft float64) float64

	// Ball returns the radii of the ball that the float holds and of the one
	// that holds the float.
	Ball() (inner, outer float64)

	// Skin returns points of its surface, relative to the centre: those that
	// touch a wall first, or so many that none is further than a few
	// millimetres from the next.
	Skin(axle r3.Vec, dense bool) []r3.Vec
}

// A Waterline is the height of the surface over a float's centre, mm, by the volume
// that is immersed, mm³, and the area of the float there, mm², the rate of the one to
// the other. It is safe for concurrent use.
type Waterline func(immersed float64) (height, area float64)

// Check refuses a float that cannot float.
func (b *Buoy) Check() error {
	switch most := b.carries(b.Shape.Volume()); {
	case !(b.Load > 0):
		return fmt.Errorf("a load of %g g, expected more than 0", b.Load)
	case b.Load >= most:
		return fmt.Errorf("the float sinks: it and half the arm weigh %.4g g, but wholly under it carries %.4g g, expected less mass or a larger float", b.Load, most)
	}
	return nil
}

// in returns the float in fuel of another density, kg/m³, or how it sinks.
func (b *Buoy) in(density float64) (*Buoy, error) {
	other := *b
	other.Density = density
	return &other, other.Check()
}

// carries returns the load, g, that an immersed volume in mm³ carries.
func (b *Buoy) carries(immersed float64) float64 { return immersed * b.Density * 1e-6 }

// LoadOf returns the load, g, under which a float of a shape sits so deep (mm) in
// fuel of a density (kg/m³).
func LoadOf(s Shape, draft, density float64) float64 {
	b := Buoy{Shape: s, Density: density}
	return b.carries(s.Immersed(draft))
}

// DragOf returns the torque, N·mm, of a weight in g hung at the end of a level arm
// of a length in mm.
func DragOf(weight, length float64) float64 { return weight / 1000 * geometry.Gravity * length }

// immersed returns the volume, mm³, under the surface when friction helps the
// load (with sense +1, on rising fuel), or hinders it (-1); lever is the distance
// of the float centre from the axle across the vertical, mm, at which the torque
// of friction weighs as much as N·mm / (m/s² · mm) kilograms.
func (b *Buoy) immersed(sense Sense, lever float64) float64 {
	load := b.Load
	if sense != Mean && b.Drag > 0 {
		load += float64(sense) * 1000 * b.Drag / (geometry.Gravity * lever)
	}
	return load / (b.Density * 1e-6)
}

// leastLever returns the lever below which friction holds the float under, or
// out of the fuel.
func (b *Buoy) leastLever(sense Sense) float64 {
	spare := 0.0
	switch sense {
	case Rising:
		spare = b.carries(b.Shape.Volume()) - b.Load
	case Falling:
		spare = b.Load
	default:
		return 0
	}
	return 1000 * b.Drag / (geometry.Gravity * spare)
}

// closeness is the share of a float's volume to which waterlines are solved.
const closeness = 1e-12

// A Sphere is a ball float.
type Sphere struct{ Diameter float64 } // mm

// Volume implements [Shape].
func (s Sphere) Volume() float64 { return math.Pi / 6 * s.Diameter * s.Diameter * s.Diameter }

// Afloat implements [Shape].
func (s Sphere) Afloat(up, _ r3.Vec) Waterline {
	ball, err := geometry.Sphere(s.Diameter, 0)
	if err != nil {
		return unknownWaterline
	}
	return afloat(ball, r3.Vec{X: s.Diameter / 2, Y: s.Diameter / 2, Z: s.Diameter / 2}, up)
}

// unknownWaterline is that of a float that is no solid.
func unknownWaterline(float64) (height, area float64) { return math.NaN(), math.NaN() }

// afloat solves for the height over a point of a solid at which so much of it is
// immersed.
func afloat(s geometry.Solid, centre r3.Vec, up r3.Vec) Waterline {
	lo, hi := s.Extent(up)
	cut, tolerance, middle := s.Cut(up), closeness*geometry.Volume(s), r3.Dot(up, centre)
	return func(immersed float64) (height, area float64) {
		h := geometry.LevelOf(cut, immersed, lo, hi, tolerance)
		return h - middle, cut.Surface(h)
	}
}

// Immersed implements [Shape].
func (s Sphere) Immersed(draft float64) float64 {
	h := math.Max(0, math.Min(s.Diameter, draft))
	return math.Pi * h * h * (1.5*s.Diameter - h) / 3
}

// Ball implements [Shape].
func (s Sphere) Ball() (inner, outer float64) { return s.Diameter / 2, s.Diameter / 2 }

// Skin implements [Shape].
func (s Sphere) Skin(_ r3.Vec, dense bool) []r3.Vec {
	n := 600
	if dense {
		n = int(math.Max(600, math.Min(mostSkin, 4*s.Diameter*s.Diameter/(spacing*spacing))))
	}
	var out []r3.Vec
	for i := range n {
		out = append(out, r3.Scale(s.Diameter/2, geometry.Direction(i, n)))
	}
	return out
}

// A Cylinder is a float that lies across the arm, its axis parallel to the axle.
type Cylinder struct{ Diameter, Length float64 } // mm

// Volume implements [Shape].
func (c Cylinder) Volume() float64 { return math.Pi / 4 * c.Diameter * c.Diameter * c.Length }

// Afloat implements [Shape]. The float cannot turn about anything but its own
// axis: where the vehicle leans along the axle, it lies aslant in the fuel.
func (c Cylinder) Afloat(up, axle r3.Vec) Waterline {
	prism, err := geometry.NewPrism(geometry.Circle(c.Diameter/2), c.Length)
	if err != nil {
		return unknownWaterline
	}
	u := geometry.Beside(axle)
	frame := geometry.Frame{Origin: r3.Scale(-c.Length/2, axle), U: u, V: r3.Cross(axle, u), W: axle}
	return afloat(geometry.Place(prism, frame), r3.Vec{}, up)
}

// Immersed implements [Shape]: a circular segment times the length.
func (c Cylinder) Immersed(draft float64) float64 {
	r := c.Diameter / 2
	k := math.Max(-1, math.Min(1, 1-draft/r))
	return c.Length * r * r * (math.Acos(k) - k*math.Sqrt(1-k*k))
}

// Ball implements [Shape].
func (c Cylinder) Ball() (inner, outer float64) {
	return math.Min(c.Diameter, c.Length) / 2, math.Hypot(c.Diameter, c.Length) / 2
}

// Skin implements [Shape].
func (c Cylinder) Skin(axle r3.Vec, dense bool) []r3.Vec {
	u := geometry.Beside(axle)
	return rings(axle, u, r3.Cross(axle, u), c.Diameter/2, c.Length, dense)
}

// spacing is about how far apart the points of a dense skin lie, mm; of a large
// float there are no more than mostSkin.
const (
	spacing  = 2.
	mostSkin = 6000
)

// rings returns points of a cylinder about the origin: its two rims, which touch
// a wall that bulges nowhere first, and some rings between; or, dense, rings all
// along it and over its ends.
func rings(axis, u, v r3.Vec, radius, length float64, dense bool) []r3.Vec {
	around, between, inward := 72, 6, 1
	if dense {
		step := math.Max(spacing, math.Sqrt(2*math.Pi*radius*(radius+length)/mostSkin))
		around = max(72, int(2*math.Pi*radius/step))
		between, inward = max(6, int(length/step)), max(1, int(radius/step))
	}
	var out []r3.Vec
	ring := func(along, radius float64, step int) {
		at := r3.Scale(along, axis)
		for i := 0; i < around; i += step {
			sin, cos := math.Sincos(2 * math.Pi * float64(i) / float64(around))
			out = append(out, r3.Add(at, r3.Add(r3.Scale(radius*cos, u), r3.Scale(radius*sin, v))))
		}
	}
	for k := range between + 1 {
		step := 1
		if k > 0 && k < between && !dense {
			step = 3
		}
		ring(length*(float64(k)/float64(between)-0.5), radius, step)
	}
	for _, end := range [2]float64{-length / 2, length / 2} {
		out = append(out, r3.Scale(end, axis))
		for k := 1; k < inward; k++ {
			ring(end, radius*float64(k)/float64(inward), 1)
		}
	}
	return out
}

// An Upright float hangs so that it stays upright to the surface, with the same
// footprint at every height.
type Upright struct{ Area, Height float64 } // mm², mm

// Volume implements [Shape].
func (c Upright) Volume() float64 { return c.Area * c.Height }

// Afloat implements [Shape].
func (c Upright) Afloat(_, _ r3.Vec) Waterline {
	return func(immersed float64) (height, area float64) { return immersed/c.Area - c.Height/2, c.Area }
}

// Immersed implements [Shape].
func (c Upright) Immersed(draft float64) float64 {
	return c.Area * math.Max(0, math.Min(c.Height, draft))
}

// radius is that of a disc as large as the footprint.
func (c Upright) radius() float64 { return math.Sqrt(c.Area / math.Pi) }

// Ball implements [Shape].
func (c Upright) Ball() (inner, outer float64) {
	return math.Min(c.radius(), c.Height/2), math.Hypot(c.radius(), c.Height/2)
}

// Skin implements [Shape].
func (c Upright) Skin(_ r3.Vec, dense bool) []r3.Vec {
	return rings(r3.Vec{Z: 1}, r3.Vec{X: 1}, r3.Vec{Y: 1}, c.radius(), c.Height, dense)
}
