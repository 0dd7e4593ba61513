package tanks

import (
	"fmt"
	"strings"

	"gonum.org/v1/gonum/spatial/r3"

	"floatarc/geometry"
	"floatarc/tanks/quantity"
	"floatarc/volume"
)

// A Tank is the tank of a file.
type Tank struct {
	*volume.Tank
	Name  string
	Shape geometry.Composite
	// Bodies are what the file says of the shape's bodies, in its order.
	Bodies []Body
	// Rated is what the maker or the pump says it holds, litres; 0 if not
	// given.
	Rated float64
	// Scale is by what factor it holds more than its sizes say, as a fill log
	// found.
	Scale float64
	// Capacity in litres.
	Capacity float64

	Bare        bool // known by its capacity alone
	FillAssumed bool // the file has no [tank.fill]
	FillAbove   bool // the filler lies above the tank's highest point

	// Fill is the attitude in which the tank is filled, and FullLevel the litres at
	// which the same mouth would stop the fill on level ground; NaN if the file does
	// not tell where the mouth is.
	Fill         geometry.Attitude
	FillByHeight bool // the file gives the level, and not the mouth
	FullLevel    float64
}

// readTank reads [tank] and what is below it, for a mount.
func readTank(t *table, mount geometry.Mount) Tank {
	tank := readShape(t, mount)
	tank.Name, _ = t.text("name")
	t.has("file") // read and grafted already
	if rated, ok := t.measure("rated", quantity.Volume); ok {
		tank.Rated = rated.Value
		if tank.Rated <= 0 {
			t.fail("rated", "%g L, expected more than 0", tank.Rated)
		}
	}
	fill, pickup := t.table("fill"), t.table("pickup")
	t.done()
	if t.doc.err != nil {
		return tank
	}
	if tank.Capacity = tank.Tank.Capacity(); !(tank.Capacity > 0) {
		t.fail("body", "the bodies hold %.4g L together, expected displacing bodies smaller than those that hold fuel", tank.Capacity+0)
		return tank
	}
	if t.doc.like == nil {
		checkBodies(t, &tank)
	}
	if t.doc.err != nil {
		return tank
	}
	if fill.given() {
		readFill(fill, &tank)
	} else {
		tank.Full, tank.FillAssumed = fillUsual*tank.Capacity, true
		tank.FullLevel = tank.Full
	}
	if pickup.given() {
		readPickup(pickup, &tank)
	}
	return tank
}

// readShape reads what the tank holds its fuel in: bodies, or a capacity alone.
func readShape(t *table, mount geometry.Mount) Tank {
	tank := Tank{Scale: readScale(t)}
	bodies := t.tables("body")
	bare, isBare := t.measure("capacity", quantity.Volume)
	switch {
	case isBare && len(bodies) > 0:
		t.fail("capacity", "given as well as bodies, expected one of the two: bodies tell it")
	case isBare && !(bare.Value > 0 && bare.Value <= mostLitres):
		t.fail("capacity", "%g L, expected more than 0", bare.Value)
	case isBare && t.has("scale"):
		t.fail("scale", "given as well as capacity, expected one of the two: the capacity is what was found")
	case !isBare && len(bodies) == 0:
		t.missing("body", "one or more [[tank.body]] (or file = a tank file; or capacity, for a sender known by litres poured)")
	}
	if t.doc.err != nil {
		return tank
	}
	if isBare {
		tank.Bare, tank.Tank = true, barrel(bare.Value)
		return tank
	}
	var solid geometry.Solid
	if like := t.doc.like; like != nil && !t.doc.varies("tank.body") {
		tank.Bodies, tank.Shape, solid = like.Tank.Bodies, like.Tank.Shape, like.solid
	} else {
		readBodies(bodies, &tank)
		solid = tank.Shape
	}
	measured := checkMeasured(t, tank.Bodies, mount)
	if tank.Scale != 1 {
		solid = geometry.Swelled{Solid: solid, Factor: tank.Scale}
	}
	tank.Tank = &volume.Tank{Solid: solid, Mount: mount, LevelOnly: measured}
	return tank
}

// readBodies reads every [[tank.body]].
func readBodies(bodies []*table, tank *Tank) {
	holds := false
	for i, b := range bodies {
		body := readBody(b, i)
		holds = holds || !body.Displaces
		tank.Bodies = append(tank.Bodies, body)
		tank.Shape.Bodies = append(tank.Shape.Bodies, geometry.Body{Name: body.Name, Solid: body.Solid, Displaces: body.Displaces})
	}
	if !holds {
		bodies[0].doc.fail("tank.body", "every body displaces fuel, expected one that holds it")
	}
}

// mostScale is by what factor a tank may hold more, or less, than its sizes say;
// beyond, a size is wrong.
const mostScale = 1.5

// readScale reads by what factor the tank holds more than its sizes say.
func readScale(t *table) float64 {
	scale := t.or("scale", quantity.Share, 1)
	if !(scale >= 1/mostScale && scale <= mostScale) {
		t.fail("scale", "%g, expected 1 or nearly so: by what factor the tank holds more than its sizes say", scale)
		return 1
	}
	return scale
}

// mostLitres is the greatest capacity that a file may give.
const mostLitres = 1e6

// barrel returns a tank without a shape, whose heights in mm are its litres.
func barrel(litres float64) *volume.Tank {
	dip, _ := geometry.NewDip([]geometry.DipRow{{}, {Height: litres, Volume: litres * 1e6}})
	return &volume.Tank{Solid: dip, LevelOnly: "a tank known by its capacity alone has no shape"}
}

// forgetShape keeps only the litres of a tank: to a sender known by litres, its
// heights say nothing.
func (t *Tank) forgetShape() {
	full, lost := t.Full, t.level().Unusable
	pickup := t.Pickup
	t.Tank = barrel(t.Capacity)
	if t.Full = full; pickup != nil {
		t.Pickup = volume.Measured(lost)
	}
}

// checkMeasured returns why a tank is known on level ground only, if one of its
// bodies is a dip table, which then must be the only one and not tilted.
func checkMeasured(t *table, bodies []Body, mount geometry.Mount) string {
	for i, b := range bodies {
		if !b.Measured {
			continue
		}
		key := fmt.Sprintf("body[%d]", i)
		if len(bodies) > 1 {
			t.fail(key, "a dip table beside other bodies, expected it alone: it has no place among them")
		}
		if b.Displaces {
			t.fail(key+".displace", "given for a dip table, expected a tank that holds fuel")
		}
		if mount.NoseUp != 0 || mount.LeftUp != 0 {
			t.fail(key, "a dip table is known on level ground only, but [mount] tilts it (nose up %g°, left up %g°), expected a mount that is level, or a body with a shape", mount.NoseUp, mount.LeftUp)
		}
		return "a dip table has no shape"
	}
	return ""
}

// Shares of a body's volume above which an overlap, or a part that sticks out,
// is a mistake. A pump module that stands on a curved floor sticks out of it by a
// little at its edge.
const (
	overlapShare  = 0.001
	stickOutShare = 0.01
)

// checkBodies refuses bodies whose volumes would be counted twice, or taken
// away from where there is no fuel.
func checkBodies(t *table, tank *Tank) {
	var holding []geometry.Solid
	for _, b := range tank.Bodies {
		if !b.Displaces {
			holding = append(holding, b.Solid)
		}
	}
	for i, b := range tank.Bodies {
		key := fmt.Sprintf("body[%d]", i)
		for j, other := range tank.Bodies[:i] {
			if b.Displaces != other.Displaces {
				continue
			}
			if v := geometry.Overlap(b.Solid, other.Solid); v > overlapShare*min(geometry.Volume(b.Solid), geometry.Volume(other.Solid)) {
				t.fail(key, "%s and %s (body[%d]) overlap by about %.3g L, which would count twice, expected bodies that only touch", b.Name, other.Name, j, v/1e6)
			}
		}
		if !b.Displaces {
			continue
		}
		if v := geometry.Outside(b.Solid, holding); v > stickOutShare*geometry.Volume(b.Solid) {
			t.fail(key, "%s displaces fuel, but about %.3g L of it stick out of %s, expected it inside the fuel", b.Name, v/1e6, holders(tank.Bodies))
		}
	}
}

// holders names the bodies that hold fuel.
func holders(bodies []Body) string {
	var names []string
	for _, b := range bodies {
		if !b.Displaces {
			names = append(names, b.Name)
		}
	}
	return strings.Join(names, " and ")
}

// level returns the tank on level ground, which is known of every tank.
func (t *Tank) level() *volume.Contents {
	c, _ := t.At(geometry.Attitude{})
	return c
}

// readPickup reads where the fuel is drawn.
func readPickup(pickup *table, tank *Tank) {
	if tank.Bare && pickup.has("at") {
		pickup.fail("at", "given for a tank known by its capacity alone, expected unusable = a volume")
	}
	if pickup.has("at") {
		at := point(pickup, "at", r3.Vec{})
		tank.Pickup = volume.DrawPoint(at)
		if pickup.doc.err == nil && !tank.Shape.Encloses(at) {
			pickup.fail("at", "(%.5g, %.5g, %.5g) mm is outside the tank, expected the draw point inside it", at.X, at.Y, at.Z)
		}
	}
	if v, ok := pickup.measure("unusable", quantity.Volume); ok {
		if tank.Pickup != nil {
			pickup.fail("unusable", "given as well as at, expected one of the two")
		}
		pickup.atLeast("unusable", v.Value, 0, "L")
		tank.Pickup = volume.Measured(v.Value)
	}
	pickup.done()
	if tank.Pickup == nil {
		pickup.missing("at", "the draw point such as [300, 160, 8], or unusable = a volume")
	}
	if pickup.doc.err != nil {
		return
	}
	if lost := tank.level().Unusable; lost >= tank.Full {
		name := "at"
		if pickup.has("unusable") {
			name = "unusable"
		}
		pickup.fail(name, "%.4g L cannot be drawn, but the tank is full with %.4g L, expected a lower pickup", lost, tank.Full)
	}
}
