package mesh

import (
	"math"
	"slices"
	"sync"

	"gonum.org/v1/gonum/spatial/r3"
)

// A shell is one closed surface of a drawing, the triangles that hang together.
type shell struct {
	faces  [][3]int32
	volume float64 // signed, mm³; positive if it faces outward
	lo, hi r3.Vec
	within []int // the shells around it
}

// depth is the number of shells around it.
func (s *shell) depth() int { return len(s.within) }

// fuel is what it adds to the fuel, or takes from it, when the outermost shells
// bound fuel; whatever way it faces.
func (s *shell) fuel() float64 {
	if s.depth()%2 == 0 {
		return math.Abs(s.volume)
	}
	return -math.Abs(s.volume)
}

// inward tells whether it faces into the fuel.
func (s *shell) inward() bool { return s.volume*s.fuel() < 0 }

// metalShare is the share of a surface's volume above which what lies inside it
// is a cavity in metal, and not something in the fuel.
const metalShare = 0.2

// orient turns and drops shells so that what is left bounds the fuel and faces
// away from it.
func (m *Mesh) orient(use Use) error {
	shells := m.shells()
	if !slices.ContainsFunc(shells, func(s *shell) bool { return math.Abs(s.volume) > flatShare*m.boxVolume() }) {
		return wrong("the triangles enclose %.3g L, nothing of the box around them, expected a closed surface with room inside", math.Abs(shells[0].volume)/1e6)
	}
	if len(shells) > 1 {
		m.nest(shells)
		m.treeOnce, m.tree = sync.Once{}, nil // of what is left, if it is asked for
	}
	if use == Cavity {
		return m.keepCavity(shells)
	}
	if err := m.checkNesting(shells, use); err != nil {
		return err
	}
	inward := 0
	for _, s := range shells {
		m.volume += s.fuel()
		if s.inward() {
			inward++
		}
	}
	switch {
	case inward == len(shells):
		m.Notes.Flipped = true
		turn(m.faces)
	case inward > 0:
		return m.inwardError(shells)
	}
	return nil
}

// flatShare is the share of its box below which a drawing encloses nothing.
const flatShare = 1e-9

func (m *Mesh) boxVolume() float64 {
	d := r3.Sub(m.hi, m.lo)
	return d.X * d.Y * d.Z
}

func turn(faces [][3]int32) {
	for i, f := range faces {
		faces[i] = [3]int32{f[0], f[2], f[1]}
	}
}

// shells splits the triangles into surfaces that hang together.
func (m *Mesh) shells() []*shell {
	sets := newSets(len(m.points))
	for _, f := range m.faces {
		sets.join(f[0], f[1])
		sets.join(f[1], f[2])
	}
	number := make(map[int32]int)
	one := sets.find(m.faces[0][0])
	if !slices.ContainsFunc(m.faces, func(f [3]int32) bool { return sets.find(f[0]) != one }) {
		s := &shell{faces: m.faces, lo: m.lo, hi: m.hi, volume: enclosed(m.points, m.faces, m.centre())}
		return []*shell{s}
	}
	var out []*shell
	for _, f := range m.faces {
		root := sets.find(f[0])
		k, known := number[root]
		if !known {
			k = len(out)
			number[root] = k
			out = append(out, &shell{lo: m.points[f[0]], hi: m.points[f[0]]})
		}
		s := out[k]
		s.faces = append(s.faces, f)
		for _, v := range f {
			s.lo, s.hi = within(s.lo, s.hi, m.points[v])
		}
	}
	for _, s := range out {
		s.volume = enclosed(m.points, s.faces, r3.Scale(0.5, r3.Add(s.lo, s.hi)))
	}
	return out
}

// nest finds which shells lie within which: how often the surface of each other
// shell winds around a point of it, by one ray through all of them. The point
// must not lie on another shell, which something that stands on the floor does in
// part.
func (m *Mesh) nest(shells []*shell) {
	tree := m.treeOf()
	number := make([]int32, len(m.points)) // of the shell of each vertex
	for i, s := range shells {
		for _, f := range s.faces {
			number[f[0]] = int32(i)
		}
	}
	shellOf := func(face int32) int32 { return number[m.faces[face][0]] }
	apart := touching * m.size()
	for i, s := range shells {
		other := func(face int32) bool { return shellOf(face) != int32(i) }
		p := m.middle(s.faces[0])
		for k := range standpoints {
			q := m.middle(s.faces[k*len(s.faces)/standpoints])
			if _, d := m.nearest(q, 2*apart, other); d > apart {
				p = q
				break
			}
		}
		windings := map[int32]int{}
		tree.pierced(p, func(face int32) {
			f := m.faces[face]
			windings[shellOf(face)] += crossing(p, m.points[f[0]], m.points[f[1]], m.points[f[2]])
		})
		for around, n := range windings {
			if n != 0 && around != int32(i) && s.boxedBy(shells[around]) {
				s.within = append(s.within, int(around))
			}
		}
		slices.Sort(s.within)
	}
}

// boxedBy tells whether the box around a shell lies in that around another;
// surfaces that run through each other are not nested.
func (s *shell) boxedBy(o *shell) bool {
	lo, hi := within(o.lo, o.hi, s.lo)
	lo, hi = within(lo, hi, s.hi)
	return lo == o.lo && hi == o.hi
}

// standpoints is the number of points of a shell tried; touching is how near to
// another shell, as a share of the size of the drawing, a point lies on it.
const (
	standpoints = 24
	touching    = 1e-7
)

// middle returns the centre of a triangle.
func (m *Mesh) middle(f [3]int32) r3.Vec {
	return r3.Scale(1./3, r3.Add(m.points[f[0]], r3.Add(m.points[f[1]], m.points[f[2]])))
}

// checkNesting refuses nested surfaces that draw the metal, or that would count
// fuel twice.
func (m *Mesh) checkNesting(shells []*shell, use Use) error {
	inside := make([]float64, len(shells))
	for _, s := range shells {
		if s.depth() == 1 {
			inside[s.within[0]] += math.Abs(s.volume)
		}
	}
	for i, s := range shells {
		if whole := math.Abs(s.volume); use == Unsaid && s.depth() == 0 && inside[i] > metalShare*whole {
			return wrong(`nested surfaces, %.4g L of walls around a cavity of %.4g L, expected use = "cavity" (the fuel is inside the inner surface) or a drawing of the fuel alone`,
				(whole-inside[i])/1e6, inside[i]/1e6)
		}
		if s.depth()%2 == 1 {
			m.Notes.Voids++
		}
	}
	for _, s := range shells {
		for _, k := range s.within {
			if outer := shells[k]; outer.depth() == s.depth()-1 && (outer.volume < 0) == (s.volume < 0) {
				return wrong(`a closed surface of %.3g L about %s lies inside another and faces the same way, so that it would count twice, expected it to face inward (something in the fuel), or use = "cavity" if it draws the inside of the walls`,
					math.Abs(s.volume)/1e6, place(s.centre()))
			}
		}
	}
	return nil
}

func (s *shell) centre() r3.Vec { return r3.Scale(0.5, r3.Add(s.lo, s.hi)) }

func (m *Mesh) inwardError(shells []*shell) error {
	for _, s := range shells {
		if s.inward() {
			return wrong("a closed surface of %.3g L about %s faces inward while others face outward, expected all to face away from the fuel", math.Abs(s.volume)/1e6, place(s.centre()))
		}
	}
	return nil
}

// keepCavity drops the outermost shells, the outside of the metal, and turns
// the others so that they bound what is inside them, less what is inside that.
func (m *Mesh) keepCavity(shells []*shell) error {
	m.faces = nil
	for _, s := range shells {
		if s.depth() == 0 {
			continue
		}
		// What bounds the metal from inside bounds the fuel from outside.
		if !s.inward() {
			turn(s.faces)
		}
		m.volume -= s.fuel()
		if s.depth()%2 == 0 {
			m.Notes.Voids++
		}
		m.faces = append(m.faces, s.faces...)
	}
	if len(m.faces) == 0 {
		return wrong(`no closed surface inside another although use = "cavity", expected an outer and an inner surface: cap the ports so that the inside closes`)
	}
	m.Notes.Cavity = true
	m.settle()
	return nil
}
