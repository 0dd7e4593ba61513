package reserve

import (
	"cmp"
	"math"
	"slices"
	"sort"

	"gonum.org/v1/gonum/spatial/r3"

	"floatarc/calibration"
	"floatarc/float"
	"floatarc/volume"
)

// A Cure is a change with which a promise that no lamp keeps can be kept.
type Cure struct {
	Of     Part
	Toward r3.Vec  // unit vector of the tank frame in which a pickup or a sender is moved
	By     float64 // mm
	Place  r3.Vec  // where the pickup, the pivot or the foot comes to lie
	// Envelope and Reserve (litres) are those with which the promise can be kept.
	Envelope Envelope
	Reserve  float64
	Litres   float64 // in the tank when the lamp then lights on level ground
}

// A Part is what a cure changes.
type Part string

// The parts.
const (
	OfPickup   Part = "pickup"
	OfSender   Part = "sender"
	OfEnvelope Part = "envelope"
	OfReserve  Part = "reserve"
)

// Cures returns changes, one at a time, with which the promise can be kept: the
// pickup or the sender moved the least along an axis of the tank, at most two ways
// each, smaller slopes, a smaller reserve. There may be none.
func (p *Promise) Cures() ([]Cure, error) {
	stances, err := p.stances(slices.Concat(p.Envelope.Grid(coarseness)...)...)
	if err != nil {
		return nil, err
	}
	out := append(p.moves(OfPickup, stances, p.pickupMoved), p.moves(OfSender, stances, p.senderMoved)...)
	out = append(out, p.smaller(OfEnvelope, func(q *Promise, share float64) { q.Envelope = p.Envelope.Scaled(share) })...)
	return append(out, p.smaller(OfReserve, func(q *Promise, share float64) { q.Reserve = share * p.Reserve })...), nil
}

// cure tells what comes of a promise that was changed, if it can be kept.
func (p *Promise) cure(c Cure) (Cure, bool) {
	q := *p
	q.Watch = nil
	w, err := q.Solve()
	if err != nil {
		return c, false
	}
	c.Envelope, c.Reserve, c.Litres = q.Envelope, q.Reserve, q.Level(w.Chosen)
	return c, true
}

// smaller looks for the greatest hundredth of a promise that can be kept: on the
// coarse grid, and then on the fine one, which may leave a little less.
func (p *Promise) smaller(of Part, scale func(q *Promise, share float64)) []Cure {
	scaled := func(hundredths int) *Promise {
		q := *p
		scale(&q, float64(hundredths)/100)
		return &q
	}
	kept := sort.Search(100, func(hundredths int) bool {
		q := scaled(hundredths + 1)
		stances, err := q.stances(slices.Concat(q.Envelope.Grid(coarseness)...)...)
		return err != nil || !q.keeps(stances)
	})
	for k := kept; k > max(0, kept-4); k-- {
		if c, ok := scaled(k).cure(Cure{Of: of}); ok {
			return []Cure{c}
		}
	}
	return nil
}

// A move is a promise with something in another place, and where that lies; it
// reports false where it cannot lie.
type move func(toward r3.Vec, by float64) (*Promise, r3.Vec, bool)

// ways is how many ways to move one thing are told.
const ways = 2

// moves looks for the shortest moves that cure: on the coarse grid, and then on the
// fine one, which may ask for a little more.
func (p *Promise) moves(of Part, at []*stance, to move) []Cure {
	axes := []r3.Vec{{X: 1}, {X: -1}, {Y: 1}, {Y: -1}, {Z: 1}, {Z: -1}}
	found := make([]Cure, len(axes))
	each(len(axes), func(i int) {
		by, ok := p.leastMove(at, axes[i], to)
		if !ok {
			by = math.Inf(1)
		}
		found[i] = Cure{Of: of, Toward: axes[i], By: by}
	})
	found = slices.DeleteFunc(found, func(c Cure) bool { return math.IsInf(c.By, 1) })
	slices.SortStableFunc(found, func(a, b Cure) int { return cmp.Compare(a.By, b.By) })
	var out []Cure
	for _, c := range found {
		for range 4 {
			q, place, ok := to(c.Toward, c.By)
			if !ok {
				break
			}
			c.Place = place
			if c, ok = q.cure(c); ok {
				out = append(out, c)
				break
			}
			c.By += more
		}
		if len(out) == ways {
			break
		}
	}
	return out
}

// Steps in which a move is looked for, to which it is found, and by which the fine
// grid lengthens it, mm.
const (
	stride = 20.
	near   = 1.
	more   = 3.
)

// leastMove looks for the shortest way in a direction that cures on the stances.
func (p *Promise) leastMove(at []*stance, toward r3.Vec, to move) (float64, bool) {
	low, high := p.Rig.Tank.Solid.Extent(toward)
	cures := func(by float64) (possible, cured bool) {
		q, _, ok := to(toward, by)
		return ok, ok && q.keeps(at)
	}
	for by := stride; by < high-low; by += stride {
		possible, cured := cures(by)
		switch {
		case !possible:
			return 0, false
		case cured:
			not := by - stride
			for by-not > near {
				if _, also := cures((not + by) / 2); also {
					by = (not + by) / 2
				} else {
					not = (not + by) / 2
				}
			}
			return math.Ceil(by/near) * near, true
		}
	}
	return 0, false
}

// keeps tells whether there is a lamp that keeps the promise at some attitudes, at
// which the tank was seen with another sender or pickup.
func (p *Promise) keeps(at []*stance) bool {
	again := make([]*stance, len(at))
	for i, s := range at {
		contents := *s.Contents
		contents.Unusable = p.Rig.Tank.Pickup.Unusable(&contents)
		again[i] = &stance{Promise: p, Contents: &contents, related: map[float.Sense]*volume.Relation{}}
	}
	return newSearch(p, &Warning{}, again).impossible() == nil
}

// pickupMoved moves the draw point.
func (p *Promise) pickupMoved(toward r3.Vec, by float64) (*Promise, r3.Vec, bool) {
	from, ok := p.Rig.Tank.Pickup.(volume.DrawPoint)
	place := r3.Add(r3.Vec(from), r3.Scale(by, toward))
	if !ok || !p.encloses(place) {
		return nil, place, false
	}
	tank := *p.Rig.Tank
	tank.Pickup = volume.DrawPoint(place)
	q := p.with(func(r *calibration.Rig) { r.Tank = &tank })
	return q, place, true
}

// senderMoved moves the whole sender, as far as the tank leaves its float free.
func (p *Promise) senderMoved(toward r3.Vec, by float64) (*Promise, r3.Vec, bool) {
	tank, ok := p.Rig.Tank.Solid.(float.Container)
	if !ok {
		return nil, r3.Vec{}, false
	}
	shift := r3.Scale(by, toward)
	switch s := p.Rig.Sender.(type) {
	case *float.Arm:
		arm := s.Moved(shift)
		swing, err := arm.Swing(tank)
		if err != nil || !p.encloses(arm.Pivot) {
			return nil, arm.Pivot, false
		}
		return p.with(func(r *calibration.Rig) { r.Sender, r.Low, r.High = arm, swing.Low, swing.High }), arm.Pivot, true
	case *float.Rod:
		rod := s.Moved(shift)
		if !tank.Contains(rod.Foot) || !tank.Contains(rod.Head) {
			return nil, rod.Foot, false
		}
		return p.with(func(r *calibration.Rig) { r.Sender = rod }), rod.Foot, true
	}
	return nil, r3.Vec{}, false
}

// encloses tells whether a place is inside the tank; a pump module's counts.
func (p *Promise) encloses(place r3.Vec) bool {
	if tank, ok := p.Rig.Tank.Solid.(interface{ Encloses(r3.Vec) bool }); ok {
		return tank.Encloses(place)
	}
	return p.Rig.Tank.Solid.Contains(place)
}

// with returns the promise of a rig that differs.
func (p *Promise) with(change func(*calibration.Rig)) *Promise {
	rig := *p.Rig
	change(&rig)
	q := *p
	q.Rig = &rig
	return &q
}
