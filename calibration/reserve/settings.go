package reserve

import "math"

// Settings returns the inputs that the conditioner can be set to in place of on and
// off, such that the lamp lights and goes out with as much fuel or more, or goes out as
// late as a full tank on level ground lets it; NaN where the conditioner tells none, or
// has none.
func (p *Promise) Settings(on, off float64) (onSet, offSet float64) {
	box := p.Rig.Conditioner
	fuller, emptier := box.SettingAbove, box.SettingBelow
	less := math.Max(box.Step/2, 1e-9*(1+on)) // than to the next setting
	if p.Falls() {
		fuller, emptier, less = emptier, fuller, -less
	}
	furthest := p.outAtFull(p.level(), nominal)
	if onSet = fuller(on); !p.fuller(furthest, onSet) {
		return math.NaN(), math.NaN() // it would never go out
	}
	switch offSet = fuller(off); {
	case p.fuller(offSet, furthest) || math.IsNaN(offSet):
		offSet = emptier(furthest)
	case !p.fuller(offSet, onSet):
		offSet = fuller(onSet + less)
	}
	if !p.fuller(offSet, onSet) || p.fuller(offSet, furthest) {
		offSet = math.NaN()
	}
	return onSet, offSet
}
