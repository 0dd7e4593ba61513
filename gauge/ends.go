package gauge

import "math"

// A Margin says where an end mark of the dial stands: so many litres from the
// end of the usable fuel, or where the sender's live band ends.
type Margin struct {
	Litres float64
	Sender bool
}

// Ends returns the litres in the tank when the needle is on the empty and on
// the full mark. The unusable litres, those of a full tank and the live band
// are those of level ground. An empty mark at the sender's end is never below
// the unusable fuel: the engine would stop above E.
func Ends(unusable, full, liveLow, liveHigh float64, empty, short Margin) (low, high float64) {
	low, high = unusable+empty.Litres, full-short.Litres
	if empty.Sender {
		low = math.Max(liveLow, unusable)
	}
	if short.Sender {
		high = math.Min(liveHigh, full)
	}
	return low, high
}
