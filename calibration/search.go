package calibration

import (
	"errors"
	"math"
	"slices"
	"strconv"

	"floatarc/calibration/band"
	"floatarc/float"
	"floatarc/gauge"
	"floatarc/volume"
)

// A Search looks for the points, free in input and in position, with which the
// needle lies least on level ground. It samples the truth once, for any number of
// points.
type Search struct {
	// Floor is the worst error below which no number of points gets, in percent
	// of the dial: half of a blind band, and what is given up so that the needle
	// never shows too much.
	Floor float64
	// Between is by how much the truth strays at most from the straight lines
	// between the samples, in percent of the dial: the errors found are the least
	// possible to within this.
	Between float64
	// Held says that friction holds the arm at every angle on falling fuel, so
	// that the needle was judged on the mean.
	Held bool

	rig     *Rig
	sign    float64 // by which X rises with the litres
	truth   *band.Band
	falling *volume.Relation // that the promise was judged on; nil without one
}

// A Best is the outcome of a search.
type Best struct {
	Points []Point
	// Least is the least possible worst error of so many points, in percent of
	// the dial, on the sampled truth; Live the least where the blind bands do not
	// decide it.
	Least, Live float64
}

// ErrFlat is returned where the conditioner sees the same input from the empty to
// the full mark.
var ErrFlat = errors.New("the conditioner sees one and the same input from the empty to the full mark, expected one that changes")

// ErrNoPlan is returned where no points keep what is asked of them.
var ErrNoPlan = errors.New("no choice of points keeps the needle where it is asked to stay")

// Search prepares the search. Below the share neverOver of the fuel between the
// marks, on falling fuel, the needle is never to show more than there is; 0 asks
// for nothing.
func (r *Rig) Search(neverOver float64) (*Search, error) {
	s := &Search{rig: r, sign: 1}
	limit := s.limit(neverOver)
	curve := r.Curve(r.Level)
	if first, last := curve.Samples[0], curve.Samples[len(curve.Samples)-1]; s.x(first) > s.x(last) {
		s.sign = -1
	} else if s.x(first) == s.x(last) {
		return nil, ErrFlat
	}
	told, _ := r.told(r.Level)
	low, high := r.asides(told)
	track := r.Sender.Track()
	curve.insert(append(limit.travels, told[0], told[1], track.Travel(r.Wiring.Sender(low)), track.Travel(r.Wiring.Sender(high))))
	knots := s.refined(curve, limit)
	bottom, top := r.Conditioner.Needle.Ends()
	s.truth = &band.Band{Bottom: bottom, Top: top}
	if needle := r.Conditioner.Needle; needle != nil {
		var bends []float64
		for _, d := range needle.Bends() {
			bends = append(bends, needle.Position(d))
		}
		s.truth.Bend(s.drive, bends)
	}
	s.truth.Samples = s.bandSamples(knots)
	s.Floor = 100 * s.truth.Floor()
	return s, nil
}

// x returns what the conditioner runs straight lines in, rising with the litres.
func (s *Search) x(at Sample) float64 { return s.sign * s.rig.Conditioner.Law.X(at.Input) }

// drive returns the drive of a position, rising with it.
func (s *Search) drive(position float64) float64 {
	if n := s.rig.Conditioner.Needle; !n.Rises() {
		return -n.Drive(position)
	}
	return s.rig.Conditioner.Needle.Drive(position)
}

// position returns the position of a drive.
func (s *Search) position(drive float64) float64 {
	if n := s.rig.Conditioner.Needle; !n.Rises() {
		return n.Position(-drive)
	}
	return s.rig.Conditioner.Needle.Position(drive)
}

// A limit is what the needle may not exceed where the sender stands at a travel:
// what is in the tank when falling fuel brings it there.
type limit struct {
	rig     *Rig
	falling *volume.Relation // nil for no limit
	until   float64          // litres below which it holds
	end     float64          // travel that falling fuel passes there
	travels []float64        // at which it bends
}

func (s *Search) limit(neverOver float64) limit {
	r := s.rig
	if neverOver <= 0 {
		return limit{}
	}
	falling, ok := r.On(r.Level, float.Falling)
	if !ok {
		falling, s.Held = r.Level, true
	}
	until := r.Dial.Litres(math.Min(neverOver, 1))
	s.falling = falling
	l := limit{rig: r, falling: falling, until: until, end: falling.Travel(until)}
	l.travels = []float64{falling.Low, falling.High, falling.Travel(r.Dial.Empty), l.end}
	return l
}

// at returns the greatest position at a travel, and just above it; +Inf for no
// limit. At rest on its low stop there may be as little as on the empty mark.
func (l limit) at(travel float64) (here, above float64) {
	here, above = math.Inf(1), math.Inf(1)
	if l.falling == nil || travel > l.end || travel > l.falling.High {
		return here, above
	}
	here = l.position(l.falling.Litres(math.Max(travel, l.falling.Low)))
	if travel < l.end {
		above = here
	}
	if travel <= l.falling.Low {
		here = l.position(l.rig.Dial.Empty)
	}
	return here, above
}

func (l limit) position(litres float64) float64 {
	return l.rig.Dial.Position(l.rig.Dial.Share(litres))
}

// straight is by how much the truth may stray from a straight line between two
// samples, as a share of the dial, before one is put between them, and finest how
// often that is done.
const (
	straight = 1e-6
	finest   = 12
)

// A knot is a sample with what the needle may not exceed there and just above.
type knot struct {
	Sample
	x         float64
	at, above float64
}

func (s *Search) knot(at Sample, l limit) knot {
	k := knot{Sample: at, x: s.x(at)}
	k.at, k.above = l.at(at.Travel)
	return k
}

// refined returns the samples of a curve with more of them where the truth bends,
// and notes how far it strays between them.
func (s *Search) refined(c *Curve, l limit) []knot {
	out := []knot{s.knot(c.Samples[0], l)}
	var between func(a, b knot, depth int)
	between = func(a, b knot, depth int) {
		if b.Travel > a.Travel && b.x > a.x {
			t := (a.Travel + b.Travel) / 2
			m := s.knot(c.at(c.rel.Litres(t), t), l)
			stray := m.strays(a, b)
			if stray > straight && depth < finest {
				between(a, m, depth+1)
				between(m, b, depth+1)
				return
			}
			s.Between = math.Max(s.Between, 2*100*stray) // a bend off the middle strays up to twice as far
		}
		out = append(out, b)
	}
	for _, at := range c.Samples[1:] {
		if next := s.knot(at, l); s.stepped() {
			out = append(out, next)
		} else {
			between(out[len(out)-1], next, 0)
		}
	}
	return out
}

// strays returns how far a knot lies off the straight lines between two others.
func (m knot) strays(a, b knot) float64 {
	share := (m.x - a.x) / (b.x - a.x)
	off := math.Abs(m.Position - (a.Position + share*(b.Position-a.Position)))
	if math.IsInf(a.above, 1) || math.IsInf(b.at, 1) {
		return off
	}
	return math.Max(off, math.Abs(m.at-(a.above+share*(b.at-a.above))))
}

// stepped tells whether the sender's reading jumps from contact to contact.
func (s *Search) stepped() bool {
	_, stepped := s.rig.Sender.Track().(*float.Contacts)
	return stepped
}

// bandSamples returns the truth as a band takes it.
func (s *Search) bandSamples(knots []knot) []band.Sample {
	stepped := s.stepped()
	out := make([]band.Sample, 0, len(knots)+1)
	for _, k := range knots {
		b := band.Sample{X: k.x, Y: k.Position, Cap: k.at}
		if n := len(out); n > 0 {
			b.X = math.Max(b.X, out[n-1].X)
			out[n-1].Gap = stepped && b.X > out[n-1].X
		}
		out = append(out, b)
		if k.above != k.at {
			b.Cap = k.above
			out = append(out, b)
		}
	}
	travel, _ := s.rig.told(s.rig.Level)
	low, high := s.rig.asides(travel)
	law := s.rig.Conditioner.Law
	loosen(out, s.sign*law.X(low), s.sign*law.X(high))
	return out
}

// Unpromised returns the search without what it keeps near empty.
func (s *Search) Unpromised() *Search {
	free := *s
	truth := *s.truth
	truth.Samples = slices.Clone(truth.Samples)
	for i := range truth.Samples {
		truth.Samples[i].Cap = math.Inf(1)
	}
	free.truth = truth.Fresh()
	free.Floor = 100 * free.truth.Floor()
	return &free
}

// loosen marks the samples next to a blind band, below and above two X: the error
// there is that of the blind band, whatever the points.
func loosen(out []band.Sample, low, high float64) {
	first, last := out[0], out[len(out)-1]
	blindLow := slices.ContainsFunc(out, func(b band.Sample) bool { return b.X == first.X && b.Y > first.Y })
	blindHigh := slices.ContainsFunc(out, func(b band.Sample) bool { return b.X == last.X && b.Y < last.Y })
	slack := 1e-9 * (last.X - first.X)
	for i := range out {
		out[i].Loose = blindLow && out[i].X < low-slack || blindHigh && out[i].X > high+slack
	}
}

// Best returns the points, at most so many, with the least possible worst error,
// the conditioner's end values held and its positions within the dial, and among
// those some with the least error over the live band.
//
// Beside a blind band the error of the live band is that of the blind band, by
// continuity; there the live band is told from one step of the conditioner on.
func (s *Search) Best(places int) (Best, error) {
	worst, live, path, ok := s.truth.Least(band.Corridor.Held, places)
	if !ok {
		return Best{}, ErrNoPlan
	}
	return Best{Points: s.points(path), Least: 100 * worst, Live: 100 * live}, nil
}

// points returns the points of a path.
func (s *Search) points(path []band.Vertex) []Point {
	var out []Point
	for i, v := range path {
		if i > 0 && v.X <= path[i-1].X {
			continue
		}
		out = append(out, s.rig.free(strconv.Itoa(len(out)+1), s.rig.Conditioner.Law.Ohms(s.sign*v.X), s.position(v.Y)))
	}
	return out
}

// free returns a point at an input and a position; its litres are those that the
// input stands for.
func (r *Rig) free(label string, input, position float64) Point {
	travel, reach := r.told(r.Level)
	p := Point{Label: label, Position: position, InputOhms: input, SenderOhms: r.Wiring.Sender(input)}
	p.Travel = math.Max(travel[0], math.Min(travel[1], r.Sender.Track().Travel(p.SenderOhms)))
	p.Litres = r.Level.Litres(p.Travel)
	p.Share = r.Dial.Share(p.Litres)
	slack := edge * r.Tank.Full
	p.Blind = p.Litres <= reach[0]+slack && reach[0] > r.Dial.Empty+slack || p.Litres >= reach[1]-slack && reach[1] < r.Dial.Full-slack
	return p
}

// Falling samples the truth on falling fuel, on which the promise near empty is
// judged; nil if nothing was promised.
func (s *Search) Falling() *Curve {
	if s.falling == nil {
		return nil
	}
	return s.rig.Curve(s.falling)
}

// Over returns by how much an indicator shows at most too much below a share, in
// percent of the dial; below 0 if it never does.
func (c *Curve) Over(ind gauge.Indicator, share float64) float64 {
	until := c.rig.Dial.Litres(math.Min(share, 1))
	most, _ := c.With(ind).peak(func(s Sample) float64 {
		if s.Litres > until {
			return math.Inf(-1)
		}
		off, _ := c.Off(ind, s)
		return 100 * off
	})
	return most
}
