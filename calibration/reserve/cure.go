package reserve

import (
	"cmp"
	"math"
	"slices"
	"sort"

	"gonum.org/v1/gonum/spatial/r3"

	"floatarc/calibration"
	"floatarc/float"
	"floatarc/geometry"
	"floatarc/volume"
)

// A Cure is a change with which a lamp lights late enough to be of use.
type Cure struct {
	Of     Part
	Toward r3.Vec  // unit vector of the tank frame in which a pickup or a sender is moved
	By     float64 // mm
	Place  r3.Vec  // where the pickup, the pivot or the foot comes to lie
	Share  float64 // of the slopes, of the tolerance or of the reserve
	Litres float64 // in the tank when the lamp then lights on level ground
}

// A Part is what a cure changes.
type Part string

// The parts.
const (
	OfPickup  Part = "pickup"
	OfSender  Part = "sender"
	OfSlopes  Part = "slopes"
	OfReserve Part = "reserve"
	OfSpread  Part = "tolerance"
)

// aims returns with how many litres the lamp shall light at the most on level ground,
// the best first. Where none keeps the promise that is half a tank, for what is left of
// a lamp that lights earlier is little of a warning, then three quarters, then any lamp
// that goes out at all; where one lights with now litres, a quarter less than that, or
// half a tank, then a tenth less.
func (p *Promise) aims(now float64) []float64 {
	full := p.Rig.Tank.Full
	if math.IsNaN(now) {
		return []float64{0.5 * full, 0.75 * full, full}
	}
	return []float64{math.Min(0.5*full, 0.75*now), 0.9 * now}
}

// Cures returns changes, one at a time, with which a lamp keeps the promise, or where
// one does, lighting with now litres on level ground, with which it lights later; now
// is NaN where none does: the pickup or the sender moved the least along an axis of the
// tank, at most two ways each, smaller slopes, of which slopes tells the envelope, a
// smaller tolerance, a smaller reserve. Each is the least that makes the lamp light as
// late as it can make it: by half a tank, or three quarters, or at all. There may be
// none.
func (p *Promise) Cures(now float64, slopes func(share float64) Envelope) ([]Cure, error) {
	stances, err := p.stances(slices.Concat(p.Envelope.Grid(coarseness)...)...)
	if err != nil {
		return nil, err
	}
	var ways []way
	if p.Rig.Tank.LevelOnly == "" { // a tank without a shape has no places
		ways = append(p.ways(OfPickup, stances, p.pickupMoved), p.ways(OfSender, stances, p.senderMoved)...)
	}
	scale := func(q *Promise, share float64) { q.Envelope = slopes(share) }
	var out []Cure
	for _, find := range []func(most float64) []Cure{
		func(most float64) []Cure { return shortest(OfPickup, ways, stances, most) },
		func(most float64) []Cure { return shortest(OfSender, ways, stances, most) },
		func(most float64) []Cure { return p.smaller(OfSlopes, scale, most) },
		func(most float64) []Cure {
			return p.smaller(OfSpread, func(q *Promise, share float64) { q.Tolerance = share * p.Tolerance }, most)
		},
		func(most float64) []Cure {
			if math.IsNaN(now) { // the greatest that can be kept at all
				most = p.Rig.Tank.Full
			}
			return p.smaller(OfReserve, func(q *Promise, share float64) { q.Reserve = share * p.Reserve }, most)
		},
	} {
		for _, most := range p.aims(now) {
			if found := find(most); len(found) > 0 {
				out = append(out, found...)
				break
			}
		}
	}
	return out, nil
}

// cure tells what comes of a promise that was changed, if a lamp keeps it that lights
// with no more than most litres on level ground.
func (p *Promise) cure(c Cure, most float64) (Cure, bool) {
	q := *p
	q.Watch = nil
	w, err := q.Solve()
	if err != nil {
		return c, false
	}
	c.Litres = q.Level(w.Chosen)
	return c, c.Litres <= most
}

// judged returns the litres with which the lamp lights on level ground, judged by some
// attitudes at which the tank was seen with another sender or pickup; +Inf if there
// is none.
func (p *Promise) judged(at []*stance) float64 {
	again := make([]*stance, len(at))
	for i, s := range at {
		again[i] = p.seen(s.Contents)
	}
	s := newSearch(p, &Warning{}, again)
	if s.impossible() != nil {
		return math.Inf(1)
	}
	return s.Level(s.Chosen)
}

// smaller looks for the greatest hundredth of a promise that can be kept: on the
// coarse grid, and then on the fine one, which may leave a little less.
func (p *Promise) smaller(of Part, scale func(q *Promise, share float64), most float64) []Cure {
	if of == OfSpread && p.Tolerance == 0 {
		return nil
	}
	scaled := func(hundredths int) *Promise {
		q := *p
		scale(&q, float64(hundredths)/100)
		return &q
	}
	kept := sort.Search(100, func(hundredths int) bool {
		q := scaled(hundredths + 1)
		stances, err := q.stances(slices.Concat(q.Envelope.Grid(coarseness)...)...)
		return err != nil || q.judged(stances) > most
	})
	for k := min(kept, 99); k > max(0, kept-4); k-- {
		if c, ok := scaled(k).cure(Cure{Of: of, Share: float64(k) / 100}, most); ok {
			return []Cure{c}
		}
	}
	return nil
}

// A move is a promise with something in another place, and where that lies; it
// reports false where it cannot lie.
type move func(toward r3.Vec, by float64) (*Promise, r3.Vec, bool)

// A way is what comes of moving something along an axis, stride by stride.
type way struct {
	of     Part
	toward r3.Vec
	to     move
	places []place // looked at, the nearest first
}

// A place is how far something is moved, and with how many litres the lamp then lights
// on level ground; +Inf where none does.
type place struct{ by, litres float64 }

// Steps in which a move is looked at, at the least and so many at the most, and to
// which it is found, mm; how often the fine grid may lengthen it by that; and how many
// ways to move one thing are told.
const (
	leastStride = 20.
	mostStrides = 40
	near        = 1.
	more        = 6
	mostWays    = 2
)

// ways looks along the six axes, as far as the thing can be moved.
func (p *Promise) ways(of Part, at []*stance, to move) []way {
	axes := []r3.Vec{{X: 1}, {X: -1}, {Y: 1}, {Y: -1}, {Z: 1}, {Z: -1}}
	out := make([]way, len(axes))
	each(len(axes), func(i int) {
		out[i] = way{of: of, toward: axes[i], to: to}
		low, high := p.Rig.Tank.Solid.Extent(axes[i])
		stride := math.Max(leastStride, (high-low)/mostStrides)
		for by := stride; by < high-low; by += stride {
			if q, _, ok := to(axes[i], by); ok {
				out[i].places = append(out[i].places, place{by, q.judged(at)})
				continue
			}
			var furthest *Promise // as far as it goes
			lies, not := by-stride, by
			for not-lies > near {
				if q, _, ok := to(axes[i], (lies+not)/2); ok {
					lies, furthest = (lies+not)/2, q
				} else {
					not = (lies + not) / 2
				}
			}
			if furthest != nil {
				out[i].places = append(out[i].places, place{lies, furthest.judged(at)})
			}
			return
		}
	})
	return out
}

// shortest returns the shortest ways to move one thing so that the lamp lights with
// no more than most litres: on the coarse grid, and then on the fine one, which may
// ask for a little more.
func shortest(of Part, all []way, at []*stance, most float64) []Cure {
	type found struct {
		way
		by float64
	}
	var ways []found
	for _, w := range all {
		if w.of != of {
			continue
		}
		if by, ok := w.least(at, most); ok {
			ways = append(ways, found{w, by})
		}
	}
	slices.SortStableFunc(ways, func(a, b found) int { return cmp.Compare(a.by, b.by) })
	var out []Cure
	for _, w := range ways {
		for by := w.by; by <= w.by+more*near; by += near {
			q, place, ok := w.to(w.toward, by)
			if !ok {
				break
			}
			if c, ok := q.cure(Cure{Of: of, Toward: w.toward, By: by, Place: place}, most); ok {
				out = append(out, c)
				break
			}
		}
		if len(out) == mostWays {
			break
		}
	}
	return out
}

// least returns the least move along a way that cures on the coarse grid.
func (w way) least(at []*stance, most float64) (float64, bool) {
	i := slices.IndexFunc(w.places, func(p place) bool { return p.litres <= most })
	if i < 0 {
		return 0, false
	}
	not, by := 0.0, w.places[i].by
	if i > 0 {
		not = w.places[i-1].by
	}
	for by-not > near {
		mid := (not + by) / 2
		if q, _, ok := w.to(w.toward, mid); ok && q.judged(at) <= most {
			by = mid
		} else {
			not = mid
		}
	}
	return math.Min(math.Ceil(by/near)*near, w.places[i].by), true
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
	tank, ok := geometry.Drawn(p.Rig.Tank.Solid).(float.Container)
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
	if tank, ok := geometry.Drawn(p.Rig.Tank.Solid).(interface{ Encloses(r3.Vec) bool }); ok {
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
	if level := q.level().on(float.Mean); level != nil {
		rig.Level = level
	}
	return &q
}
