package reserve

import (
	"math"
	"slices"
)

// Settings returns the inputs that the conditioner can be set to in place of on and
// off, such that the lamp lights and goes out with as much fuel or more, or goes out as
// late as a full tank on level ground lets it; NaN where the conditioner tells none, or
// has none.
func (p *Promise) Settings(on, off float64) (onSet, offSet float64) {
	none := math.NaN()
	reaches := func(input float64) func(float64) bool { // but for a rounding
		return func(v float64) bool { return !p.fuller(input, v) || math.Abs(v-input) < 1e-9*(1+v) }
	}
	all := p.settings()
	furthest := p.outAtFull(p.level(), nominal)
	beyond := slices.IndexFunc(all, func(v float64) bool { return p.fuller(v, furthest) })
	if beyond >= 0 {
		all = all[:beyond] // what is left, a full tank passes
	}
	first := slices.IndexFunc(all, reaches(on))
	if first < 0 || all[first] == furthest {
		return none, none // it would never go out
	}
	onSet, all = all[first], all[first+1:]
	if len(all) == 0 {
		return onSet, none
	}
	if i := slices.IndexFunc(all, reaches(off)); i >= 0 {
		return onSet, all[i]
	}
	return onSet, all[len(all)-1]
}

// settings returns the inputs that the conditioner can be set to, those for less fuel
// first; none if it does not tell.
func (p *Promise) settings() []float64 {
	if box := p.Rig.Conditioner; box.Inputs == nil && box.Step <= 0 {
		return nil
	}
	all := p.Rig.Settings()
	if p.Falls() {
		slices.Reverse(all)
	}
	return all
}
