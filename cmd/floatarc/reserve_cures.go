package main

import (
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"

	"gonum.org/v1/gonum/spatial/r3"

	"floatarc/calibration/reserve"
	"floatarc/tanks/quantity"
)

// A remedy is a change with which the promise can be kept, or the lamp lights later.
type remedy struct {
	Of           string `json:"of"` // "pickup", "sender", "slopes", "tolerance" or "reserve"
	Toward       string `json:"toward"`
	By           number `json:"by_mm"`
	X            number `json:"x_mm"`
	Y            number `json:"y_mm"`
	Z            number `json:"z_mm"`
	Grade        number `json:"grade_deg"`
	SideSlope    number `json:"side_slope_deg"`
	Acceleration number `json:"acceleration_g"`
	Cornering    number `json:"cornering_g"`
	Tolerance    number `json:"tolerance"`
	Reserve      number `json:"reserve_l"`
	Warn         number `json:"warn_l"`
}

// takeCures takes what would make the promise possible.
func (s *lampSheet) takeCures() error {
	cures, err := s.promise.Cures(float64(s.Warn), func(share float64) reserve.Envelope { return envelopeOf(smaller(s.file.Use, share)) })
	if err != nil {
		return err
	}
	for _, c := range cures {
		out := remedy{string(c.Of), towardWords(c.Toward), unknown, unknown, unknown, unknown, unknown, unknown, unknown, unknown, unknown, unknown, number(c.Litres)}
		switch c.Of {
		case reserve.OfSlopes:
			use := smaller(s.file.Use, c.Share)
			out.Grade, out.SideSlope, out.Acceleration, out.Cornering = number(use.Grade), number(use.SideSlope), number(use.Along), number(use.Across)
		case reserve.OfSpread:
			out.Tolerance = number(c.Share * s.promise.Tolerance)
		case reserve.OfReserve:
			out.Reserve = number(c.Share * s.promise.Reserve)
		default:
			out.By, out.X, out.Y, out.Z = number(c.By), number(c.Place.X), number(c.Place.Y), number(c.Place.Z)
		}
		s.Cures = append(s.Cures, out)
	}
	return nil
}

// towardWords names a direction of the tank frame.
func towardWords(v r3.Vec) string {
	switch v {
	case r3.Vec{X: 1}:
		return "forward"
	case r3.Vec{X: -1}:
		return "aft"
	case r3.Vec{Y: 1}:
		return "left"
	case r3.Vec{Y: -1}:
		return "right"
	case r3.Vec{Z: 1}:
		return "up"
	case r3.Vec{Z: -1}:
		return "down"
	}
	return ""
}

// writeRefusal tells why there is no lamp, and what would make one possible.
func (s *lampSheet) writeRefusal(w io.Writer) {
	v := s.sys.Volume
	writeWrapped(w, "! ", "Impossible: "+s.refusedWords()+".")
	writeWrapped(w, "  ", fmt.Sprintf("%s %s cannot be drawn.", capital(atWords(s.warning.Unusable.Attitude)), v.Text(float64(s.Worst))))
	if !math.IsNaN(float64(s.LevelOnly)) {
		writeWrapped(w, "  ", fmt.Sprintf("For level ground alone the lamp would light with %s.", v.Text(float64(s.LevelOnly))))
	}
	fmt.Fprintln(w)
	s.writeCures(w)
}

// refusedWords tell why there is no lamp.
func (s *lampSheet) refusedWords() string {
	v, no := s.sys.Volume, s.refused
	where, needs := atWords(no.Attitude), v.Text(no.Needs)
	switch {
	case no.Reason == reserve.Held:
		return fmt.Sprintf("%s the sender follows the fuel nowhere, so that it cannot light a lamp", where)
	case no.Needs >= s.rig.Tank.Full:
		return fmt.Sprintf("the lamp would have to light with %s, and a full tank holds %s: what cannot be drawn (%s) and the reserve (%s) are more than that",
			needs, v.Text(s.rig.Tank.Full), v.Text(s.warning.Unusable.Litres), v.Text(s.promise.Reserve))
	case no.Reason == reserve.Always:
		return fmt.Sprintf("%s the lamp would have to light with %s in the tank, and then a full tank on level ground would not put it out", where, needs)
	}
	return fmt.Sprintf("%s the lamp would have to light with %s in the tank, but there the float is at its top with %s already, and cannot tell", where, needs, v.Text(no.Tells))
}

// writeCures tells what would help.
func (s *lampSheet) writeCures(w io.Writer) {
	if len(s.Cures) == 0 {
		writeWrapped(w, "", "Nothing that was tried helps alone: the pickup or the sender moved along an axis of the tank, smaller slopes, a better sender, a smaller reserve.")
		return
	}
	aim := "lights with at most half a tank, or three quarters, or goes out at all"
	if s.refused == nil {
		aim = "lights with a quarter less, or a tenth less where nothing does that"
	}
	writeWrapped(w, "", fmt.Sprintf("What would help, one at a time, so that the lamp %s; and with how much it then lights on level ground:", aim))
	for _, c := range s.Cures {
		writeWrapped(w, "- ", fmt.Sprintf("%s: %s, %s %% of a full tank.", s.cureWords(c), s.sys.Volume.Text(float64(c.Warn)), quantity.Fixed(100*float64(c.Warn)/s.rig.Tank.Full, 0)))
	}
}

// cureWords tells a cure.
func (s *lampSheet) cureWords(c remedy) string {
	l, v := s.sys.Length, s.sys.Volume
	switch reserve.Part(c.Of) {
	case reserve.OfPickup, reserve.OfSender:
		what, key := "pickup", "tank.pickup.at"
		switch {
		case reserve.Part(c.Of) == reserve.OfPickup:
		case s.file.Sender.Arm != nil:
			what, key = "arm's pivot", "sender.pivot"
		default:
			what, key = "whole sender", "sender.foot"
		}
		return fmt.Sprintf("the %s %s further %s (%s = %s)", what, l.Text(float64(c.By)), c.Toward, key, s.placeText(c))
	case reserve.OfSlopes:
		words := fmt.Sprintf("slopes of at most %s along and %s across", gradeDown(float64(c.Grade)), gradeDown(float64(c.SideSlope)))
		if c.Acceleration > 0 {
			words += fmt.Sprintf(", %s g of speeding up or braking", down(float64(c.Acceleration), 2))
		}
		if c.Cornering > 0 {
			words += fmt.Sprintf(", %s g of cornering", down(float64(c.Cornering), 2))
		}
		return words
	case reserve.OfSpread:
		return fmt.Sprintf("a sender with a tolerance of at most ±%s %%", down(100*float64(c.Tolerance), 1))
	}
	return "a reserve of " + v.Text(float64(c.Reserve))
}

// placeText writes a place as a rig file takes it.
func (s *lampSheet) placeText(c remedy) string {
	var out []string
	for _, mm := range []number{c.X, c.Y, c.Z} {
		text := quantity.Trimmed(float64(mm), 1)
		if s.sys.Name != quantity.Metric.Name {
			text = strconv.Quote(s.sys.Length.Size(float64(mm)))
		}
		out = append(out, text)
	}
	return "[" + strings.Join(out, ", ") + "]"
}

// gradeDown writes an angle as a grade that is no steeper.
func gradeDown(degrees float64) string {
	percent := percentOf(degrees)
	if percent >= 5 {
		return down(percent, 0) + " %"
	}
	return down(percent, 1) + " %"
}

// down writes a number with so many decimals, rounded down.
func down(x float64, decimals int) string {
	unit := math.Pow(10, float64(decimals))
	return quantity.Fixed(math.Floor(x*unit+1e-6)/unit, decimals)
}
