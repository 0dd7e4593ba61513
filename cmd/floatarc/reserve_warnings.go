package main

import (
	"fmt"
	"math"

	"floatarc/tanks/quantity"
)

// earlyShare is the share of a full tank above which a lamp on level ground is
// called early.
const earlyShare = 0.4

// slightest is the slope in degrees below which a share was meant more likely.
const slightest = 1

// takeWarnings takes what a person should know of the lamp.
func (s *lampSheet) takeWarnings() {
	use := s.file.Use
	switch {
	case s.promise.Envelope.Level():
		s.warn("slopes_missing", "[use] names no slopes: the promise holds on level ground alone. Give grade and side_slope.")
	case use.Grade == 0:
		s.warn("slopes_missing", "[use] names no grade: the promise holds on no climb and no descent.")
	case use.SideSlope == 0:
		s.warn("slopes_missing", "[use] names no side_slope: the promise holds on no lean.")
	}
	for _, slope := range []struct {
		key     string
		degrees float64
	}{{"grade", use.Grade}, {"side_slope", use.SideSlope}} {
		if slope.degrees > 0 && slope.degrees < slightest {
			s.warn("slope_slight", "use.%s is %.2g°: a grade in percent takes its sign and quotes, such as \"20 %%\".", slope.key, slope.degrees)
		}
	}
	if s.promise.Tolerance == 0 {
		s.warn("tolerance_missing", "The file gives no sender.resistance.tolerance: the sender is taken to be exact. A new one may be off by 5 %% and more.")
	}
	if kind := s.file.Fuel.Kind; kind == "avgas" || kind == "kerosene" {
		s.warn("aircraft", "If this is an aircraft: 14 CFR 27.1305 asks for a warning at about 10 minutes of usable fuel, independent of the gauge; 25.1337 and 27.1337 for an indicator that reads zero at the unusable fuel. The figures here do not replace certified practice.")
	}
	if s.refused == nil {
		s.warnOfFuel()
		s.warnOfBox()
	}
	s.Warnings = append(s.Warnings, s.installedWarnings()...)
}

func (s *lampSheet) warn(code, format string, args ...any) {
	s.Warnings = append(s.Warnings, warning{code, fmt.Sprintf(format, args...)})
}

// warnOfFuel tells of a lamp that lights early, always or not at all.
func (s *lampSheet) warnOfFuel() {
	v, w, full := s.sys.Volume, s.warning, s.rig.Tank.Full
	needs := w.Unusable.Litres + s.promise.Reserve
	if !math.IsInf(w.Sticks.Angle, 1) {
		s.warn("arm_sticks", "%s an arm that a full tank has lifted beyond %s° stays there as the fuel falls, past the vertical or held by friction, and the lamp never lights. A high stop at or below that angle prevents it.",
			capital(atWords(w.Sticks.Attitude)), one(w.Sticks.Angle))
	}
	if w.Chosen.AtStop {
		s.warn("lamp_at_stop", "The float rests on its stop with more than the promise needs: the lamp lights one step of the reading before it, at the latest with %s, where %s would do. A float that reaches lower would make it later.",
			v.Text(w.Latest.Litres), v.Text(needs))
	}
	if c := s.rig.Contacts(); c != nil {
		s.warn("lamp_by_contacts", "The stem reads in steps: the lamp lights when the float leaves the contact %s above the foot. No setting lights it in between, so that it may light earlier than the promise needs.", s.sys.Length.Text(w.Chosen.Travel))
	}
	if w.Earliest.Litres >= full {
		s.warn("lamp_always", "With a sender at its lucky end, %s, the lamp is lit even with a full tank.", slopeWords(w.Earliest.Attitude))
	}
	if early := float64(s.Warn) > earlyShare*full; early && s.promise.Envelope.Level() {
		s.warn("lamp_early", "The lamp lights with %s %% of a full tank.", quantity.Fixed(100*float64(s.Warn)/full, 0))
	} else if early {
		s.warn("lamp_early", "On level ground the lamp lights with %s %% of a full tank. What makes it so early: %s it must light with %s already, of which %s cannot be drawn standing %s.%s",
			quantity.Fixed(100*float64(s.Warn)/full, 0), atWords(w.Latest.Attitude), v.Text(needs), v.Text(w.Unusable.Litres), slopeWords(w.Unusable.Attitude),
			map[bool]string{true: "", false: " --cures tells what would make it later."}[s.flags.cures])
	}
}

// warnOfBox tells of what the lamp, the conditioner and the needle cannot do.
func (s *lampSheet) warnOfBox() {
	if s.OffLimited {
		s.warn("off_limited", "To bear all of ordinary driving, and what friction and tolerance make of it, the lamp would have to stay lit with a full tank: it goes out earlier, and may flicker.")
	}
	switch box := s.rig.Conditioner; {
	case box.Step <= 0 && box.Inputs == nil:
	case math.IsNaN(float64(s.OnSet)):
		s.warn("on_not_settable", "The conditioner has no setting that lights the lamp as early as the promise needs and still goes out with a full tank.")
	case math.IsNaN(float64(s.OffSet)):
		s.warn("off_not_settable", "The conditioner has no setting between the one that lights the lamp and what a full tank shows, at which it would go out.")
	}
	least, most := s.rig.Conditioner.Limits()
	for _, ohms := range []number{s.On, s.Off} {
		if float64(ohms) < least || float64(ohms) > most {
			s.warn("lamp_beyond_box", "The lamp's %.1f ohm lie outside the inputs that the conditioner tells apart: it must be lit and put out by something else.", float64(ohms))
			break
		}
	}
	if s.unplanned != nil {
		s.warn("no_points", "The needle says nothing about the lamp: %v.", s.unplanned)
	}
}
