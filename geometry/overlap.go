package geometry

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// Volumes that solids share are estimated by counting evenly spread points in the
// box they have in common: first few, and where those hit, many more. An overlap
// that is a share p of that box is then known to about √p/1000 of the box.
const (
	fewProbes  = 1 << 12
	manyProbes = 1 << 17
)

// Overlap estimates the volume that two solids share, in mm³; 0 if they only
// touch.
func Overlap(a, b Solid) float64 {
	return estimate([]Solid{a, b}, func(p r3.Vec) bool { return a.Contains(p) && b.Contains(p) })
}

// Outside estimates the volume of a solid that lies in none of the others, in
// mm³.
func Outside(s Solid, others []Solid) float64 {
	return estimate([]Solid{s}, func(p r3.Vec) bool {
		if !s.Contains(p) {
			return false
		}
		for _, o := range others {
			if o.Contains(p) {
				return false
			}
		}
		return true
	})
}

// estimate returns the volume in which a test holds, within the box that the
// extents of all the solids have in common.
func estimate(solids []Solid, holds func(r3.Vec) bool) float64 {
	low, size := common(solids)
	volume := size.X * size.Y * size.Z
	if volume == 0 {
		return 0
	}
	count := func(probes int) float64 {
		hits := 0
		for i := range probes {
			u, v, w := spread(i)
			if holds(r3.Vec{X: low.X + u*size.X, Y: low.Y + v*size.Y, Z: low.Z + w*size.Z}) {
				hits++
			}
		}
		return float64(hits) / float64(probes)
	}
	if count(fewProbes) == 0 {
		return 0
	}
	return volume * count(manyProbes)
}

// common returns the least corner and the sides of the box that solids have in
// common; sides of 0 if they do not meet.
func common(solids []Solid) (low, size r3.Vec) {
	for i, axis := range []r3.Vec{{X: 1}, {Y: 1}, {Z: 1}} {
		from, to := math.Inf(-1), math.Inf(1)
		for _, s := range solids {
			l, h := s.Extent(axis)
			from, to = math.Max(from, l), math.Min(to, h)
		}
		side := to - from
		if side <= Nearness*(math.Abs(from)+math.Abs(to)) {
			side = 0
		}
		switch i {
		case 0:
			low.X, size.X = from, side
		case 1:
			low.Y, size.Y = from, side
		case 2:
			low.Z, size.Z = from, side
		}
	}
	return low, size
}

// spread returns the i-th point of an evenly spread sequence in the unit cube
// (J. Halton, "On the efficiency of certain quasi-random sequences of points",
// Numerische Mathematik 2, 1960): the digits of i in bases 2, 3 and 5, mirrored
// at the point.
func spread(i int) (u, v, w float64) {
	return mirrored(i+1, 2), mirrored(i+1, 3), mirrored(i+1, 5)
}

func mirrored(i, base int) float64 {
	sum, place := 0.0, 1.0
	for ; i > 0; i /= base {
		place /= float64(base)
		sum += float64(i%base) * place
	}
	return sum
}

// Apart tells whether the boxes around bodies that hold fuel fall into groups
// that do not touch, and names a body of each of two such groups.
func (c Composite) Apart() (a, b string, apart bool) {
	var holding []Body
	for _, body := range c.Bodies {
		if !body.Displaces {
			holding = append(holding, body)
		}
	}
	if len(holding) == 0 {
		return "", "", false
	}
	joined := map[int]bool{0: true}
	for grown := true; grown; {
		grown = false
		for i := range holding {
			for j := range joined {
				if !joined[i] && meet(holding[i].Solid, holding[j].Solid) {
					joined[i], grown = true, true
					break
				}
			}
		}
	}
	for i := range holding {
		if !joined[i] {
			return holding[0].Name, holding[i].Name, true
		}
	}
	return "", "", false
}

// meet tells whether the boxes around two solids touch.
func meet(a, b Solid) bool {
	for _, axis := range []r3.Vec{{X: 1}, {Y: 1}, {Z: 1}} {
		al, ah := a.Extent(axis)
		bl, bh := b.Extent(axis)
		slack := Nearness * (math.Abs(ah) + math.Abs(bh) + math.Abs(al) + math.Abs(bl))
		if al > bh+slack || bl > ah+slack {
			return false
		}
	}
	return true
}
