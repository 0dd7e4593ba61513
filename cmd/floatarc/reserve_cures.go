package main

import (
	"fmt"
	"io"
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"floatarc/calibration/reserve"
)

// A remedy is a change with which the promise can be kept.
type remedy struct {
	Of      string `json:"of"`
	Toward  string `json:"toward"`
	By      number `json:"by_mm"`
	X       number `json:"x_mm"`
	Y       number `json:"y_mm"`
	Z       number `json:"z_mm"`
	NoseUp  number `json:"envelope_nose_up_deg"`
	LeftUp  number `json:"envelope_left_up_deg"`
	Reserve number `json:"reserve_l"`
	Warn    number `json:"warn_l"`
}

// takeCures takes what would make the promise possible.
func (s *lampSheet) takeCures() error {
	cures, err := s.promise.Cures()
	if err != nil {
		return err
	}
	for _, c := range cures {
		out := remedy{
			Of: string(c.Of), Toward: towardWords(c.Toward), By: number(c.By), X: number(c.Place.X), Y: number(c.Place.Y), Z: number(c.Place.Z),
			NoseUp: number(c.Envelope.NoseUp), LeftUp: number(c.Envelope.LeftUp), Reserve: number(c.Reserve), Warn: number(c.Litres),
		}
		if out.Toward == "" {
			out.By, out.X, out.Y, out.Z = unknown, unknown, unknown, unknown
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
	impossible := s.refused.(*reserve.Impossible)
	where := atWords(impossible.Attitude)
	switch impossible.Reason {
	case reserve.Held:
		writeWrapped(w, "! ", fmt.Sprintf("Impossible: %s the sender follows the fuel nowhere, so that it cannot light a lamp.", where))
	case reserve.Always:
		writeWrapped(w, "! ", fmt.Sprintf("Impossible: %s the lamp would have to light with %s in the tank, and then, with the sender at the ends of its tolerance, it would be lit on level ground with a full tank.",
			where, v.Text(impossible.Needs)))
	default:
		writeWrapped(w, "! ", fmt.Sprintf("Impossible: %s the lamp would have to light with %s in the tank, but there the float is at its top with %s already, and cannot tell.",
			where, v.Text(impossible.Needs), v.Text(impossible.Tells)))
	}
	writeWrapped(w, "  ", fmt.Sprintf("%s %s cannot be drawn.", capital(atWords(s.warning.Unusable.Attitude)), v.Text(float64(s.Worst))))
	if !math.IsNaN(float64(s.LevelOnly)) {
		writeWrapped(w, "  ", fmt.Sprintf("For level ground alone the lamp would light with %s.", v.Text(float64(s.LevelOnly))))
	}
	if len(s.Cures) == 0 {
		writeWrapped(w, "  ", "No move of the pickup or of the sender along the tank's axes cures it alone, nor do smaller slopes.")
		return
	}
	fmt.Fprintf(w, "\nWhat would cure it, one at a time:\n")
	for _, c := range s.Cures {
		writeWrapped(w, "- ", s.cureWords(c))
	}
}

// cureWords tells a cure.
func (s *lampSheet) cureWords(c remedy) string {
	l, v := s.sys.Length, s.sys.Volume
	then := fmt.Sprintf(": the lamp then lights with %s on level ground.", v.Text(float64(c.Warn)))
	switch reserve.Part(c.Of) {
	case reserve.OfPickup, reserve.OfSender:
		what := "pickup"
		if reserve.Part(c.Of) == reserve.OfSender {
			what = map[bool]string{true: "arm's pivot", false: "sender"}[s.file.Sender.Arm != nil]
		}
		return fmt.Sprintf("the %s %s further %s, at (%s, %s, %s)%s", what, l.Text(float64(c.By)), c.Toward,
			l.Size(float64(c.X)), l.Size(float64(c.Y)), l.Size(float64(c.Z)), then)
	case reserve.OfEnvelope:
		return fmt.Sprintf("slopes of at most %s along and %s across%s", gradeText(float64(c.NoseUp)), gradeText(float64(c.LeftUp)), then)
	}
	return fmt.Sprintf("a reserve of %s%s", v.Text(float64(c.Reserve)), then)
}
