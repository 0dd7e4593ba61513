package float

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// A Rod leads the surface along a straight line: a float on a stem, or the
// wetted length of a probe. Its travel is the way from the foot, mm.
type Rod struct {
	Foot, Head r3.Vec // of the float centre's travel on a stem, or of a probe's tube
	Buoy       *Buoy  // of a stem; nil for a probe, and for a float without a size

	Stem bool // a float slides along it; not so along a probe

	track  Track
	toward r3.Vec // unit vector from foot to head
	length float64
}

// NewRod returns a rod with its track over the way from foot to head.
func NewRod(r Rod, track func(length float64) (Track, error)) (*Rod, error) {
	way := r3.Sub(r.Head, r.Foot)
	r.length = r3.Norm(way)
	if !(r.length > 0) {
		return nil, fmt.Errorf("foot and head in one place, expected them apart")
	}
	r.toward = r3.Scale(1/r.length, way)
	if r.Buoy != nil {
		if err := r.Buoy.Check(); err != nil {
			return nil, err
		}
	}
	var err error
	r.track, err = track(r.length)
	return &r, err
}

// Stops implements [Sender].
func (r *Rod) Stops() (low, high float64) { return 0, r.length }

// Track implements [Sender].
func (r *Rod) Track() Track { return r.track }

// In implements [Sender].
func (r *Rod) In(n r3.Vec) Path {
	p := rising{foot: r3.Dot(n, r.Foot), slope: r3.Dot(n, r.toward)}
	if r.Buoy != nil {
		height, _ := r.Buoy.Shape.Afloat(n, r.toward)(r.Buoy.immersed(Mean, 0))
		p.foot += height
	}
	return p
}

// rising is a level that rises evenly with the travel.
type rising struct{ foot, slope float64 }

// Level implements [Path].
func (p rising) Level(travel float64) float64 { return p.foot + p.slope*travel }

// Follows implements [Path].
func (p rising) Follows(low, high float64) (from, to float64) {
	if p.slope <= 0 {
		return math.Inf(1), math.Inf(-1)
	}
	return low, high
}

// Heights is a sender known by the height of the surface, or by the litres, for
// each resistance, and by nothing else. Its travel is the level.
type Heights struct{ track *Lines }

// NewHeights returns the sender of points (height, ohm).
func NewHeights(track *Lines) *Heights { return &Heights{track} }

// Stops implements [Sender].
func (h *Heights) Stops() (low, high float64) { return h.track.Ends() }

// Track implements [Sender].
func (h *Heights) Track() Track { return h.track }

// In implements [Sender].
func (h *Heights) In(r3.Vec) Path { return rising{slope: 1} }
