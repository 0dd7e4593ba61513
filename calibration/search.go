package calibration

import (
	"errors"
	"math"
	"slices"
	"strconv"

	"floatarc/calibration/band"
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
	curve := r.Curve(r.Level)
	s := &Search{rig: r, sign: curve.sign()}
	if s.sign == 0 {
		return nil, ErrFlat
	}
	limit := s.limit(neverOver)
	curve.insert(limit.travels)
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

// Unpromised returns the search without what it keeps near empty.
func (s *Search) Unpromised() *Search {
	free := *s
	free.truth = s.truth.Fresh()
	for i := range free.truth.Samples {
		free.truth.Samples[i].Cap = math.Inf(1)
	}
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
