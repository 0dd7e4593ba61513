package main

import (
	"fmt"
	"io"
	"math"

	"floatarc/tanks"
	"floatarc/tanks/quantity"
)

// A warning is something that usually goes wrong, found in a rig.
type warning struct {
	Code string `json:"code"`
	Text string `json:"text"`
}

func writeWarnings(w io.Writer, warnings []warning) {
	if len(warnings) == 0 {
		return
	}
	fmt.Fprintln(w)
	for _, x := range warnings {
		writeWrapped(w, "! ", x.Text)
	}
}

// warnings returns every warning of a rig. thinner tells what the tank would
// hold if its sizes were outside sizes.
func (j *job) warnings(thinner func(wall float64) (litres float64, ok bool)) []warning {
	out := []warning{}
	add := func(code, format string, args ...any) { out = append(out, warning{code, fmt.Sprintf(format, args...)}) }
	tank, sys := j.file.Tank, j.sys
	out = append(out, j.notMeasuredWarnings()...)
	if tank.FillAssumed {
		add("fill_assumed", "The file has no [tank.fill]: full is taken as 95 %% of the capacity, %s. Fill to the click once and give fill.height or fill.volume.", sys.Volume.Text(tank.Full))
	}
	if tank.FillAbove {
		add("fill_above_tank", "The filler lies above the tank's highest point: full is taken as the whole capacity, with no room for the fuel to expand.")
	}
	out = append(out, j.fillWarnings()...)
	if tank.Pickup == nil {
		add("pickup_missing", "The file has no [tank.pickup]: all fuel is taken as usable, which no pickup reaches. Give pickup.at, or pickup.unusable as drained and measured.")
	}
	if a, b, apart := tank.Shape.Apart(); apart {
		add("bodies_apart", "Seen from inside, %s and %s do not meet: neither fuel nor float can pass. If they are one tank made of two, with a wall each, let their outside sizes lap by both walls.", a, b)
	}
	if tank.Pickup != nil {
		if lost := j.rig.Level.Contents.Unusable; lost > pickupShare*tank.Full {
			add("pickup_high", "%s of %s lie below the pickup: is its height right?", sys.Volume.Text(lost), sys.Volume.Text(tank.Full))
		}
	}
	if arm := j.file.Sender.Arm; arm != nil && arm.Length < shortestArm {
		add("arm_short", "An arm of %.4g mm is very short: was it written in inches, without \"in\"?", arm.Length)
	}
	if m := j.file.Mount; math.Abs(m.NoseUp) > steepest || math.Abs(m.LeftUp) > steepest {
		add("mount_steep", "[mount] tilts the tank by more than %g° on level ground: is that right?", float64(steepest))
	}
	for _, b := range tank.Bodies {
		if b.Wall > 0 && b.Wall < thinnest {
			add("wall_thin", "%s has a wall of %.3g mm: was it written in inches, without \"in\"?", capital(b.Name), b.Wall)
		}
		for _, note := range b.Notes {
			add("drawing_mended", "%s: %s.", capital(b.Name), note)
		}
		if b.Around && b.Wall == 0 {
			add("girth_without_wall", "Body %q is measured around the outside, but has no wall: give wall = the thickness of the metal.", b.Name)
		}
	}
	out = append(out, j.ratedWarnings(thinner)...)
	if kind := j.file.Sender.Kind; j.file.Sender.Buoy() == nil && (kind == "arm" || kind == "stem") {
		add("float_missing", "The file has no [sender.float]: the float centre is taken to ride on the surface. A real float sits some millimetres deeper.")
	}
	out = append(out, j.swingWarnings()...)
	out = append(out, j.frictionWarnings()...)
	if !j.file.Wired {
		add("wiring_missing", "The file has no [wiring]: the terminals are taken to see the bare sender. Measure the wire and the joints once they are final.")
	}
	out = append(out, j.gaugeWarnings()...)
	p, err := j.atMarks()
	if err != nil {
		add("no_points", "%s.", capital(err.Error()))
		return out
	}
	out = append(out, j.pointWarnings(p)...)
	return out
}

// What no usual tank or sender has (common practice, no source).
const (
	pickupShare = 0.15 // of a full tank left below the pickup
	shortestArm = 35.  // mm
	steepest    = 15   // degrees of mounting, or of a fill
	thinnest    = 0.4  // mm of wall
)

// ratedShare is how far the rated volume may lie from the computed one before
// check asks why; a plate gives whole units, and a tape reads to a millimetre.
const ratedShare = 0.03

// ratedWarnings compares with what the maker or the pump says, and names the
// likely cause of a difference.
func (j *job) ratedWarnings(thinner func(float64) (float64, bool)) []warning {
	tank, sys := j.file.Tank, j.sys
	near := func(a, b float64) bool { return math.Abs(a/b-1) <= ratedShare }
	if tank.Rated == 0 || near(tank.Rated, tank.Capacity) || near(tank.Rated, tank.Full) ||
		tank.Rated > tank.Full && tank.Rated < tank.Capacity {
		return nil
	}
	cause := "measure again, the longest side first"
	if tank.Capacity < tank.Rated {
		cause = "part of the tank may be missing from the file, or a size read short"
	}
	for _, mix := range []struct {
		ratio float64
		cause string
	}{
		{quantity.LitresPerUSGallon, "the rated figure may be US gallons"},
		{quantity.LitresPerGallon, "the rated figure may be imperial gallons"},
		{quantity.LitresPerGallon / quantity.LitresPerUSGallon, "the rated gallons may be imperial and not US ones"},
		{quantity.LitresPerUSGallon / quantity.LitresPerGallon, "the rated gallons may be US and not imperial ones"},
		{math.Pow(quantity.MMPerInch, -3), "the sizes may be inches written as millimetres"},
		{1e-3, "the sizes may be centimetres written as millimetres"},
	} {
		if near(tank.Full, tank.Rated*mix.ratio) || near(tank.Capacity, tank.Rated*mix.ratio) {
			cause = mix.cause
		}
	}
	const probe = 1.0 // mm
	if less, ok := thinner(probe); ok && tank.Full > tank.Rated {
		// One millimetre off every side takes so much off a full tank; how
		// many would explain it?
		share := tank.Full / tank.Capacity
		if wall := probe * (tank.Full - tank.Rated) / (share * (tank.Capacity - less)); wall <= thickest {
			cause = fmt.Sprintf("the sizes may be outside sizes (a wall of about %.1f mm would explain it: wall = \"%.1f mm\")", wall, wall)
		}
	}
	return []warning{{"rated_differs", fmt.Sprintf("Rated %s, but the sizes give %s to the brim and %s full: %s.",
		sys.Volume.Text(tank.Rated), sys.Volume.Text(tank.Capacity), sys.Volume.Text(tank.Full), cause)}}
}

// thickest is the thickest wall, in mm, that is offered as the cause of a
// difference: thicker than rolled or cast plastic tanks are made.
const thickest = 8

// thinner returns what the tank of a file would hold with a wall on every body
// that holds fuel; not if any of them has one already.
func (o *options) thinner(file string) func(float64) (float64, bool) {
	return func(wall float64) (float64, bool) {
		tank, err := tanks.LoadTank(file, o.set)
		if err != nil {
			return 0, false
		}
		set := append([]string{}, o.set...)
		for i, b := range tank.Bodies {
			if b.Wall > 0 {
				return 0, false
			}
			if !b.Displaces && b.TakesWall() {
				set = append(set, fmt.Sprintf("tank.body[%d].wall=%g", i, wall))
			}
		}
		if tank, err = tanks.LoadTank(file, set); err != nil {
			return 0, false
		}
		return tank.Capacity, true
	}
}

// rangeShare is how far an end of the sender's range may lie from the gauge's,
// as a share of the gauge's, before check speaks of it.
const rangeShare = 0.1

// gaugeWarnings compares the sender's range at the terminals with the gauge's.
func (j *job) gaugeWarnings() []warning {
	ends := j.file.Gauge.Ends
	if ends == nil {
		return nil
	}
	empty, full := ends[0], ends[1]
	if empty.Position > full.Position {
		empty, full = full, empty
	}
	low, high := j.rig.InputAt(j.rig.Level.Low), j.rig.InputAt(j.rig.Level.High)
	span := math.Abs(full.Input - empty.Input)
	ranges := fmt.Sprintf("The sender runs from %.0f ohm (empty) to %.0f ohm (full) at the terminals, the gauge wants %.0f to %.0f ohm", low, high, empty.Input, full.Input)
	switch {
	case (low < high) != (empty.Input < full.Input):
		return []warning{{"sense_reversed", ranges + ": the sense is reversed. Wired straight, the needle would run backwards; only a conditioner, another sender or another gauge turns it round."}}
	case math.Abs(low-empty.Input) > rangeShare*span || math.Abs(high-full.Input) > rangeShare*span:
		return []warning{{"range_differs", ranges + ": the ranges do not match. Wired straight, the needle would lie."}}
	}
	return nil
}
