package fullsize

import "math"

// A piece is a part of the strip that fits on a page: from its lower cut to its upper
// one, mm above the foot. All but the last end with a tab that the next one is glued on.
type piece struct {
	letter   string
	before   string // letter of the piece below
	next     string // letter of the piece above
	from, to float64
	tab      bool
}

// joint is where the next piece begins.
func (p piece) joint() float64 { return p.to - tabLength }

// Lengths of the pieces, mm.
const (
	tabLength  = 10.0
	jointClear = 2.6 // of the middle of any label
	jointRange = 25.0
)

// cutUp cuts a strip of a length into pieces no longer than the room on a page. No joint
// cuts a label, and none lies above the highest tick.
func cutUp(length, highest, room float64, labels []float64) []piece {
	var out []piece
	for from := 0.0; ; {
		n := len(out)
		p := piece{letter: letter(n), before: letter(max(0, n-1)), next: letter(n + 1), from: from, to: length}
		if length-from <= room {
			return append(out, p)
		}
		last := math.Max(math.Min(from+room-tabLength, highest-jointClear), from+tabLength)
		from = clearOf(labels, math.Max(from+tabLength, last-jointRange), last, jointClear)
		p.to, p.tab = from+tabLength, true
		out = append(out, p)
	}
}

// letter names the pieces: A, B … Z, A2, B2 …
func letter(i int) string {
	out := string(rune('A' + i%26))
	if i >= 26 {
		out += string(rune('1' + i/26))
	}
	return out
}
