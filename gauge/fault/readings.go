package fault

import (
	"fmt"
	"math"
	"slices"
)

// Readings are what was seen and measured; NaN and empty for what was not. Ohms are +Inf
// where the meter showed an open circuit.
type Readings struct {
	Needle []Symptom
	Fuel   float64 // roughly what is in the tank, a share of full

	AtSender    float64 // ohms across the sender, its plug pulled
	AtGauge     float64 // ohms from the gauge's end of the wire to the battery's minus, the gauge off it
	SenderEmpty float64 // ohms across the sender with the arm at empty
	SenderFull  float64 // and at full
	GaugeEmpty  float64 // ohms at which the gauge by itself stands at empty
	GaugeFull   float64 // and at full
	Earth       float64 // ohms from the sender's body to the battery's minus
	EarthVolts  float64 // volts between the same, engine and pumps running

	Unplugged Move // where the needle goes with the sender's plug pulled
	Earthed   Move // where it goes with the sender's wire held to earth at the tank
}

// Unread returns readings of which none was taken.
func Unread() Readings {
	n := math.NaN()
	return Readings{nil, n, n, n, n, n, n, n, n, n, "", ""}
}

// MostOhms is the most that a meter of a workshop shows before it says open (common
// practice, no source).
const MostOhms = 5e7

// Check refuses what no meter shows.
func (r Readings) Check() error {
	for _, o := range []struct {
		name string
		ohms float64
	}{
		{"ohms at the sender", r.AtSender}, {"ohms at the gauge's end", r.AtGauge}, {"ohms of the sender at empty", r.SenderEmpty}, {"ohms of the sender at full", r.SenderFull},
		{"ohms of the gauge at empty", r.GaugeEmpty}, {"ohms of the gauge at full", r.GaugeFull}, {"ohms of the earth", r.Earth},
	} {
		switch {
		case o.ohms < 0:
			return fmt.Errorf("%s: %g, expected 0 or more (with no current flowing: battery off)", o.name, o.ohms)
		case o.ohms > MostOhms && !math.IsInf(o.ohms, 1):
			return fmt.Errorf("%s: %g, which is more than a meter shows, expected \"open\" for an open circuit", o.name, o.ohms)
		}
	}
	said := func(s Symptom) bool { return slices.Contains(r.Needle, s) }
	switch {
	case said(AlwaysFull) && said(AlwaysEmpty):
		return fmt.Errorf("the needle: always full and always empty, expected one of them")
	case said(Right) && len(r.Needle) > 1:
		return fmt.Errorf("the needle: right, and something else besides, expected one of them")
	case r.Fuel < 0 || r.Fuel > 1:
		return fmt.Errorf("what is in the tank: %g, expected a share from 0 to 1", r.Fuel)
	case math.Abs(r.EarthVolts) > 60:
		return fmt.Errorf("volts in the earth: %g, expected those of a vehicle", r.EarthVolts)
	case math.IsInf(r.GaugeEmpty, 0) || math.IsInf(r.GaugeFull, 0):
		return fmt.Errorf("the gauge's range: open, expected the ohms at which it stands at empty and at full")
	case r.GaugeEmpty == r.GaugeFull:
		return fmt.Errorf("the gauge's range: %g ohm at empty and at full, expected two that differ", r.GaugeEmpty)
	}
	return nil
}

// took tells whether a reading was taken.
func took(v float64) bool { return !math.IsNaN(v) }
