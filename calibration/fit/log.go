package fit

import (
	"fmt"
	"math"

	"floatarc/float"
	"floatarc/geometry"
)

// A Log is what was poured and read.
type Log struct {
	Rows []Row
	// Start is what was in the tank before the first row, litres, and StartSigma its
	// standard uncertainty; 0 for an amount that is known.
	Start, StartSigma float64
	// Found says that the start was taken from the first reading, which then tells nothing else.
	Found bool
	// Can is the standard uncertainty of the size of the can, as a share, which all
	// pours have in common; 0 for a can that is exact.
	Can float64
}

// A Row is a line of a log.
type Row struct {
	Poured      float64 // litres that went in since the row before, at the density of this one; below 0 what was drained
	PouredSigma float64 // standard uncertainty, the can's own size apart
	Input       float64 // ohm at the terminals; NaN if nobody read it
	InputSigma  float64 // standard uncertainty
	Sense       float.Sense
	Attitude    geometry.Attitude
	Density     float64 // kg/m³ of what is in the tank; 0 in every row for the rig's own fuel
	Doubtful    bool    // the reading is not to be trusted: it is shown, and not used
	Spilled     bool    // nobody knows how much of the pour went in
}

// read tells whether a row has a reading that counts.
func (r Row) read() bool { return !math.IsNaN(r.Input) && !r.Doubtful }

// Most rows that a fit takes, and least readings.
const (
	mostRows      = 1000
	leastReadings = 2
)

// Check tells what is wrong with a log as a whole.
func (l *Log) Check() error {
	readings := 0
	for _, r := range l.Rows {
		if r.read() {
			readings++
		}
	}
	switch {
	case readings == 1:
		return fmt.Errorf("1 reading that counts, expected %d or more", leastReadings)
	case readings < leastReadings:
		return fmt.Errorf("%d readings that count, expected %d or more", readings, leastReadings)
	case len(l.Rows) > mostRows:
		return fmt.Errorf("%d rows, expected at most %d", len(l.Rows), mostRows)
	}
	return nil
}

// density returns that of a row, or 1 where none is known.
func (r Row) density() float64 {
	if r.Density > 0 {
		return r.Density
	}
	return 1
}

// Litres returns what the log says is in the tank at each row for a start, with every
// pour a share of the can's error more. What is in it swells as its density falls.
func (l *Log) Litres(start, can float64) []float64 {
	out := make([]float64, len(l.Rows))
	mass := 0.0
	for i, r := range l.Rows {
		if i == 0 {
			mass = start * r.density()
		}
		mass += r.Poured * (1 + can) * r.density()
		out[i] = mass / r.density()
	}
	return out
}
