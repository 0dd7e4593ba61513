package gauge

import (
	"fmt"
	"math"
)

// Copper: resistivity of the International Annealed Copper Standard at 20 degC
// (1/58 ohm mm²/m) and its rise with temperature (IEC 60028, 1925; NBS Handbook
// 100, 1966, sec. 1.1b; both from memory).
const (
	copper        = 0.017241 // ohm mm²/m
	copperPerDegC = 0.00393
)

// AWG returns the area in mm² of an American wire gauge, 0 to 40, by its
// diameter d = 0.005 in · 92^((36-n)/39) (ASTM B258).
func AWG(n float64) (area float64, err error) {
	if !(n >= 0 && n <= 40) {
		return 0, fmt.Errorf("AWG %g, expected 0 to 40", n)
	}
	d := 0.127 * math.Pow(92, (36-n)/39)
	return math.Pi / 4 * d * d, nil
}

// A Wire is a copper wire.
type Wire struct {
	Length      float64 // one way, m
	Area        float64 // mm²
	Temperature float64 // degC
}

// Ohms returns the resistance of the wire, one way; 0 for no length.
func (w Wire) Ohms() float64 {
	if w.Length == 0 {
		return 0
	}
	return copper * w.Length / w.Area * (1 + copperPerDegC*(w.Temperature-20))
}

// Wiring is what lies between the sender and the terminals of the conditioner
// or gauge.
type Wiring struct {
	Wire   Wire
	Ground float64 // return path and joints, ohm
	// Installed is the wiring as it was measured, which then counts instead.
	Installed *Installed
}

// With returns the wiring with so many ohms more in it.
func (w Wiring) With(ohms float64) Wiring {
	if w.Installed != nil {
		more := *w.Installed
		more.Offset += ohms
		w.Installed = &more
		return w
	}
	w.Ground += ohms
	return w
}

// Seeing returns the wiring as it looks with a sender whose ohms are a factor more than
// they are meant to be.
func (w Wiring) Seeing(factor float64) Wiring {
	in := Installed{Offset: w.Input(0), Scale: factor}
	if w.Installed != nil {
		in.Scale *= w.Installed.Scale
	}
	w.Installed = &in
	return w
}

// Input returns the resistance at the terminals for one at the sender.
func (w Wiring) Input(sender float64) float64 {
	if w.Installed != nil {
		return w.Installed.Input(sender)
	}
	return sender + w.Wire.Ohms() + w.Ground
}

// Sender returns the resistance at the sender for one at the terminals.
func (w Wiring) Sender(input float64) float64 {
	if w.Installed != nil {
		return w.Installed.Sender(input)
	}
	return input - w.Wire.Ohms() - w.Ground
}
