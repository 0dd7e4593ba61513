package geometry

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"
)

// A Corner is one corner of an outline, in mm, rounded by a fillet where Fillet
// is above 0.
type Corner struct {
	U, V   float64
	Fillet float64
}

func (c Corner) vec() r2.Vec { return r2.Vec{X: c.U, Y: c.V} }

// An Outline is a closed planar boundary of lines and arcs that does not cross
// itself, running anticlockwise.
type Outline struct {
	segments []segment
	across   []strand // the boundary seen along u, for containment
	area     float64  // mm²
	size     float64  // greatest extent, mm
}

// NewOutline returns the outline through corners, in either sense of turning.
// It refuses, with a [DimensionError] that names the corner ("points[2]"),
// fewer than three corners, repeated corners, an outline that crosses or
// touches itself, and a fillet for which an edge is too short.
func NewOutline(corners []Corner) (*Outline, error) {
	if err := checkCorners(corners); err != nil {
		return nil, err
	}
	turned := anticlockwise(corners)
	segments, bad := round(turned)
	if bad != nil {
		k := bad.corner
		if &turned[0] != &corners[0] { // the order was reversed
			k = len(corners) - 1 - k
		}
		return nil, wrong(pointName(k), "fillet radius %g mm does not fit the edge of %.6g mm from (%g, %g) to (%g, %g), expected a smaller radius",
			corners[k].Fillet, bad.edge, bad.from.U, bad.from.V, bad.to.U, bad.to.V)
	}
	if err := checkFillets(corners); err != nil {
		return nil, err
	}
	return newOutline(segments), nil
}

// Circle returns the outline of a disc about the origin, radius in mm.
func Circle(radius float64) *Outline {
	segments := make([]segment, 0, 2)
	for i := range 2 {
		segments = append(segments, arc(r2.Vec{}, radius, float64(i)*math.Pi, math.Pi))
	}
	return newOutline(segments)
}

func newOutline(segments []segment) *Outline {
	o := &Outline{segments: segments}
	o.across = o.strands(r2.Vec{X: 1})
	for _, m := range []r2.Vec{{X: 1}, {Y: 1}} {
		lo, hi := math.Inf(1), math.Inf(-1)
		area := 0.0
		for _, s := range o.strands(m) {
			l, h := s.span()
			lo, hi = math.Min(lo, l), math.Max(hi, h)
			a, _ := s.green(0)
			area -= a
		}
		o.area, o.size = area, math.Max(o.size, hi-lo)
	}
	return o
}

// Area returns the enclosed area in mm².
func (o *Outline) Area() float64 { return o.area }

// strands returns the boundary seen along the unit direction m.
func (o *Outline) strands(m r2.Vec) []strand {
	out := make([]strand, 0, len(o.segments)+8)
	for _, s := range o.segments {
		out = append(out, s.along(m)...)
	}
	return out
}

// contains tells whether p lies in the outline, boundary included.
func (o *Outline) contains(p r2.Vec) bool {
	return o.encloses(p) || o.distance(p) <= Nearness*o.size
}

// encloses tells whether p lies inside the boundary.
func (o *Outline) encloses(p r2.Vec) bool {
	inside := false
	p.X = above(o.across, p.X, hair*o.size)
	for _, s := range o.across { // a ray from p towards greater v
		lo, hi := s.span()
		if p.X < lo || p.X >= hi {
			continue
		}
		if c, _ := s.at(p.X); c > p.Y {
			inside = !inside
		}
	}
	return inside
}

// distance returns how far p lies from the boundary.
func (o *Outline) distance(p r2.Vec) float64 {
	least := math.Inf(1)
	for _, s := range o.segments {
		least = math.Min(least, s.distance(p))
	}
	return least
}

// A misfit is a fillet for which an edge is too short.
type misfit struct {
	corner   int // the one of the edge's two corners with the larger fillet
	from, to Corner
	edge     float64 // mm
}

// round returns the boundary of corners that run anticlockwise, with their
// fillets.
func round(corners []Corner) ([]segment, *misfit) {
	n := len(corners)
	fillets := make([]fillet, n)
	for i, c := range corners {
		fillets[i] = newFillet(corners[(i+n-1)%n].vec(), c, corners[(i+1)%n].vec())
	}
	var segments []segment
	for i, f := range fillets {
		next := fillets[(i+1)%n]
		edge := r2.Norm(r2.Sub(corners[(i+1)%n].vec(), corners[i].vec()))
		if f.reach+next.reach > edge*(1+1e-9) {
			j := (i + 1) % n
			k := i
			if corners[j].Fillet > corners[i].Fillet {
				k = j
			}
			return nil, &misfit{corner: k, from: corners[i], to: corners[j], edge: edge}
		}
		if f.arc.radius > 0 {
			segments = append(segments, f.arc)
		}
		if f.reach+next.reach < edge*(1-1e-12) {
			segments = append(segments, line(f.to, next.from))
		}
	}
	return segments, nil
}

// A fillet is a rounded corner: its arc leaves the first edge at from and joins
// the second at to, each a distance reach from the corner.
type fillet struct {
	from, to r2.Vec
	reach    float64
	arc      segment
}

// sharp is the radius, mm, below which a corner counts as sharp.
const sharp = 1e-9

func newFillet(before r2.Vec, corner Corner, after r2.Vec) fillet {
	at := corner.vec()
	in, out := r2.Unit(r2.Sub(at, before)), r2.Unit(r2.Sub(after, at))
	turn := math.Atan2(r2.Cross(in, out), r2.Dot(in, out)) // positive to the left
	if corner.Fillet <= sharp || turn == 0 {
		return fillet{from: at, to: at}
	}
	reach := corner.Fillet * math.Abs(math.Tan(turn/2))
	from := r2.Sub(at, r2.Scale(reach, in))
	side := math.Copysign(1, turn)
	left := r2.Vec{X: -in.Y, Y: in.X}
	centre := r2.Add(from, r2.Scale(side*corner.Fillet, left))
	start := math.Atan2(from.Y-centre.Y, from.X-centre.X)
	return fillet{
		from: from, to: r2.Add(at, r2.Scale(reach, out)), reach: reach,
		arc: arc(centre, corner.Fillet, start, turn),
	}
}
