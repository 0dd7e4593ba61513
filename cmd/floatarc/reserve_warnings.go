package main

import (
	"fmt"
	"math"

	"floatarc/tanks/quantity"
)

// earlyShare is the share of a full tank above which a lamp on level ground is
// called early.
const earlyShare = 0.4

// takeWarnings takes what a person should know of the lamp.
func (s *lampSheet) takeWarnings() {
	add := func(code, format string, args ...any) {
		s.Warnings = append(s.Warnings, warning{code, fmt.Sprintf(format, args...)})
	}
	v, w, full := s.sys.Volume, s.warning, s.rig.Tank.Full
	least, most := s.rig.Conditioner.Limits()
	needs := w.Unusable.Litres + s.promise.Reserve
	if s.promise.Envelope.Level() {
		add("slopes_missing", "[use] names no slopes: the promise holds on level ground alone. Give grade and side_slope.")
	}
	if s.promise.Tolerance == 0 {
		add("tolerance_missing", "The file gives no sender.resistance.tolerance: the sender is taken to be exact. A new one may be off by 5 %% and more.")
	}
	if w.Chosen.AtStop {
		add("lamp_at_stop", "The float rests on its stop with more than the promise needs: the lamp lights one step of the reading before it, at the latest with %s, where %s would do. A float that reaches lower would make it later.",
			v.Text(w.Latest.Litres), v.Text(needs))
	}
	if w.Earliest.Litres >= full {
		add("lamp_always", "With a sender at its lucky end, %s, the lamp is lit even with a full tank.", slopeWords(w.Earliest.Attitude))
	}
	if float64(s.Warn) > earlyShare*full {
		add("lamp_early", "On level ground the lamp lights with %s %% of a full tank. What makes it so early: %s it must light with %s already, of which %s cannot be drawn standing %s. --cures tells what would make it later.",
			quantity.Fixed(100*float64(s.Warn)/full, 0), atWords(w.Latest.Attitude), v.Text(needs), v.Text(w.Unusable.Litres), slopeWords(w.Unusable.Attitude))
	}
	if s.OffLimited {
		add("off_limited", "A lamp that stays lit on all slopes of ordinary driving would never go out: it goes out half way to full, and may flicker on a slope.")
	}
	if on := float64(s.On); on < least || on > most {
		add("lamp_beyond_box", "The lamp's %.1f ohm lie outside the inputs that the conditioner tells apart: it must be lit by something else.", on)
	}
	if kind := s.file.Fuel.Kind; kind == "avgas" || kind == "kerosene" {
		add("aircraft", "If this is an aircraft: 14 CFR 27.1305 asks for a warning at about 10 minutes of usable fuel, independent of the gauge; 25.1337 and 27.1337 for an indicator that reads zero at the unusable fuel. The figures here do not replace certified practice.")
	}
	if c := s.rig.Contacts(); c != nil {
		at := c.Winding().Width * math.Floor(w.Chosen.Travel/c.Winding().Width+0.5)
		add("lamp_by_contacts", "The stem reads in steps: the lamp lights when the float leaves the contact %s above the foot. No setting lights it in between, so that it may light earlier than the promise needs.", s.sys.Length.Text(at))
	}
	s.Warnings = append(s.Warnings, s.installedWarnings()...)
	if s.plan == nil {
		add("no_points", "The conditioner's points cannot be planned, so that the needle says nothing about the lamp.")
	}
}
