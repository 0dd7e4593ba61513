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

// Of the chord steps: how many, and how near they come, as a share of a full tank and in
// mm.
const (
	chords     = 6
	nearLitres = 1e-9
	nearLevel  = 1e-7
)

// perLitre is the mm³ in a litre.
const perLitre = 1e6

// levelOf returns the level at which contents hold so many litres.
func (p *place) levelOf(c *volume.Contents, litres, full float64) float64 {
	if p.found {
		h := p.level
		for range chords {
			off := c.Litres(h) - litres
			if math.Abs(off) <= nearLitres*full {
				return h
			}
			h -= off / p.area
		}
	}
	return c.Level(litres)
}

// travelOf returns the travel of a sender at a level.
func (p *place) travelOf(rel *volume.Relation, level float64) float64 {
	if p.found && p.rate > 0 && p.travel > rel.Low && p.travel < rel.High {
		t := p.travel
		for range chords {
			off := rel.Level(t) - level
			if math.Abs(off) <= nearLevel {
				return t
			}
			if t -= off / p.rate; !(t > rel.Low && t < rel.High) {
				break
			}
		}
	}
	return rel.TravelAt(level)
}

// aside is the step in travel, as a share of the whole, by which the slope of a path is
// seen.
const aside = 1e-4

// placeOf remembers where a row was found.
func placeOf(rel *volume.Relation, level, travel float64) place {
	p := place{found: true, level: level, travel: travel, area: rel.Contents.Surface(level) / perLitre}
	p.found = p.area > 0
	if by := aside * (rel.High - rel.Low); travel-by > rel.Low && travel+by < rel.High {
		p.rate = (rel.Level(travel+by) - rel.Level(travel-by)) / (2 * by)
	}
	return p
}
