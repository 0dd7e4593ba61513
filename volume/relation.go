package volume

import (
	"math"

	"floatarc/float"
	"floatarc/geometry"
)

// A Relation is a sender in the contents of a tank: which travel stands for how
// many litres at one attitude.
type Relation struct {
	Contents *Contents
	Sender   float.Sender
	// Low and High are the travels between which the sender follows the fuel.
	Low, High float64

	path      float.Path
	full      float64
	low, high float64 // litres at Low and High, whatever is full
}

// Relate puts a sender, free to travel from low to high, into the contents of a
// tank that is full at so many litres. It reports false if the sender follows
// the fuel nowhere at this attitude.
func Relate(c *Contents, s float.Sender, low, high, full float64) (*Relation, bool) {
	r := &Relation{Contents: c, Sender: s, path: s.In(c.Up), full: full}
	r.Low, r.High = r.path.Follows(low, high)
	if !(r.Low < r.High) {
		return nil, false
	}
	r.clip()
	return r, r.Low < r.High
}

// clip takes off the ends of the travel that stand for levels beyond the tank,
// where a table of heights may reach, and keeps the litres at both.
func (r *Relation) clip() {
	bottom, top := r.path.Level(r.Low), r.path.Level(r.High)
	if top > r.Contents.Top {
		r.High = r.TravelAt(r.Contents.Top)
		top = r.Contents.Top
	}
	if bottom < r.Contents.Bottom {
		r.Low = r.TravelAt(r.Contents.Bottom)
		bottom = r.Contents.Bottom
	}
	r.low, r.high = r.Contents.Litres(bottom), r.Contents.Litres(top)
}

// Level returns the level of the surface that holds the sender at a travel, mm.
func (r *Relation) Level(travel float64) float64 { return r.path.Level(travel) }

// Litres returns the litres at which the sender stands at a travel.
func (r *Relation) Litres(travel float64) float64 {
	return r.Contents.Litres(r.path.Level(travel))
}

// Within returns a travel, or the end of those that follow the fuel beyond which it
// lies.
func (r *Relation) Within(travel float64) float64 {
	return math.Max(r.Low, math.Min(r.High, travel))
}

// Live returns the live band, the litres over which the reading changes, told
// within empty and full.
func (r *Relation) Live() (low, high float64) {
	return math.Min(r.low, r.full), math.Min(r.high, r.full)
}

// Reach returns the litres at the two ends of the travel; the upper may lie
// above full.
func (r *Relation) Reach() (low, high float64) { return r.low, r.high }

// Travel returns the travel at so many litres; in a blind band, that of the end
// at which the sender rests.
func (r *Relation) Travel(litres float64) float64 {
	switch {
	case litres <= r.low:
		return r.Low
	case litres >= r.high:
		return r.High
	}
	return r.TravelAt(r.Contents.Level(litres))
}

// TravelAt returns the travel at a level of the surface; beyond those that the sender
// follows, that of the end at which it rests. It costs no volume.
func (r *Relation) TravelAt(level float64) float64 {
	return geometry.Crossing(func(travel float64) float64 { return r.path.Level(travel) - level }, r.Low, r.High)
}

// Ohms returns the sender's resistance at so many litres.
func (r *Relation) Ohms(litres float64) float64 {
	return r.Sender.Track().Ohms(r.Travel(litres))
}
