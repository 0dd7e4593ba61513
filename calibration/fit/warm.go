package fit

import (
	"math"

	"floatarc/volume"
)

// A place is where the surface and the sender were found at a row before. In a rig and
// with litres that differ little they are close by: a few chord steps from there, along
// the slopes that were seen, cost a fraction of a search.
type place struct {
	found  bool
	level  float64 // of the surface, mm
	area   float64 // of it, litres per mm
	travel float64
	rate   float64 // of the level by the travel; 0 if not known
}

// Of the chord steps: how many, and from how near, as a share of a full tank and in mm, the
// last one is taken unseen: what it leaves is of second order.
const (
	chords     = 6
	nearLitres = 1e-6
	nearLevel  = 1e-3
)

// levelOf returns the level at which contents hold so many litres.
func (p *place) levelOf(c *volume.Contents, litres, full float64) float64 {
	if p.found {
		h := p.level
		for range chords {
			off := c.Litres(h) - litres
			h -= off / p.area
			if math.Abs(off) <= nearLitres*full {
				return h
			}
		}
	}
	return c.Level(litres)
}

// travelOf returns the travel of a sender at a level.
func (p *place) travelOf(rel *volume.Relation, level float64) float64 {
	if p.found && p.rate > 0 {
		t := rel.Within(p.travel)
		for range chords {
			off := rel.Level(t) - level
			next := rel.Within(t - off/p.rate)
			if math.Abs(off) <= nearLevel || next == t { // or it rests on its stop
				return next
			}
			t = next
		}
	}
	return rel.TravelAt(level)
}

// aside is the step in travel, as a share of the whole, by which the slope of a path is
// seen.
const aside = 1e-4

// placeOf remembers where a row was found.
func placeOf(rel *volume.Relation, level, travel float64) place {
	p := place{level: level, travel: travel, area: rel.Contents.Rate(level)}
	p.found = p.area > 0
	by := aside * (rel.High - rel.Low)
	from, to := rel.Within(travel-by), rel.Within(travel+by)
	p.rate = (rel.Level(to) - rel.Level(from)) / (to - from)
	return p
}
