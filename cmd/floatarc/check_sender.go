package main

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"floatarc/float"
	"floatarc/geometry"
	"floatarc/tanks/quantity"
)

// senderFigures are numbers of the sender's own behaviour, on level ground; null
// where the rig does not say enough.
type senderFigures struct {
	Draught      number `json:"waterline_mm"` // of the surface over the float centre
	Friction     number `json:"friction_l"`   // greatest difference of rising and falling
	FrictionAt   number `json:"friction_at_l"`
	CoarsestStep number `json:"coarsest_step_l"`
	CoarsestAt   number `json:"coarsest_step_at_l"`
	StepE        number `json:"step_empty_l"`
	StepH        number `json:"step_half_l"`
	StepF        number `json:"step_full_l"`
	ToleranceE   number `json:"tolerance_empty_l"`
	ToleranceH   number `json:"tolerance_half_l"`
	ToleranceF   number `json:"tolerance_full_l"`
}

func (j *job) senderFigures() senderFigures {
	f := senderFigures{unknown, unknown, unknown, unknown, unknown, unknown, unknown, unknown, unknown, unknown, unknown}
	empty, full := j.rig.Dial.Empty, j.rig.Dial.Full
	s := j.file.Sender
	if s.Buoy() != nil {
		f.Draught = number(j.waterline())
	}
	if j.dragged() {
		rising, up := j.rig.On(j.rig.Level, float.Rising)
		falling, down := j.rig.On(j.rig.Level, float.Falling)
		if up && down {
			most, at := j.rig.Hysteresis(rising, falling)
			f.Friction, f.FrictionAt = number(most), number(at)
		}
	}
	if w := s.Winding(); w.Steps > 0 {
		step := j.rig.Coarsest(w)
		f.CoarsestStep, f.CoarsestAt = number(step.Litres), number(step.At)
		f.StepE, f.StepH, f.StepF = number(j.rig.StepAt(w, empty)), number(j.rig.StepAt(w, (empty+full)/2)), number(j.rig.StepAt(w, full))
	}
	if s.Tolerance > 0 {
		f.ToleranceE, f.ToleranceH, f.ToleranceF = number(j.rig.Tolerance(s.Tolerance, empty)),
			number(j.rig.Tolerance(s.Tolerance, (empty+full)/2)), number(j.rig.Tolerance(s.Tolerance, full))
	}
	return f
}

// waterline returns the height of the surface over the float centre on level
// ground, without friction, mm.
func (j *job) waterline() float64 {
	up := j.rig.Level.Contents.Up
	if arm := j.file.Sender.Arm; arm != nil {
		return arm.In(up).Level(arm.Low) - r3.Dot(up, arm.Centre(arm.Low))
	}
	rod := j.file.Sender.Rod
	return rod.In(up).Level(0) - r3.Dot(up, rod.Foot)
}

// readBackSender tells the sender, and its figures, in sentences.
func (j *job) readBackSender(f senderFigures) []string {
	sys, s := j.sys, j.file.Sender
	track := j.rig.Sender.Track()
	var out []string
	switch {
	case s.Arm != nil:
		out = j.readBackArm()
	case s.Rod != nil:
		low, high := j.rig.Level.Reach()
		name := map[bool]string{true: "a float on a stem", false: "a probe"}[s.Rod.Stem]
		out = append(out, fmt.Sprintf("Sender: %s from (%s, %s, %s) to (%s, %s, %s): %s ohm at %s, %s ohm at %s.", name,
			sys.Length.Size(s.Rod.Foot.X), sys.Length.Size(s.Rod.Foot.Y), sys.Length.Size(s.Rod.Foot.Z),
			sys.Length.Size(s.Rod.Head.X), sys.Length.Size(s.Rod.Head.Y), sys.Length.Size(s.Rod.Head.Z),
			one(track.Ohms(j.rig.Level.Low)), sys.Volume.Text(low), one(track.Ohms(j.rig.Level.High)), sys.Volume.Text(high)))
	default:
		low, high := j.rig.Level.Reach()
		out = append(out, fmt.Sprintf("Sender: a table of ohms by %s, %s ohm at %s and %s ohm at %s.", map[bool]string{true: "litres poured", false: "the height of the surface"}[s.Poured],
			one(track.Ohms(j.rig.Level.Low)), sys.Volume.Text(low), one(track.Ohms(j.rig.Level.High)), sys.Volume.Text(high)))
	}
	if b := s.Buoy(); b != nil {
		out = append(out, fmt.Sprintf("Float: it carries %.1f g in fuel of %.0f kg/m³ (%s at %s degC) and is %.0f %% immersed; the surface lies %s %s its centre.",
			b.Load, b.Density, j.file.Fuel.Kind, quantity.Fixed(j.file.Fuel.Temperature, 0), 100*b.Load/(b.Density*1e-6*b.Shape.Volume()),
			sys.Length.Finer(1).Text(math.Abs(float64(f.Draught))), map[bool]string{true: "above", false: "below"}[f.Draught >= 0]))
	}
	if !math.IsNaN(float64(f.Friction)) {
		out = append(out, fmt.Sprintf("Friction at the axle makes up to %s between rising and falling fuel at one reading, at about %s in the tank.",
			sys.Volume.Text(float64(f.Friction)), sys.Volume.Text(float64(f.FrictionAt))))
	}
	if !math.IsNaN(float64(f.CoarsestStep)) {
		what := fmt.Sprintf("The winding has %d turns", s.Turns)
		if s.Rod != nil {
			what = fmt.Sprintf("The stem has %d contacts", s.Winding().Steps+1)
		}
		out = append(out, fmt.Sprintf("%s: the reading moves in steps, of %s half way and the coarsest of %s at %s in the tank.",
			what, sys.Volume.Text(float64(f.StepH)), sys.Volume.Text(float64(f.CoarsestStep)), sys.Volume.Text(float64(f.CoarsestAt))))
	}
	if !math.IsNaN(float64(f.ToleranceH)) {
		out = append(out, fmt.Sprintf("The sender's tolerance of ±%s %% stands for ±%s at the empty mark, ±%s half way and ±%s at the full mark.",
			quantity.Fixed(100*s.Tolerance, 1), sys.Volume.Text(float64(f.ToleranceE)), sys.Volume.Text(float64(f.ToleranceH)), sys.Volume.Text(float64(f.ToleranceF))))
	}
	if j.rig.Wiring.Installed != nil {
		return append(out, fmt.Sprintf("%s They see %s to %s ohm.", j.installedWords(), one(j.rig.InputAt(j.rig.Level.Low)), one(j.rig.InputAt(j.rig.Level.High))))
	}
	return append(out, fmt.Sprintf("Wiring adds %s ohm of wire (one way) and %s ohm of return path and joints: the terminals see %s to %s ohm.",
		quantity.Fixed(j.rig.Wiring.Wire.Ohms(), 3), quantity.Fixed(j.rig.Wiring.Ground, 3),
		one(j.rig.InputAt(j.rig.Level.Low)), one(j.rig.InputAt(j.rig.Level.High))))
}

func (j *job) readBackArm() []string {
	sys, arm := j.sys, j.file.Sender.Arm
	stand := func(name string, angle, litres float64) string {
		gap := func(direction float64) string {
			d := geometry.Reach(j.file.Tank.Shape, arm.Centre(angle), r3.Scale(direction, j.rig.Level.Contents.Up))
			return sys.Length.Text(d)
		}
		return fmt.Sprintf("Arm %s (%s°): %s ohm, float centre %s above the floor and %s below the roof, surface there at %s.",
			name, one(angle), one(arm.Track().Ohms(angle)), gap(-1), gap(1), sys.Volume.Text(litres))
	}
	low, high := j.rig.Level.Reach()
	out := []string{fmt.Sprintf("Sender: an arm of %s from its axle to the float centre, pointing %s.", sys.Length.Size(arm.Length), planWords(arm.Heading))}
	out = append(out, j.file.Sender.Derived...)
	return append(out, stand("hanging", j.rig.Level.Low, low), stand("raised", j.rig.Level.High, high))
}
