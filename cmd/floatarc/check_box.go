package main

import (
	"fmt"
	"math"

	"floatarc/gauge"
	"floatarc/tanks/quantity"
)

// boxFigures tell what the conditioner makes of its input; null where they do not
// apply or the file does not tell.
type boxFigures struct {
	Places     int    `json:"points"`
	PullUp     number `json:"pull_up_ohms"`
	Span       number `json:"span_pct"` // of the supply, between the sender's ends
	BestPullUp number `json:"best_pull_up_ohms"`
	BestSpan   number `json:"best_span_pct"`
	Amps       number `json:"milliamperes"` // most, through the sender
	Watts      number `json:"milliwatts"`   // most, in the sender
	BestAmps   number `json:"best_milliamperes"`
	BestWatts  number `json:"best_milliwatts"`
	PullUpOff  number `json:"pull_up_tolerance_l"`
	PerCount   number `json:"per_count_l"`
}

func (j *job) boxFigures() boxFigures {
	b := boxFigures{
		Places: j.rig.Conditioner.Places,
		PullUp: unknown, Span: unknown, BestPullUp: unknown, BestSpan: unknown, Amps: unknown, Watts: unknown, BestAmps: unknown, BestWatts: unknown,
		PullUpOff: unknown, PerCount: unknown,
	}
	box := j.file.Conditioner
	if box.Divider() == nil {
		return b
	}
	low, high := j.rig.InputAt(j.rig.Level.Low), j.rig.InputAt(j.rig.Level.High)
	low, high = math.Min(low, high), math.Max(low, high)
	b.PullUp, b.Span = number(box.Divider().PullUp), number(100*box.Divider().Span(low, high))
	better := gauge.Divider{PullUp: gauge.BestPullUp(low, high)}
	if low > 0 {
		b.BestPullUp, b.BestSpan = number(better.PullUp), number(100*better.Span(low, high))
	}
	if volts := box.Feed.Supply; volts > 0 {
		b.Amps, b.Watts = number(1e3*box.Divider().Amperes(volts, low)), number(1e3*box.Divider().MostWatts(volts, low, high))
		if low > 0 {
			b.BestAmps, b.BestWatts = number(1e3*better.Amperes(volts, low)), number(1e3*better.MostWatts(volts, low, high))
		}
	}
	if box.Feed.Tolerance > 0 {
		b.PullUpOff = number(j.rig.Misread(box.Feed.Tolerance))
	}
	if box.Feed.Converter != nil {
		if t, err := j.rig.Lookup(countRows, j.file.Sender.Tolerance); err == nil {
			b.PerCount = number(t.PerCount)
		}
	}
	return b
}

// countRows is into how many parts the counts are told for what one is worth.
const countRows = 9

// readBackBox tells what a divider does.
func (j *job) readBackBox(b boxFigures) []string {
	if j.file.Conditioner.Divider() == nil {
		return nil
	}
	v := j.sys.Volume
	line := fmt.Sprintf("Conditioner: the pull-up of %g ohm spreads the sender over %s %% of the supply", float64(b.PullUp), one(float64(b.Span)))
	if !math.IsNaN(float64(b.BestPullUp)) {
		line += fmt.Sprintf("; one of %s ohm would spread it the furthest, over %s %%", quantity.Fixed(float64(b.BestPullUp), 0), one(float64(b.BestSpan)))
	}
	line += "."
	if volts := j.file.Conditioner.Feed.Supply; volts > 0 {
		line += fmt.Sprintf(" At %g V up to %s mA and %s mW in the sender", volts, one(float64(b.Amps)), one(float64(b.Watts)))
		if !math.IsNaN(float64(b.BestAmps)) {
			line += fmt.Sprintf(", with the other one %s mA and %s mW", one(float64(b.BestAmps)), one(float64(b.BestWatts)))
		}
		line += ": stay below what the sender bears."
	}
	out := []string{line}
	if !math.IsNaN(float64(b.PerCount)) {
		out = append(out, fmt.Sprintf("One count of the %d bit converter stands for at most %s.", j.file.Conditioner.Feed.Converter.Bits, v.Finer(1).Text(float64(b.PerCount))))
	}
	if c := j.file.Conditioner.Feed.Converter; c != nil && c.Full < 1 {
		out = append(out, fmt.Sprintf("The converter is full at %s %% of the supply: with an open wire its pin sees all of the supply, which it must bear.", one(100*c.Full)))
	}
	if !math.IsNaN(float64(b.PullUpOff)) {
		out = append(out, fmt.Sprintf("The pull-up's tolerance of ±%s %% stands for up to %s: measure the one that you fit, and write its ohms.", one(100*j.file.Conditioner.Feed.Tolerance), v.Text(float64(b.PullUpOff))))
	}
	return out
}
