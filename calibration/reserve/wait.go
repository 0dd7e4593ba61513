package reserve

import "floatarc/volume"

// cycles is how many periods of the slosh a lamp waits for (common practice, no
// source).
const cycles = 5

// A Wait is how long a reading must last before the lamp follows it.
type Wait struct {
	Seconds float64
	Cycles  int // of the slosh
	volume.Slosh
}

// Wait returns how long the lamp of a choice waits: some periods of the slosh at the
// level at which it lights. It reports false where the tank has no shape.
func (p *Promise) Wait(c Choice) (Wait, bool) {
	level := p.Rig.Level.Contents
	slosh, ok := level.Slosh(level.Level(p.Level(c)))
	return Wait{Seconds: cycles * slosh.Period, Cycles: cycles, Slosh: slosh}, ok
}
