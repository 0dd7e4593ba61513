package float

import "gonum.org/v1/gonum/spatial/r3"

// A Sender tells the level of the fuel by a resistance.
type Sender interface {
	// Stops returns the ends of the sender's travel, low fuel first.
	Stops() (low, high float64)

	// Level returns the level n·p of the surface that holds the sender at a
	// travel, in mm, n being the unit vector up.
	Level(travel float64, n r3.Vec) float64

	// Rising returns the longest part of the travel from low to high in
	// which the level rises with the travel. Beyond it the sender hangs
	// still: an arm that swings past straight down. It is empty (low > high)
	// if there is none.
	Rising(low, high float64, n r3.Vec) (from, to float64)

	// Track returns the resistance along the travel.
	Track() *Track
}
