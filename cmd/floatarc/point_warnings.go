package main

import (
	"fmt"
	"math"
	"strings"

	"floatarc/calibration"
	"floatarc/tanks/quantity"
)

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
	return append(out, j.installedWarnings()...)
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
