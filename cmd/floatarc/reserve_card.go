package main

import (
	"fmt"
	"io"
	"math"

	"floatarc/tanks/quantity"
)

// A cardRow is a quantity and what is left with it.
type cardRow struct {
	Litres     number `json:"litres"`
	Position   number `json:"position"`       // where the needle stands with the points; where it must stand, without
	Usable     number `json:"usable_l"`       // on level ground
	Worst      number `json:"usable_worst_l"` // on the worst slope
	Range      number `json:"range_km"`
	RangeWorst number `json:"range_worst_km"`
	Hours      number `json:"range_h"`
	HoursWorst number `json:"range_worst_h"`
	Lamp       bool   `json:"lamp"` // where it lights on level ground
}

// cardLines is about how many lines a card has.
const cardLines = 10

// cardRows are round quantities from full to dry, and that at which the lamp lights.
func (s *lampSheet) cardRows() []cardRow {
	v := s.sys.Volume
	full, lamp := s.rig.Tank.Full, float64(s.Warn)
	per := full / v.Of(full)
	step := round125(v.Of(full)/cardLines) * per
	out := []cardRow{s.cardRow(full, false)}
	least := s.rig.Level.Contents.Unusable
	for k := math.Ceil(full/step) - 1; k*step > least; k-- {
		if litres := k * step; full-litres > step/4 {
			if above := float64(out[len(out)-1].Litres); lamp < above && lamp > litres {
				out = append(out, s.cardRow(lamp, true))
			}
			out = append(out, s.cardRow(litres, litres == lamp))
		}
	}
	if last := float64(out[len(out)-1].Litres); lamp < last {
		out = append(out, s.cardRow(lamp, true))
	}
	return out
}

// round125 returns the nearest of 1, 2 and 5 times a power of ten.
func round125(x float64) float64 {
	power := math.Pow(10, math.Floor(math.Log10(x)))
	best := power
	for _, k := range []float64{2, 5, 10} {
		if math.Abs(k*power-x) < math.Abs(best-x) {
			best = k * power
		}
	}
	return best
}

func (s *lampSheet) cardRow(litres float64, lamp bool) cardRow {
	use := s.file.Use
	level, worst := math.Max(0, litres-s.rig.Level.Contents.Unusable), math.Max(0, litres-s.warning.Unusable.Litres)
	return cardRow{
		Litres: number(litres), Position: number(s.shown(litres)), Usable: number(level), Worst: number(worst),
		Range: number(use.Range(level)), RangeWorst: number(use.Range(worst)),
		Hours: number(use.Hours(level)), HoursWorst: number(use.Hours(worst)), Lamp: lamp,
	}
}

// shown returns where the needle stands on level ground: with the points, where there
// are any.
func (s *lampSheet) shown(litres float64) float64 {
	if s.plan == nil {
		return s.rig.Dial.Position(s.rig.Dial.Share(litres))
	}
	return s.plan.lines.Show(s.rig.Input(s.rig.Level, litres))
}

// writeCard prints the card: what is left as a distance or a time, or in litres where
// the file gives no consumption.
func (s *lampSheet) writeCard(w io.Writer) {
	v := s.sys.Volume
	left, unit := s.lasts, ""
	if use := s.file.Use; use.PerDistance == 0 && use.PerTime == 0 {
		left, unit = v.Number, " "+v.Symbol
	}
	writeWrapped(w, "", fmt.Sprintf("When the lamp comes on, count on %s, on whatever slope.", s.promised()))
	fmt.Fprintln(w)
	g := grid{heads: []string{"in the tank " + v.Symbol, "needle", "level ground" + unit, "worst slope" + unit, ""}, notes: true}
	for _, r := range s.Table {
		note := ""
		if r.Lamp {
			note = "lamp, on level ground"
		}
		g.add(v.Number(float64(r.Litres)), s.place(float64(r.Position)), left(float64(r.Usable)), left(float64(r.Worst)), note)
	}
	g.write(w)
	fmt.Fprintln(w)
	writeWrapped(w, "", s.rateWords()+" The worst slope is "+slopeWords(s.warning.Unusable.Attitude)+". A guide, not a promise: what the engine takes changes with load, wind and road.")
}

// rateWords tells the consumption in the units that people read.
func (s *lampSheet) rateWords() string {
	use, v := s.file.Use, s.sys.Volume
	switch {
	case use.PerDistance > 0 && s.sys.Name == quantity.Metric.Name:
		return fmt.Sprintf("At %s L/100km.", one(use.PerDistance))
	case use.PerDistance > 0:
		return fmt.Sprintf("At %s %s to the %s.", one(s.sys.Distance.Of(100)/v.Of(use.PerDistance)), s.sys.Distance.Symbol, v.Symbol)
	case use.PerTime > 0:
		return fmt.Sprintf("At %s %s an hour.", one(v.Of(use.PerTime)), v.Symbol)
	}
	return "The file gives no consumption."
}
