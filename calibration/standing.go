package calibration

import "math"

// near is how close to a position, as a share of the dial, a needle stands on it.
const near = 1e-4

// A Span is a range of litres; of no length where it is one quantity.
type Span struct{ Low, High float64 }

// Standing returns with how many litres a needle stands at a position of the dial, where it
// shows so much with each of some rising quantities, straight lines between: once, over a
// span where it stays put, several times, or never.
func Standing(litres, shown []float64, position float64) []Span {
	var out []Span
	on := func(i int) bool { return math.Abs(shown[i]-position) < near }
	for i := 0; i < len(litres); i++ {
		if on(i) {
			from := i
			for i+1 < len(litres) && on(i+1) {
				i++
			}
			out = append(out, Span{litres[from], litres[i]})
			continue
		}
		if i+1 < len(litres) && !on(i+1) && (shown[i] < position) != (shown[i+1] < position) {
			share := (position - shown[i]) / (shown[i+1] - shown[i])
			at := litres[i] + share*(litres[i+1]-litres[i])
			out = append(out, Span{at, at})
		}
	}
	return out
}
