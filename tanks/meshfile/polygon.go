package meshfile

import (
	"gonum.org/v1/gonum/spatial/r3"

	"floatarc/geometry/mesh"
)

// mostCorners is the number of corners up to which a face is looked at for
// corners that recede; a larger one is cut into a fan.
const mostCorners = 2000

// cutFace adds a face of three or more corners as triangles: a fan, or where
// corners recede, ear by ear, so that no triangle covers what the face does not
// (G. Meisters, "Polygons have ears", American Mathematical Monthly 82, 1975).
// Either way the triangles together enclose what the face does.
func cutFace(f *mesh.Facets, corners []int32) {
	normal := normalOf(f.Points, corners)
	if len(corners) == 3 || len(corners) > mostCorners || convex(f.Points, corners, normal) {
		for i := 2; i < len(corners); i++ {
			f.Face(corners[0], corners[i-1], corners[i])
		}
		return
	}
	left := append([]int32{}, corners...)
	for len(left) > 3 {
		i := ear(f.Points, left, normal)
		n := len(left)
		f.Face(left[(i+n-1)%n], left[i], left[(i+1)%n])
		left = append(left[:i], left[i+1:]...)
	}
	f.Face(left[0], left[1], left[2])
}

// normalOf returns a vector along the normal of a polygon that is flat or nearly
// so, its length twice the area (M. Newell's method, from memory).
func normalOf(points []r3.Vec, corners []int32) r3.Vec {
	var sum r3.Vec
	origin := points[corners[0]]
	for i, k := range corners {
		a, b := r3.Sub(points[k], origin), r3.Sub(points[corners[(i+1)%len(corners)]], origin)
		sum = r3.Add(sum, r3.Cross(a, b))
	}
	return sum
}

// turnAt is positive where a polygon turns left, seen from along its normal.
func turnAt(points []r3.Vec, a, b, c int32, normal r3.Vec) float64 {
	return r3.Dot(normal, r3.Cross(r3.Sub(points[b], points[a]), r3.Sub(points[c], points[b])))
}

func convex(points []r3.Vec, corners []int32, normal r3.Vec) bool {
	n := len(corners)
	for i := range corners {
		if turnAt(points, corners[i], corners[(i+1)%n], corners[(i+2)%n], normal) < 0 {
			return false
		}
	}
	return true
}

// ear returns a corner that can be cut off: one that turns left with no other
// corner in the triangle it makes with its neighbours; the first where rounding
// leaves none.
func ear(points []r3.Vec, corners []int32, normal r3.Vec) int {
	n := len(corners)
	for i := range corners {
		a, b, c := corners[(i+n-1)%n], corners[i], corners[(i+1)%n]
		if turnAt(points, a, b, c, normal) <= 0 {
			continue
		}
		clear := true
		for _, k := range corners {
			if k == a || k == b || k == c {
				continue
			}
			if turnAt(points, a, b, k, normal) >= 0 && turnAt(points, b, c, k, normal) >= 0 && turnAt(points, c, a, k, normal) >= 0 {
				clear = false
				break
			}
		}
		if clear {
			return i
		}
	}
	return 0
}
