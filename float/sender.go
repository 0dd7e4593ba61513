package float

import "gonum.org/v1/gonum/spatial/r3"

// A Sender tells the level of the fuel by a resistance, which follows from its
// travel: the angle of an arm, the way of a float along a stem.
type Sender interface {
	// Stops returns the ends of the sender's travel, low fuel first.
	Stops() (low, high float64)

	// Track returns the resistance along the travel.
	Track() Track

	// In returns the sender in fuel whose surface lies at right angles to the
	// unit vector n.
	In(n r3.Vec) Path
}

// A Path is a sender's travel at one attitude. It is safe for concurrent use.
type Path interface {
	// Level returns the level n·p of the surface that holds the sender at a
	// travel, in mm.
	Level(travel float64) float64

	// Follows returns the longest part of the travel from low to high in
	// which the level rises with the travel. Beyond it the sender hangs
	// still: an arm that swings past straight down, or that friction holds.
	// It is empty (low > high) if there is none.
	Follows(low, high float64) (from, to float64)
}

// A Track is the resistance along a sender's travel.
type Track interface {
	// Ohms returns the resistance at a travel; beyond the ends of the track,
	// that of the end.
	Ohms(travel float64) float64

	// Travel returns the travel that shows a resistance; beyond the track's
	// resistances, that of the nearer end.
	Travel(ohms float64) float64

	// Knots returns the travels strictly between low and high at which the
	// track bends or jumps.
	Knots(low, high float64) []float64
}
