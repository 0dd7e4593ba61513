package main

import (
	"fmt"
	"math"
	"strings"

	"floatarc/tanks/quantity"
)

// words tell how the tank and the stick stand.
func (s *standing) words() []string {
	foot := fmt.Sprintf("Foot of the stick: %s and %s of the origin, on the floor at %s", s.side(s.Foot.X, "forward", "aft"), s.side(s.Foot.Y, "left", "right"), s.tape(s.Foot.Z))
	if s.chosen != "" {
		foot += " (" + s.chosen + ")"
	}
	return []string{
		attitudeWords(s.contents.Attitude, s.tank.Mount),
		foot + "; " + s.leanWords() + " in the tank.",
		fmt.Sprintf("Marks on the right edge: full, unusable at this attitude%s. A stick of another place or lean needs a strip of its own.", map[bool]string{true: ", and those of the dial (E to F)"}[s.rig != nil]),
	}
}

// side tells a distance along an axis.
func (s *standing) side(mm float64, ahead, behind string) string {
	if mm < 0 {
		return s.tape(-mm) + " " + behind
	}
	return s.tape(mm) + " " + ahead
}

// leanWords tell how the stick leans in the tank.
func (s *standing) leanWords() string {
	degrees := func(across float64) float64 { return math.Atan2(across, s.Direction.Z) * 180 / math.Pi }
	var leans []string
	for _, l := range []struct {
		lean          float64
		ahead, behind string
	}{{degrees(s.Direction.X), "forward", "aft"}, {degrees(s.Direction.Y), "left", "right"}} {
		way := l.ahead
		if l.lean < 0 {
			way = l.behind
		}
		if size := quantity.Trimmed(math.Abs(l.lean), 1); size != "0" {
			leans = append(leans, size+"° "+way)
		}
	}
	if len(leans) == 0 {
		return "the stick upright"
	}
	return "its top leaning " + strings.Join(leans, " and ")
}
