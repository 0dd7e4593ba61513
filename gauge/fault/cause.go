package fault

// A Cause is something that may be wrong.
type Cause string

// The causes. An open and a shorted circuit are told apart by whether the wire or the
// sender is at fault.
const (
	None       Cause = "none"
	OpenWire   Cause = "open circuit in the wire"
	OpenSender Cause = "open circuit in the sender"
	ShortWire  Cause = "wire shorted to earth"
	ShortSend  Cause = "sender shorted to earth"
	WrongRange Cause = "wrong range"
	Reversed   Cause = "reversed sense"
	BadEarth   Cause = "bad earth"
	Joint      Cause = "joint in the wire"
	Sunken     Cause = "sunken float"
	Stuck      Cause = "arm against a wall or a stop"
	Worn       Cause = "worn track"
	TwoGauges  Cause = "two gauges on one sender"
	Pump       Cause = "a pump's current in the sender's return"
	NoFeed     Cause = "gauge without its supply"
)

// priors are how often each cause is met (common practice, no source).
var priors = []struct {
	cause Cause
	often float64
}{
	{None, 0.10}, {OpenWire, 0.09}, {OpenSender, 0.06}, {ShortWire, 0.06}, {ShortSend, 0.03}, {WrongRange, 0.13}, {Reversed, 0.10}, {BadEarth, 0.12},
	{Joint, 0.08}, {Sunken, 0.06}, {Stuck, 0.08}, {Worn, 0.06}, {TwoGauges, 0.03}, {Pump, 0.04}, {NoFeed, 0.04},
}

// A Symptom is what a needle does.
type Symptom string

// The symptoms.
const (
	AlwaysFull  Symptom = "full"
	AlwaysEmpty Symptom = "empty"
	Backwards   Symptom = "backwards"
	StaysPut    Symptom = "stuck"
	Jumps       Symptom = "jumps"
	Drifts      Symptom = "drifts"      // with the engine running
	RightFull   Symptom = "right-full"  // right when full, wrong below
	RightEmpty  Symptom = "right-empty" // right when empty, wrong above
	Right       Symptom = "right"
)

// Symptoms are all of them.
var Symptoms = []Symptom{AlwaysFull, AlwaysEmpty, Backwards, StaysPut, Jumps, Drifts, RightFull, RightEmpty, Right}

// A Move is where a needle goes when something is done to the sender's wire.
type Move string

// The moves.
const (
	ToFull  Move = "full"
	ToEmpty Move = "empty"
	Stays   Move = "stays"
)
