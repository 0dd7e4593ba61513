package main

import (
	"fmt"
	"io"
	"math"
	"strings"

	"floatarc/calibration"
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
	if tank.FillAssumed {
		add("fill_assumed", "The file has no [tank.fill]: full is taken as 95 %% of the capacity, %s. Fill to the click once and give fill.height or fill.volume.", sys.Volume.Text(tank.Full))
	}
	if tank.FillAbove {
		add("fill_above_tank", "The filler lies above the tank's highest point: full is taken as the whole capacity, with no room for the fuel to expand.")
	}
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
	steepest    = 15   // degrees of mounting
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

// pointWarnings tells of marks that get no point of their own.
func (j *job) pointWarnings(p *plan) []warning {
	out := []warning{}
	told := j.rig.Told(j.rig.Level)
	for _, q := range p.points {
		switch {
		case q.Blind && p.method == free:
			out = append(out, j.restWarning(p, q.End, told))
		case q.Blind:
			out = append(out, j.blindWarning(q, told))
		}
	}
	if len(p.unreached) > 0 {
		out = append(out, warning{"marks_unreached", fmt.Sprintf("The sender does not reach %s either; of marks in one blind band only the outermost is stored.", strings.Join(p.unreached, ", "))})
	}
	if j.file.Conditioner.Inputs != nil && !p.rounded {
		out = append(out, warning{"inputs_not_rounded", "The conditioner takes only the inputs of conditioner.inputs, but these points are exact: points --round finds the best among its own."})
	}
	out = append(out, j.limitWarnings()...)
	out = append(out, j.needleWarnings()...)
	out = append(out, j.storedWarnings()...)
	out = append(out, j.closeWarnings(p)...)
	if spare := j.rig.Conditioner.Places - len(p.points); spare > 0 && len(p.spared) == 0 && p.method == atMarks {
		out = append(out, warning{"places_unused", fmt.Sprintf("The conditioner stores %d points and %d of them stay unused: more marks in [gauge] marks, 1/8 and 3/8 say, put them to use.", j.rig.Conditioner.Places, spare)})
	}
	if len(p.spared) > 0 {
		out = append(out, warning{"marks_spared", fmt.Sprintf("The conditioner stores %d points. Without one of their own: %s. No other choice has a smaller worst error.", j.rig.Conditioner.Places, strings.Join(p.spared, ", "))})
	}
	return out
}

// restWarning tells what the needle does where a free point lies at an end of what
// the conditioner is told of.
func (j *job) restWarning(p *plan, end calibration.End, told calibration.Told) warning {
	v, dial, unusable := j.sys.Volume, j.rig.Dial, j.rig.Level.Contents.Unusable
	stays := func(b calibration.Border) string { return j.place(p.lines.Show(j.rig.InputAt(b.Travel))) }
	if end == calibration.LowEnd {
		low := told.Low.Litres
		return warning{"rests_low", fmt.Sprintf("From %s down %s and the needle stays %s: when it gets there %s are still to draw, and it shows the same down to the empty mark, with %s to draw. Points do not lower this error; %s.",
			v.Text(low), j.restsAt(told.Low), stays(told.Low), v.Text(math.Max(0, low-unusable)), v.Text(math.Max(0, dial.Empty-unusable)), cure(told.Low, "lower", "empty"))}
	}
	return warning{"rests_high", fmt.Sprintf("From %s up %s and the needle stays %s: it shows the same up to the full mark, %s. Points do not lower this error; %s.",
		v.Text(told.High.Litres), j.restsAt(told.High), stays(told.High), v.Text(dial.Full), cure(told.High, "higher", "full"))}
}

// cure says what lowers the error of a blind band.
func cure(b calibration.Border, further, mark string) string {
	if b.Limited {
		return "a conditioner that takes all that the sender shows does"
	}
	return fmt.Sprintf("a float that reaches %s does, or gauge.%s = \"sender\"", further, mark)
}

// Close points: a needle that an ohm of earth moves by so much, as a share of the
// dial, in the next ohm.
const nervous = 0.025

// closeWarnings tell of neighbours between which the needle is nervous.
func (j *job) closeWarnings(p *plan) []warning {
	var out []warning
	for i := 1; i < len(p.points); i++ {
		a, b := p.points[i-1], p.points[i]
		ohms, swing := math.Abs(b.InputOhms-a.InputOhms), math.Abs(b.Position-a.Position)
		if rate := swing / ohms; ohms > 0 && rate > nervous && swing > nervous {
			out = append(out, warning{"points_close", fmt.Sprintf("Points %s and %s stand %s Ω apart: one ohm of earth more or less there moves the needle by %s %%.", a.Label, b.Label, one(ohms), quantity.Fixed(100*min(rate, swing), 0))})
		}
	}
	return out
}

// needleWarnings tell of marks that the needle cannot reach.
func (j *job) needleWarnings() []warning {
	marks := j.rig.Dial.Marks
	least, most := j.rig.Conditioner.Needle.Ends()
	if marks[0].Position >= least && marks[len(marks)-1].Position <= most {
		return nil
	}
	return []warning{{"needle_short", fmt.Sprintf("gauge.needle goes from %s %% to %s %% of the dial: the marks beyond are out of its reach.", one(100*least), one(100*most))}}
}

// limitWarnings tells of a conditioner that does not take all that the sender
// shows.
func (j *job) limitWarnings() []warning {
	least, most := j.rig.Conditioner.Limits()
	low, high := j.rig.InputAt(j.rig.Level.Low), j.rig.InputAt(j.rig.Level.High)
	if math.Min(low, high) >= least && math.Max(low, high) <= most {
		return nil
	}
	return []warning{{"input_limited", fmt.Sprintf("The terminals see %.4g to %.4g ohm, but the conditioner tells inputs apart only from %.4g to %.4g ohm: beyond, the needle stays put.",
		math.Min(low, high), math.Max(low, high), least, most)}}
}

// blindWarning tells what a mark in a blind band means to the driver.
func (j *job) blindWarning(q calibration.Point, told calibration.Told) warning {
	v, label := j.sys.Volume, q.Label
	if q.End == calibration.LowEnd {
		low := told.Low.Litres
		words := fmt.Sprintf("Mark %s stands for %s, but below %s %s and the needle stays put: on %s there may be up to %s more than it says.", label, v.Text(q.Litres), v.Text(low), j.restsAt(told.Low), label, v.Text(low-q.Litres))
		if !told.Low.Limited {
			words += fmt.Sprintf(" gauge.empty = \"sender\" would let %s mean %s, with %s still usable.", label, v.Text(low), v.Text(low-j.rig.Level.Contents.Unusable))
		}
		return warning{"mark_blind", words}
	}
	high := told.High.Litres
	words := fmt.Sprintf("Mark %s stands for %s, but above %s %s and the needle stays put for the first %s used.", label, v.Text(q.Litres), v.Text(high), j.restsAt(told.High), v.Text(q.Litres-high))
	if !told.High.Limited {
		words += fmt.Sprintf(" gauge.full = \"sender\" would let %s mean %s.", label, v.Text(high))
	}
	return warning{"mark_blind", words}
}
