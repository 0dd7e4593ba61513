package tanks

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"floatarc/geometry"
	"floatarc/tanks/quantity"
	"floatarc/volume"
)

// fillUsual is the share of the capacity at which a fill is taken to stop
// where the file does not say: 49 CFR 393.67(c)(12) allows a truck's tank no
// more than 95 percent (wording from memory).
const fillUsual = 0.95

// readFill sets how much is in a full tank, in the attitude in which it is filled,
// mount included.
func readFill(fill *table, tank *Tank) {
	filled := readFillAttitude(fill, tank)
	ways, last := 0, ""
	stop := func(name string) { ways, last = ways+1, name }
	atLevel := func(in func(c *volume.Contents) float64) {
		h := in(filled)
		tank.Full = filled.Litres(h)
		tank.FillAbove = h > filled.Top
		level := tank.level()
		tank.FullLevel = level.Litres(in(level))
	}
	for _, name := range []string{"height", "at"} {
		if tank.Bare && fill.has(name) {
			fill.fail(name, "given for a tank known by its capacity alone, expected volume or fraction")
		}
	}
	if h, ok := fill.measure("height", quantity.Length); ok {
		stop("height")
		tank.FillByHeight = true
		atLevel(func(*volume.Contents) float64 { return h.Value })
		if tank.Fill != (geometry.Attitude{}) {
			tank.FullLevel = math.NaN() // nobody knows where the mouth is
		}
	}
	if fill.has("at") {
		stop("at")
		mouth := point(fill, "at", r3.Vec{})
		atLevel(func(c *volume.Contents) float64 { return r3.Dot(c.Up, mouth) })
	}
	readFillLitres(fill, tank, stop)
	fill.done()
	judgeFill(fill, tank, ways, last)
}

// readFillLitres reads a full tank told as litres, which no attitude changes.
func readFillLitres(fill *table, tank *Tank, stop func(name string)) {
	if f, ok := fill.measure("fraction", quantity.Share); ok {
		stop("fraction")
		tank.Full = f.Value * tank.Capacity
		tank.FullLevel = tank.Full
		if !(f.Value > 0 && f.Value <= 1) {
			fill.fail("fraction", "%g, expected above 0 and at most 1", f.Value)
		}
	}
	if v, ok := fill.measure("volume", quantity.Volume); ok {
		stop("volume")
		tank.Full = v.Value
		tank.FullLevel = tank.Full
		if v.Value > tank.Capacity*(1+1e-9) {
			fill.fail("volume", "%g L, expected at most the capacity, %.4g L", v.Value, tank.Capacity)
		}
	}
}

// judgeFill refuses a fill told in no way, in several, or in one that cannot be.
func judgeFill(fill *table, tank *Tank, ways int, last string) {
	switch {
	case ways == 0:
		fill.missing("height", "one of height, at, fraction or volume")
	case ways > 1:
		fill.fail(last, "given beside another way to say it, expected one of height, at, fraction or volume")
	case !(tank.Full > 0):
		fill.fail(last, "the tank would be full with %.4g L, expected a filler above the tank's bottom", tank.Full)
	case tank.Fill != geometry.Attitude{} && (last == "fraction" || last == "volume"):
		fill.fail(last, "given with the attitude in which the tank is filled, expected height or at: litres do not tell where the mouth is")
	}
}

// readFillAttitude returns the tank as it stands when it is filled.
func readFillAttitude(fill *table, tank *Tank) *volume.Contents {
	for _, a := range []struct {
		name string
		into *float64
	}{{"nose_up", &tank.Fill.NoseUp}, {"left_up", &tank.Fill.LeftUp}} {
		*a.into = fill.or(a.name, quantity.Angle, 0)
		if math.Abs(*a.into) >= steepestUse {
			fill.fail(a.name, "%.4g°, expected less than %d°", *a.into, steepestUse)
			tank.Fill = geometry.Attitude{}
		}
	}
	filled, err := tank.At(tank.Fill)
	if err != nil {
		name := "nose_up"
		if tank.Fill.NoseUp == 0 {
			name = "left_up"
		}
		fill.fail(name, "%v", err)
		return tank.level()
	}
	return filled
}
