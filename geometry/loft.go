package geometry

import (
	"fmt"
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// A Station is a section of a loft: the corners of a polygon in the (u, v) plane
// at a place along w, mm.
type Station struct {
	At     float64
	Points []r2.Vec
}

// A Loft is a solid ruled between stations: each corner, and each point of each
// edge, runs straight to its counterpart in the next station, so that every
// section between two stations is their mean in proportion to the distance. Its
// sides are ruled surfaces (hyperbolic paraboloids where two edges are not
// parallel).
type Loft struct {
	stations []Station
	size     float64 // greatest extent, mm
	volume   float64 // mm³
}

// midSections is the number of sections looked at between two stations for
// edges that cross.
const midSections = 8

// NewLoft returns the loft of stations in order of At. It refuses, with a
// [DimensionError] that names the station ("stations[1]"), fewer than two
// stations, places that do not rise, unlike counts of corners or senses of
// turning, and sections that cross themselves, between stations too. The first
// and the last section may shrink to an edge or a point.
func NewLoft(stations []Station) (*Loft, error) {
	if len(stations) < 2 {
		return nil, wrong("stations", "%d of them, expected two or more", len(stations))
	}
	own := make([]Station, len(stations))
	sense := 0.0
	for i, s := range stations {
		area, err := checkStation(stations, i)
		if err != nil {
			return nil, err
		}
		if area*sense < 0 {
			return nil, wrong(stationName(i), "its corners run the other way round than those before, expected the same sense in every station")
		}
		sense += area
		own[i] = Station{At: s.At, Points: slices.Clone(s.Points)}
	}
	if sense < 0 {
		for i := range own {
			slices.Reverse(own[i].Points)
		}
	}
	l := &Loft{stations: own}
	if err := l.checkBetween(); err != nil {
		return nil, err
	}
	for _, axis := range []r3.Vec{{X: 1}, {Y: 1}, {Z: 1}} {
		lo, hi := l.Extent(axis)
		l.size = math.Max(l.size, hi-lo)
	}
	l.volume = l.Cut(up).Volume(own[len(own)-1].At)
	return l, nil
}

func stationName(i int) string { return fmt.Sprintf("stations[%d]", i) }

// checkStation refuses an impossible station, and returns the signed area of the
// others.
func checkStation(stations []Station, i int) (area float64, err error) {
	s, name := stations[i], stationName(i)
	if !(math.Abs(s.At) <= largest) {
		return 0, wrong(name+".at", "%g, expected a place within ±%g mm", s.At, float64(largest))
	}
	if i > 0 && !(s.At > stations[i-1].At) {
		return 0, wrong(name+".at", "%g mm is not beyond the station before it, at %g mm, expected rising places", s.At, stations[i-1].At)
	}
	if n := len(stations[0].Points); len(s.Points) != n || n < 3 {
		return 0, wrong(name+".points", "%d corners, expected three or more, and as many in every station (the first has %d)", len(s.Points), n)
	}
	corners := make([]Corner, len(s.Points))
	for j, p := range s.Points {
		if !(math.Abs(p.X) <= largest) || !(math.Abs(p.Y) <= largest) {
			return 0, wrong(fmt.Sprintf("%s.points[%d]", name, j), "(%g, %g), expected coordinates within ±%g mm", p.X, p.Y, float64(largest))
		}
		corners[j] = Corner{U: p.X, V: p.Y}
	}
	area = enclosed(corners)
	if inLine(s.Points) {
		if i > 0 && i < len(stations)-1 {
			return 0, wrong(name+".points", "the section encloses nothing, expected that of the first or last station only")
		}
		return 0, nil
	}
	if err := checkSection(s.Points); err != nil {
		return 0, wrong(name+".points", "%v", err)
	}
	return area, nil
}

// inLine tells whether points lie on one line, or in one place.
func inLine(points []r2.Vec) bool {
	far := r2.Vec{} // from the first point
	for _, p := range points {
		if d := r2.Sub(p, points[0]); r2.Norm2(d) > r2.Norm2(far) {
			far = d
		}
	}
	for _, p := range points {
		if math.Abs(r2.Cross(far, r2.Sub(p, points[0]))) > 1e-12*r2.Norm2(far) {
			return false
		}
	}
	return true
}

// checkSection refuses a polygon whose edges cross. Corners that repeat the one
// before them are no edge: two stations may have unlike numbers of real corners.
func checkSection(points []r2.Vec) error {
	var corners []Corner
	for i, p := range points {
		if p != points[(i+len(points)-1)%len(points)] {
			corners = append(corners, Corner{U: p.X, V: p.Y})
		}
	}
	if len(corners) < 3 {
		return nil
	}
	if err := checkCrossings(corners); err != nil {
		return fmt.Errorf("the section's edges meet or cross, expected an outline that does not touch itself")
	}
	return nil
}

// checkBetween refuses stations between which the sections cross themselves.
func (l *Loft) checkBetween() error {
	for i := range l.stations[1:] {
		for k := 1; k < midSections; k++ {
			w := l.stations[i].At + (l.stations[i+1].At-l.stations[i].At)*float64(k)/midSections
			points := l.section(i, w)
			if err := checkSection(points); err != nil || inLine(points) {
				return wrong(stationName(i+1)+".points", "between this station and the one before, at %.4g mm, the ruled section crosses itself, expected corners in the same order, each across from its own", w)
			}
		}
	}
	return nil
}

// section returns the section at w between stations i and i+1.
func (l *Loft) section(i int, w float64) []r2.Vec {
	a, b := l.stations[i], l.stations[i+1]
	t := (w - a.At) / (b.At - a.At)
	out := make([]r2.Vec, len(a.Points))
	for j := range out {
		out[j] = r2.Add(r2.Scale(1-t, a.Points[j]), r2.Scale(t, b.Points[j]))
	}
	return out
}

// between returns the first of the two stations around w.
func (l *Loft) between(w float64) int {
	i := 0
	for i < len(l.stations)-2 && l.stations[i+1].At <= w {
		i++
	}
	return i
}

// Extent implements [Solid]; the ends of n·p are corners of stations.
func (l *Loft) Extent(n r3.Vec) (lo, hi float64) {
	lo, hi = math.Inf(1), math.Inf(-1)
	for _, s := range l.stations {
		for _, p := range s.Points {
			h := n.X*p.X + n.Y*p.Y + n.Z*s.At
			lo, hi = math.Min(lo, h), math.Max(hi, h)
		}
	}
	return lo, hi
}

// Contains implements [Solid]; p is (u, v, w).
func (l *Loft) Contains(p r3.Vec) bool {
	slack := Nearness * l.size
	first, last := l.stations[0].At, l.stations[len(l.stations)-1].At
	if p.Z < first-slack || p.Z > last+slack {
		return false
	}
	w := math.Max(first, math.Min(last, p.Z))
	points := l.section(l.between(w), w)
	q := r2.Vec{X: p.X, Y: p.Y}
	for j, a := range points {
		if distanceToLine(q, a, points[(j+1)%len(points)]) <= slack {
			return true
		}
	}
	return encloses(points, q)
}

// Clearance implements [Solid]: the least distance to the sides, each searched
// for its nearest ruling, and to the two ends.
func (l *Loft) Clearance(p r3.Vec) float64 {
	least := math.Inf(1)
	for i := range l.stations[1:] {
		for j := range l.stations[i].Points {
			least = math.Min(least, l.ruled(i, j).distance(p))
		}
	}
	for _, i := range []int{0, len(l.stations) - 1} {
		s := l.stations[i]
		if encloses(s.Points, r2.Vec{X: p.X, Y: p.Y}) {
			least = math.Min(least, math.Abs(p.Z-s.At))
		}
	}
	return least
}

// encloses tells whether q lies inside a polygon.
func encloses(points []r2.Vec, q r2.Vec) bool {
	inside := false
	for j, a := range points {
		b := points[(j+1)%len(points)]
		if (a.X > q.X) != (b.X > q.X) && q.Y < a.Y+(q.X-a.X)/(b.X-a.X)*(b.Y-a.Y) {
			inside = !inside
		}
	}
	return inside
}

// A ruled side of a loft: the edge from a to b at one station, from c to d at
// the next.
type ruled struct{ a, b, c, d r3.Vec }

func (l *Loft) ruled(i, j int) ruled {
	s, t := l.stations[i], l.stations[i+1]
	k := (j + 1) % len(s.Points)
	at := func(p r2.Vec, w float64) r3.Vec { return r3.Vec{X: p.X, Y: p.Y, Z: w} }
	return ruled{at(s.Points[j], s.At), at(s.Points[k], s.At), at(t.Points[j], t.At), at(t.Points[k], t.At)}
}

// distance returns how far p lies from the side: the least over the rulings
// across it, of which the best of some is improved by golden sections.
func (s ruled) distance(p r3.Vec) float64 {
	away := func(t float64) float64 {
		a, b := r3.Add(r3.Scale(1-t, s.a), r3.Scale(t, s.c)), r3.Add(r3.Scale(1-t, s.b), r3.Scale(t, s.d))
		ab, ap := r3.Sub(b, a), r3.Sub(p, a)
		k := 0.0
		if n := r3.Norm2(ab); n > 0 {
			k = math.Max(0, math.Min(1, r3.Dot(ap, ab)/n))
		}
		return r3.Norm(r3.Sub(ap, r3.Scale(k, ab)))
	}
	from, to := valley(away, 16)
	return leastBetween(away, from, to)
}

// valley returns the neighbours of that of some places, spread evenly over
// [0, 1], at which a function is least.
func valley(f func(float64) float64, places int) (from, to float64) {
	at := func(i int) float64 { return float64(i) / float64(places) }
	best, least := 0, f(0)
	for i := 1; i <= places; i++ {
		if v := f(at(i)); v < least {
			best, least = i, v
		}
	}
	return math.Max(0, at(best-1)), math.Min(1, at(best+1))
}

// leastBetween returns the least value of a function with one valley between a
// and b, by golden sections (J. Kiefer, Proc. AMS 4, 1953).
func leastBetween(f func(float64) float64, a, b float64) float64 {
	const golden = 0.6180339887498949
	x, y := b-golden*(b-a), a+golden*(b-a)
	fx, fy := f(x), f(y)
	for range 50 {
		if fx < fy {
			b, y, fy = y, x, fx
			x = b - golden*(b-a)
			fx = f(x)
		} else {
			a, x, fx = x, y, fy
			y = a + golden*(b-a)
			fy = f(y)
		}
	}
	return math.Min(math.Min(fx, fy), math.Min(f(a), f(b)))
}
