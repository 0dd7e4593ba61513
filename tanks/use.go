package tanks

import (
	"fmt"

	"floatarc/tanks/quantity"
	"floatarc/volume"
)

// A Use is what the vehicle needs of its fuel, and on which slopes. Fields are zero
// where the file does not say.
type Use struct {
	volume.Consumption
	Distance  float64 // to be left when the lamp lights, km
	Time      float64 // the same in hours
	Litres    float64 // the same in litres
	Reserved  bool    // one of the three is given
	Grade     float64 // steepest climb and descent, degrees
	SideSlope float64 // degrees
	Along     float64 // sustained acceleration and braking, as a share of that of free fall
	Across    float64 // the same of cornering

	said string // how the file says the reserve
}

// steepestUse is the steepest slope, in degrees, and fastestUse the greatest
// sustained acceleration, as a share of that of free fall, that a file may give.
const (
	steepestUse = 60
	fastestUse  = 1
)

func readUse(t *table) Use {
	var u Use
	readConsumption(t, &u)
	readReserve(t, &u)
	for _, limit := range []struct {
		name string
		dim  *quantity.Dimension
		most float64
		unit string
		into *float64
	}{
		{"grade", quantity.Angle, steepestUse, "°", &u.Grade}, {"side_slope", quantity.Angle, steepestUse, "°", &u.SideSlope},
		{"acceleration", quantity.Acceleration, fastestUse, " g", &u.Along}, {"cornering", quantity.Acceleration, fastestUse, " g", &u.Across},
	} {
		*limit.into = t.or(limit.name, limit.dim, 0)
		if *limit.into < 0 || *limit.into > limit.most {
			t.fail(limit.name, "%.4g%s, expected 0 to %g%[2]s", *limit.into, limit.unit, limit.most)
		}
	}
	t.done()
	return u
}

// readConsumption reads what the engine takes, by distance or by time.
func readConsumption(t *table, u *Use) {
	v, ok := t.get("consumption")
	if !ok {
		return
	}
	if _, text := v.(string); !text {
		t.fail("consumption", "%s, expected a consumption with its unit such as %s or %s", describe(v), quantity.PerDistance.Hint, quantity.PerTime.Hint)
	}
	q, dim := t.doc.measure(t.key("consumption"), v, quantity.PerDistance, quantity.PerTime)
	if q.Value <= 0 {
		t.fail("consumption", "%g %s, expected more than 0", q.Value, dim.Bare)
	}
	if dim == quantity.PerTime {
		u.PerTime = q.Value
	} else {
		u.PerDistance = q.Value
	}
}

// readReserve reads what must be left, as a distance, a time or litres.
func readReserve(t *table, u *Use) {
	v, ok := t.get("reserve")
	if !ok {
		return
	}
	u.Reserved = true
	u.said = describe(v)
	q, dim := t.doc.measure(t.key("reserve"), v, quantity.Volume, quantity.Distance, quantity.Duration)
	if q.Value < 0 {
		t.fail("reserve", "%g %s, expected 0 or more", q.Value, dim.Bare)
	}
	switch dim {
	case quantity.Duration:
		u.Time = q.Value
	case quantity.Volume:
		u.Litres = q.Value
	default:
		u.Distance = q.Value
	}
}

// Reserve returns the litres that must be left when the lamp lights. It refuses a
// distance without a consumption by distance, and a time without one by time.
func (r *Rig) Reserve() (litres float64, err error) {
	u := r.Use
	switch {
	case !u.Reserved:
		return 0, r.Refuse("use.reserve", `not given, expected in [use] what must be left when the lamp lights such as "60 km", "45 min" or "5 L"`)
	case u.Distance > 0 && u.PerDistance == 0:
		return 0, r.Refuse("use.reserve", `%s, but use.consumption tells no litres by distance, expected one such as "14 L/100km", or a reserve in litres`, u.said)
	case u.Time > 0 && u.PerTime == 0:
		return 0, r.Refuse("use.reserve", `%s, but use.consumption tells no litres by time, expected one such as "9 L/h", or a reserve in litres`, u.said)
	}
	return u.Litres + u.ForDistance(u.Distance) + u.ForHours(u.Time), nil
}

// Refuse returns the error that a key is not what a command needs of it.
func (r *Rig) Refuse(key, format string, args ...any) error {
	file, line := r.doc.where(key)
	return &Error{File: file, Line: line, Key: key, Reason: fmt.Sprintf(format, args...)}
}
