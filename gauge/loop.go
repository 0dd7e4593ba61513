package gauge

import "math"

// A Loop is the current's way through a gauge and its sender: from the battery through
// the gauge and the wire to the sender, and through the sender's earth back.
type Loop struct {
	Battery float64 // V
	Coil    float64 // of the gauge, between the battery and its sender terminal, ohm
	Wire    float64 // between that terminal and the sender, joints included, ohm
	Sender  float64 // ohm; +Inf for an open one
	Return  float64 // between the sender's body and the battery's minus, ohm
	Second  float64 // coil of a second gauge that joins at the sender, ohm; 0 for none
	Shared  float64 // A that another consumer, a pump, sends through the same return
}

// Seen returns the ohms for which the gauge takes what hangs on its sender terminal: the
// volts there over its own current. Kirchhoff's laws give for the current through the
// sender
//
//	i = G (V - Shared Return) / (1 + G (Sender + Return)),  G = 1/(Coil+Wire) + 1/Second
//
// It is +Inf where no current flows.
func (l Loop) Seen() float64 {
	g, i := l.current()
	if i == 0 {
		return math.Inf(1)
	}
	node := i*l.Sender + (i+l.Shared)*l.Return // volts at the sender's terminal
	own := i / (g * (l.Coil + l.Wire))
	return node/own + l.Wire
}

// ReturnVolts returns the volts between the sender's body and the battery's minus.
func (l Loop) ReturnVolts() float64 {
	_, i := l.current()
	return (i + l.Shared) * l.Return
}

// current returns the conductance that feeds the sender and the current through it.
func (l Loop) current() (g, i float64) {
	g = 1 / (l.Coil + l.Wire)
	if l.Second > 0 {
		g += 1 / l.Second
	}
	if math.IsInf(l.Sender, 1) || math.IsInf(l.Wire, 1) || math.IsInf(l.Return, 1) {
		return g, 0
	}
	return g, g * (l.Battery - l.Shared*l.Return) / (1 + g*(l.Sender+l.Return))
}
