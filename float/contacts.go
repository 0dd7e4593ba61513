package float

import (
	"fmt"
	"math"
)

// Contacts is the track of a stem with contacts at even steps: of those at or
// below the float the nearest counts, and the ohms run straight in its number.
type Contacts struct {
	pitch     float64 // mm
	last      float64 // number of the last contact; the first, at the foot, is 0
	low, high float64 // ohms of the first and the last
}

// NewContacts returns the contacts over a length, pitch apart (mm).
func NewContacts(length, pitch, low, high float64) (*Contacts, error) {
	last := math.Floor(length/pitch*(1+1e-12) + 1e-9)
	if !(pitch > 0) || !(last >= 1) || last > 1e6 {
		return nil, fmt.Errorf("contacts %g mm apart over %g mm, expected two or more", pitch, length)
	}
	if low == high {
		return nil, fmt.Errorf("%g ohm at both ends, expected ohms that rise or fall", low)
	}
	return &Contacts{pitch: pitch, last: last, low: low, high: high}, nil
}

// Like returns as many contacts at another pitch (mm), with other ohms at both ends: how
// many there are is known, however well their places are.
func (c *Contacts) Like(pitch, low, high float64) *Contacts {
	return &Contacts{pitch: pitch, last: c.last, low: low, high: high}
}

// nearly is the share of a pitch by which a travel may fall short of a contact, or lie
// beyond it, and still count as there.
const nearly = 1e-9

// At returns the travel of the contact that a float at a travel has come up to, the
// nearest at or below.
func (c *Contacts) At(travel float64) float64 {
	return c.pitch * math.Max(0, math.Min(c.last, math.Floor(travel/c.pitch+nearly)))
}

// Above returns the travel of the next contact above a travel; +Inf at the last.
func (c *Contacts) Above(travel float64) float64 {
	if number := math.Floor(travel/c.pitch+nearly) + 1; number <= c.last {
		return c.pitch * number
	}
	return math.Inf(1)
}

// Below returns the travel of the next contact below a travel; 0 at the first.
func (c *Contacts) Below(travel float64) float64 {
	return c.pitch * math.Max(0, math.Min(c.last, math.Ceil(travel/c.pitch-nearly)-1))
}

// Winding returns the steps between the contacts.
func (c *Contacts) Winding() Winding { return Winding{Width: c.pitch, Steps: int(c.last)} }

// A Winding is a track that moves in even steps of the travel: turns of wire, or
// contacts.
type Winding struct {
	Start, Width float64 // of the first step
	Steps        int     // 0 for a smooth track
}

// Ohms implements [Track].
func (c *Contacts) Ohms(travel float64) float64 {
	return c.low + (c.high-c.low)*c.At(travel)/(c.pitch*c.last)
}

// Even returns the ohms at a travel of the straight line that runs through the middle of
// the steps.
func (c *Contacts) Even(travel float64) float64 {
	number := math.Max(0, math.Min(c.last, travel/c.pitch-0.5))
	return c.low + (c.high-c.low)*number/c.last
}

// Travel implements [Track]: the place of the contact, or between two.
func (c *Contacts) Travel(ohms float64) float64 {
	number := (ohms - c.low) / (c.high - c.low) * c.last
	return c.pitch * math.Max(0, math.Min(c.last, number))
}

// hair is the share of the pitch by which a knot lies below a contact.
const hair = 1e-6

// Knots implements [Track]: each contact, and a hair below it.
func (c *Contacts) Knots(low, high float64) []float64 {
	var out []float64
	for k := math.Max(1, math.Ceil(low/c.pitch)); k <= c.last && c.pitch*(k-hair) < high; k++ {
		for _, t := range [2]float64{c.pitch * (k - hair), c.pitch * k} {
			if t > low && t < high {
				out = append(out, t)
			}
		}
	}
	return out
}
