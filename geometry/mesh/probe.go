package mesh

import (
	"cmp"
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r3"
)

// Probe lines run through the box around a mesh along each axis, side by side
// in a square of so many by so many. They stand at unlike fractions of a step
// across, so that none runs along a diagonal of the box.
const (
	probes  = 32
	mostHit = 1 << 22 // crossings; a surface that is crossed more often is a tangle
	offsetU = 0.41421356237309515
	offsetV = 0.73205080756887729
)

// A hit is where a probe line crosses a triangle.
type hit struct {
	line  int32
	enter int32 // +1 into the solid, -1 out of it
	at    float64
}

// Shares of the volume: counted twice above which a mesh runs through itself;
// of the span between the first and the last wall below which it is thin.
const (
	twiceShare = 1e-3
	thinShare  = 0.45
)

// probe looks along lines for fuel that counts twice, because surfaces run
// through each other, and for a solid that is mostly hollow in every direction:
// a drawing of the metal. Both are estimates.
func (m *Mesh) probe(use Use) error {
	fullest, twice, where := 0.0, 0.0, r3.Vec{}
	for axis := range 3 {
		hits, ok := m.hits(axis)
		if !ok {
			return wrong("the triangles cross over each other everywhere, expected a surface that does not run through itself")
		}
		sum := m.along(axis, hits)
		if sum.span > 0 {
			fullest = max(fullest, sum.inside/sum.span)
			if share := sum.twice / sum.inside; share > twice {
				twice, where = share, sum.where
			}
		}
	}
	if twice > twiceShare {
		return wrong("surfaces run through each other: about %.2g L count twice or not at all, for one about %s mm, expected a surface that does not cross itself",
			twice*m.volume/1e6, place(where))
	}
	if use == Unsaid && fullest < thinShare {
		return wrong(`a thin solid: the drawing shows the metal (%.3g L of it, about %.2g mm thick), whose ports join inside and outside, expected the fuel: cap the ports so that the inside closes, then use = "cavity" (or use = "solid" if it is the fuel after all)`,
			m.volume/1e6, 2*m.volume/m.area())
	}
	return nil
}

// area is that of the whole surface, mm².
func (m *Mesh) area() float64 {
	sum := 0.0
	for _, f := range m.faces {
		a, b, c := m.points[f[0]], m.points[f[1]], m.points[f[2]]
		sum += r3.Norm(r3.Cross(r3.Sub(b, a), r3.Sub(c, a))) / 2
	}
	return sum
}

// turned returns the coordinates of p along an axis and along the two after it.
func turned(p r3.Vec, axis int) (w, u, v float64) {
	switch axis {
	case 0:
		return p.X, p.Y, p.Z
	case 1:
		return p.Y, p.Z, p.X
	}
	return p.Z, p.X, p.Y
}

// hits returns where the lines along an axis cross the triangles, along each
// line in turn; not if there are too many. Neighbours agree on which of them a
// line along their edge crosses, as in crossing.
func (m *Mesh) hits(axis int) ([]hit, bool) {
	_, ulo, vlo := turned(m.lo, axis)
	_, uhi, vhi := turned(m.hi, axis)
	ustep, vstep := (uhi-ulo)/probes, (vhi-vlo)/probes
	var out []hit
	for _, f := range m.faces {
		aw, au, av := turned(m.points[f[0]], axis)
		bw, bu, bv := turned(m.points[f[1]], axis)
		cw, cu, cv := turned(m.points[f[2]], axis)
		i0, i1 := lines(min(au, bu, cu)-ulo, max(au, bu, cu)-ulo, ustep, offsetU)
		if i0 > i1 {
			continue
		}
		j0, j1 := lines(min(av, bv, cv)-vlo, max(av, bv, cv)-vlo, vstep, offsetV)
		for i := i0; i <= i1; i++ {
			for j := j0; j <= j1; j++ {
				u, v := ulo+(float64(i)+offsetU)*ustep, vlo+(float64(j)+offsetV)*vstep
				left := leftOf(bu-u, bv-v, cu-u, cv-v)
				if leftOf(cu-u, cv-v, au-u, av-v) != left || leftOf(au-u, av-v, bu-u, bv-v) != left {
					continue
				}
				// Areas opposite to the corners, doubled.
				a := (bu-u)*(cv-v) - (bv-v)*(cu-u)
				b := (cu-u)*(av-v) - (cv-v)*(au-u)
				c := (au-u)*(bv-v) - (av-v)*(bu-u)
				h := hit{line: int32(i*probes + j), enter: 1, at: (a*aw + b*bw + c*cw) / (a + b + c)}
				if left {
					h.enter = -1
				}
				if a+b+c != 0 {
					out = append(out, h)
				}
			}
		}
		if len(out) > mostHit {
			return nil, false
		}
	}
	slices.SortFunc(out, func(a, b hit) int {
		return cmp.Or(cmp.Compare(a.line, b.line), cmp.Compare(a.at, b.at))
	})
	return out, true
}

// lines returns the first and the last of the lines, a step apart and offset by
// a fraction of it, that lie between two places.
func lines(from, to, step, offset float64) (first, last int) {
	return int(math.Ceil(from/step - offset)), int(math.Floor(to/step - offset))
}

// Lengths along the probe lines of one axis, mm.
type lengths struct {
	span   float64 // from the first wall to the last
	inside float64 // in the solid
	twice  float64 // counted once too often, or taken away
	where  r3.Vec  // amid the longest of these
}

// along adds up the hits of the lines along an axis. A line that does not come
// out of the solid as often as it goes in runs along an edge, and is left out.
func (m *Mesh) along(axis int, hits []hit) lengths {
	var sum lengths
	longest := 0.0
	for len(hits) > 0 {
		n := 1
		for n < len(hits) && hits[n].line == hits[0].line {
			n++
		}
		line := hits[:n]
		hits = hits[n:]
		inside, twice, count := 0.0, 0.0, int32(0)
		for i, h := range line[:n-1] {
			count += h.enter
			gap := line[i+1].at - h.at
			if count > 0 {
				inside += gap
			}
			if count > 1 || count < 0 {
				excess := gap * math.Abs(float64(max(count-1, -count)))
				twice += excess
				if excess > longest {
					longest, sum.where = excess, m.onLine(axis, h.line, h.at+gap/2)
				}
			}
		}
		if count+line[n-1].enter != 0 {
			continue
		}
		sum.span += line[n-1].at - line[0].at
		sum.inside += inside
		sum.twice += twice
	}
	return sum
}

// onLine returns a point of a probe line.
func (m *Mesh) onLine(axis int, line int32, w float64) r3.Vec {
	_, ulo, vlo := turned(m.lo, axis)
	_, uhi, vhi := turned(m.hi, axis)
	u := ulo + (float64(line/probes)+offsetU)*(uhi-ulo)/probes
	v := vlo + (float64(line%probes)+offsetV)*(vhi-vlo)/probes
	switch axis {
	case 0:
		return r3.Vec{X: w, Y: u, Z: v}
	case 1:
		return r3.Vec{X: v, Y: w, Z: u}
	}
	return r3.Vec{X: u, Y: v, Z: w}
}
