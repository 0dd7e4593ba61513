package main

import (
	"fmt"
	"math"

	"floatarc/calibration/reserve"
	"floatarc/geometry"
	"floatarc/volume"
)

// fillFigures tell what a full tank leaves free.
type fillFigures struct {
	NoseUp  number `json:"nose_up_deg"` // in which it is filled
	LeftUp  number `json:"left_up_deg"`
	Level   number `json:"level_l"` // at which the same mouth stops the fill on level ground
	Lost    number `json:"lost_l"`  // by filling on the slope
	Ullage  number `json:"ullage_l"`
	Percent number `json:"ullage_pct"`   // of the capacity
	Brimful number `json:"brimful_degc"` // at which the fuel has expanded to fill it; null if out of reach
}

// trappedFigures tell what cannot be drawn on the slopes of [use]; null without
// slopes or a draw point.
type trappedFigures struct {
	Litres number `json:"unusable_worst_l"`
	NoseUp number `json:"nose_up_deg"`
	LeftUp number `json:"left_up_deg"`
	Share  number `json:"of_full_pct"`
}

// expansionSpace is the least share of the capacity that must stay free for the fuel
// to expand: 14 CFR 25.969, 27.969 and 29.969 (read).
const expansionSpace = 0.02

// hotDay is the temperature, degC, that a tank in the sun may reach (common practice,
// no source).
const hotDay = 60

func (j *job) fillFigures() fillFigures {
	tank, fuel := j.file.Tank, j.file.Fuel
	free := tank.Capacity - tank.Full
	return fillFigures{
		NoseUp: number(tank.Fill.NoseUp), LeftUp: number(tank.Fill.LeftUp), Level: number(tank.FullLevel), Lost: number(tank.FullLevel - tank.Full),
		Ullage: number(free), Percent: number(100 * free / tank.Capacity), Brimful: number(fuel.Liquid().Brimful(tank.Full/tank.Capacity, fuel.Temperature)),
	}
}

// lampFigures tell the low-fuel lamp that keeps the promise of [use]; null without
// one, or where no lamp does.
type lampFigures struct {
	On   number `json:"on_ohms"`
	Warn number `json:"warn_l"`

	refused bool  // no lamp keeps it
	unknown error // why it cannot be told
}

// slopes tells what the slopes of [use] trap, and where they put the lamp.
func (j *job) slopes() (trappedFigures, lampFigures) {
	trapped, lamp := trappedFigures{unknown, unknown, unknown, unknown}, lampFigures{On: unknown, Warn: unknown}
	progress, finish := watch("slopes")
	defer finish()
	p, err := j.lampPromise()
	if use := j.file.Use; use.Reserved || use.Grade > 0 || use.SideSlope > 0 {
		lamp.unknown = err
	}
	var worst reserve.Spot
	switch {
	case err == nil:
		p.Watch = progress
		w, err := p.Solve()
		if w == nil {
			lamp.unknown = err
			return trapped, lamp
		}
		worst, lamp.refused = w.Unusable, err != nil
		lamp.On, lamp.Warn = number(w.Chosen.On), number(p.Level(w.Chosen))
	case j.trappable():
		p := &reserve.Promise{Rig: j.rig, Envelope: j.envelope(), Watch: progress}
		if worst, err = p.MostUnusable(); err != nil {
			return trapped, lamp
		}
	}
	if j.trappable() {
		a := worst.Attitude
		trapped = trappedFigures{number(worst.Litres), number(a.NoseUp), number(a.LeftUp), number(100 * worst.Litres / j.rig.Tank.Full)}
	}
	return trapped, lamp
}

// trappable tells whether what slopes trap is known.
func (j *job) trappable() bool {
	_, atPoint := j.rig.Tank.Pickup.(volume.DrawPoint)
	return atPoint && !j.envelope().Level() && j.rig.Tank.LevelOnly == ""
}

// warnings tell that no lamp keeps the promise.
func (l lampFigures) warnings() []warning {
	switch {
	case l.unknown != nil:
		return []warning{{"lamp_unknown", fmt.Sprintf("The low-fuel lamp cannot be told: %v.", l.unknown)}}
	case !l.refused:
		return nil
	}
	return []warning{{"no_lamp", "No low-fuel lamp keeps the promise of [use]: reserve tells why, and what would help."}}
}

// readBackLamp tells the low-fuel lamp.
func (j *job) readBackLamp(l lampFigures) []string {
	if math.IsNaN(float64(l.On)) {
		return nil
	}
	return []string{fmt.Sprintf("The low-fuel lamp of [use] belongs at %s ohm at the terminals, %s in the tank on level ground: see reserve.", one(float64(l.On)), j.sys.Volume.Text(float64(l.Warn)))}
}

// readBackFill tells what a full tank leaves free, and what filling on a slope costs.
func (j *job) readBackFill(f fillFigures) []string {
	v, tank := j.sys.Volume, j.file.Tank
	free := fmt.Sprintf("A full tank leaves %s free, %s %% of the capacity", v.Text(float64(f.Ullage)), one(float64(f.Percent)))
	if t := float64(f.Brimful); t <= hotDay && float64(f.Ullage) > edge(j) {
		free += fmt.Sprintf(": the fuel fills it to the brim once it has warmed from %.0f to %.0f degC", j.file.Fuel.Temperature, t)
	}
	out := []string{free + "."}
	if tank.Fill == (geometry.Attitude{}) {
		return out
	}
	line := fmt.Sprintf("It is filled %s", tiltsWords(tank.Fill.NoseUp, tank.Fill.LeftUp))
	switch lost := float64(f.Lost); {
	case math.IsNaN(lost):
		line += "."
	case lost > edge(j):
		line += fmt.Sprintf(": air stays in the high corner, and the fill stops %s earlier than on level ground, where the same mouth would stop it at %s.", v.Text(lost), v.Text(tank.FullLevel))
	case lost < -edge(j):
		line += fmt.Sprintf(": the fill stops %s later than on level ground, where the same mouth would stop it at %s.", v.Text(-lost), v.Text(tank.FullLevel))
	default:
		line += ", which makes no difference to where the fill stops."
	}
	return append(out, line)
}

// readBackTrapped tells what cannot be drawn on slopes.
func (j *job) readBackTrapped(t trappedFigures) []string {
	if math.IsNaN(float64(t.Litres)) {
		return nil
	}
	e, with := j.envelope(), ""
	if j.file.Use.Along > 0 || j.file.Use.Across > 0 {
		with = " (with the accelerations of [use])"
	}
	return []string{fmt.Sprintf("On slopes of up to %s along and %s across%s, %s are out of the pickup's reach at worst (%s %% of a full tank), %s.",
		gradeText(e.NoseUp), gradeText(e.LeftUp), with, j.sys.Volume.Text(float64(t.Litres)), one(float64(t.Share)),
		slopeWords(geometry.Attitude{NoseUp: float64(t.NoseUp), LeftUp: float64(t.LeftUp)}))}
}

// fillWarnings tells of a tank without room for the fuel to expand.
func (j *job) fillWarnings() []warning {
	var out []warning
	v, tank := j.sys.Volume, j.file.Tank
	if share := 1 - tank.Full/tank.Capacity; share < expansionSpace-1e-9 && !tank.FillAbove {
		out = append(out, warning{"expansion_small", fmt.Sprintf("A full tank leaves %s %% of the capacity free for the fuel to expand; published rules ask for 2 %% (14 CFR 25.969, aircraft) or 5 %% (49 CFR 393.67, trucks). Let the filler or vent reach lower: full should be at most %s.",
			one(100*share), v.Text((1-expansionSpace)*tank.Capacity))})
	}
	if a := tank.Fill; math.Abs(a.NoseUp) > steepest || math.Abs(a.LeftUp) > steepest {
		out = append(out, warning{"fill_steep", fmt.Sprintf("The tank is filled tilted by more than %d°: is that right?", steepest)})
	}
	if tank.FillByHeight && tank.Fill != (geometry.Attitude{}) {
		out = append(out, warning{"fill_height_tilted", "fill.height is told plumb over the origin, as if the mouth were there: for a tank that is filled tilted give fill.at, where the mouth is."})
	}
	return out
}
