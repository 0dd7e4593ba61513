package volume

import "math"

// A Consumption is what an engine takes of the fuel, by distance or by time; 0 for
// the one that is not known.
type Consumption struct {
	PerDistance float64 // L/100km
	PerTime     float64 // L/h
}

// Range returns how far so many litres go, km; NaN if that is not known.
func (c Consumption) Range(litres float64) float64 {
	if c.PerDistance <= 0 {
		return math.NaN()
	}
	return 100 * litres / c.PerDistance
}

// Hours returns how long so many litres last; NaN if that is not known.
func (c Consumption) Hours(litres float64) float64 {
	if c.PerTime <= 0 {
		return math.NaN()
	}
	return litres / c.PerTime
}

// ForDistance returns the litres that a distance in km takes.
func (c Consumption) ForDistance(km float64) float64 { return km * c.PerDistance / 100 }

// ForHours returns the litres that a time in hours takes.
func (c Consumption) ForHours(hours float64) float64 { return hours * c.PerTime }
