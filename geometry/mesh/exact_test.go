package mesh_test

import (
	"flag"
	"math"
	"math/big"
	"math/rand/v2"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"

	"floatarc/geometry"
	"floatarc/geometry/mesh"
	"floatarc/geometry/mesh/meshtest"
)

// A point in exact rational arithmetic.
type point [3]*big.Rat

func rat(x float64) *big.Rat { return new(big.Rat).SetFloat64(x) }

func exactly(p r3.Vec) point { return point{rat(p.X), rat(p.Y), rat(p.Z)} }

func mul(a ...*big.Rat) *big.Rat {
	out := big.NewRat(1, 1)
	for _, x := range a {
		out.Mul(out, x)
	}
	return out
}

func plus(a ...*big.Rat) *big.Rat {
	out := new(big.Rat)
	for _, x := range a {
		out.Add(out, x)
	}
	return out
}

func minus(a, b *big.Rat) *big.Rat { return new(big.Rat).Sub(a, b) }

func (p point) dot(q point) *big.Rat {
	return plus(mul(p[0], q[0]), mul(p[1], q[1]), mul(p[2], q[2]))
}

func (p point) sub(q point) point {
	return point{minus(p[0], q[0]), minus(p[1], q[1]), minus(p[2], q[2])}
}

func (p point) cross(q point) point {
	return point{
		minus(mul(p[1], q[2]), mul(p[2], q[1])), minus(mul(p[2], q[0]), mul(p[0], q[2])), minus(mul(p[0], q[1]), mul(p[1], q[0])),
	}
}

// below returns the part of a triangle with n·p ≤ h (I. Sutherland and
// G. Hodgman, "Reentrant Polygon Clipping", 1974).
func below(triangle [3]point, n point, h *big.Rat) []point {
	var out []point
	for i, a := range triangle {
		b := triangle[(i+1)%3]
		da, db := minus(a.dot(n), h), minus(b.dot(n), h)
		if da.Sign() <= 0 {
			out = append(out, a)
		}
		if da.Sign()*db.Sign() < 0 {
			t := new(big.Rat).Quo(da, minus(da, db))
			ab := b.sub(a)
			out = append(out, point{plus(a[0], mul(t, ab[0])), plus(a[1], mul(t, ab[1])), plus(a[2], mul(t, ab[2]))})
		}
	}
	return out
}

// exact returns the volume and the first moments below n·p = h in exact
// arithmetic: triangles clipped one by one, and the divergence theorem with
// fields along e, which is at right angles to n, so that the level plane itself
// adds nothing. With d = e·e:
//
//	div e (e·p) = d,  div e (e·p)²/2 = d e·p,  div e (e·p)(q·p) = d q·p for q ⊥ e
func exact(points []r3.Vec, faces [][3]int32, up r3.Vec, level float64) (volume float64, moment r3.Vec) {
	n, h := exactly(up), rat(level)
	e := point{n[1], new(big.Rat).Neg(n[0]), new(big.Rat)}
	if e.dot(e).Sign() == 0 {
		e = point{big.NewRat(1, 1), new(big.Rat), new(big.Rat)}
	}
	f := n.cross(e)
	sums := [4]*big.Rat{new(big.Rat), new(big.Rat), new(big.Rat), new(big.Rat)} // 1, e·p, f·p, n·p
	for _, face := range faces {
		part := below([3]point{exactly(points[face[0]]), exactly(points[face[1]]), exactly(points[face[2]])}, n, h)
		for i := 2; i < len(part); i++ {
			t := [3]point{part[0], part[i-1], part[i]}
			flux := mul(big.NewRat(1, 2), e.dot(t[1].sub(t[0]).cross(t[2].sub(t[0])))) // e · area
			along := func(q point) [3]*big.Rat { return [3]*big.Rat{t[0].dot(q), t[1].dot(q), t[2].dot(q)} }
			pe := along(e)
			mean := func(a, b [3]*big.Rat) *big.Rat { // of the product over the triangle
				s := mul(plus(a[0], a[1], a[2]), plus(b[0], b[1], b[2]))
				return mul(big.NewRat(1, 12), plus(s, mul(a[0], b[0]), mul(a[1], b[1]), mul(a[2], b[2])))
			}
			sums[0].Add(sums[0], mul(flux, big.NewRat(1, 3), plus(pe[0], pe[1], pe[2])))
			sums[1].Add(sums[1], mul(flux, big.NewRat(1, 2), mean(pe, pe)))
			sums[2].Add(sums[2], mul(flux, mean(pe, along(f))))
			sums[3].Add(sums[3], mul(flux, mean(pe, along(n))))
		}
	}
	d := e.dot(e)
	get := func(i int) *big.Rat { return new(big.Rat).Quo(sums[i], d) }
	// Back from the components along e, f, n.
	var out [3]*big.Rat
	for k := range out {
		out[k] = new(big.Rat)
		for i, q := range []point{e, f, n} {
			out[k].Add(out[k], new(big.Rat).Quo(mul(get(i+1), q[k]), q.dot(q)))
		}
	}
	volume, _ = get(0).Float64()
	x, _ := out[0].Float64()
	y, _ := out[1].Float64()
	z, _ := out[2].Float64()
	return volume, r3.Vec{X: x, Y: y, Z: z}
}

// lumps are small closed surfaces of the kinds that are hard to cut: flat floors,
// floors with the rounding of single precision, thin slabs, far from the origin.
func lumps(rng *rand.Rand) map[string]*mesh.Facets {
	single := func(p r3.Vec) r3.Vec {
		return r3.Vec{X: float64(float32(p.X)), Y: float64(float32(p.Y)), Z: float64(float32(p.Z))}
	}
	rough := func(a, b, c int, size, by r3.Vec, at r3.Vec, keep func(r3.Vec) r3.Vec) *mesh.Facets {
		known := map[r3.Vec]r3.Vec{}
		return meshtest.Block(a, b, c, func(u, v, w float64) r3.Vec {
			key := r3.Vec{X: u, Y: v, Z: w}
			p, ok := known[key]
			if !ok {
				shake := func() float64 { return 2*rng.Float64() - 1 }
				p = keep(r3.Vec{X: at.X + size.X*u + by.X*shake(), Y: at.Y + size.Y*v + by.Y*shake(), Z: at.Z + size.Z*w + by.Z*shake()})
				known[key] = p
			}
			return p
		})
	}
	same := func(p r3.Vec) r3.Vec { return p }
	size, none := r3.Vec{X: 620, Y: 320, Z: 240}, r3.Vec{}
	return map[string]*mesh.Facets{
		"box":           rough(1, 1, 1, size, none, none, same),
		"finer box":     rough(7, 5, 6, size, none, none, same),
		"rough box":     rough(5, 4, 3, size, r3.Vec{X: 30, Y: 30, Z: 30}, r3.Vec{X: 100, Y: -50, Z: 20}, same),
		"single floor":  rough(6, 6, 4, size, r3.Vec{Z: 3e-5}, r3.Vec{X: 311, Y: 77, Z: 250}, single),
		"nearly flat":   rough(6, 6, 4, size, r3.Vec{Z: 1e-9}, none, same),
		"hardly rough":  rough(5, 5, 5, size, r3.Vec{X: 1e-12, Y: 1e-12, Z: 1e-12}, none, same),
		"thin slab":     rough(5, 4, 1, r3.Vec{X: 600, Y: 300, Z: 2}, r3.Vec{Z: 0.3}, none, same),
		"far away":      rough(4, 3, 3, size, r3.Vec{X: 20, Y: 20, Z: 20}, r3.Vec{X: 8000, Y: -9000, Z: 5000}, single),
		"saddle":        meshtest.Saddle(300),
		"finer saddle":  meshtest.Saddle(900),
		"round vessel":  meshtest.Lathe([][2]float64{{0, 0}, {10, 80}, {60, 160}, {500, 160}, {560, 70}, {570, 0}}, 24),
		"stepped shaft": meshtest.Lathe([][2]float64{{0, 90}, {200, 90}, {200, 150}, {400, 150}}, 17),
	}
}

var attitudes = flag.Int("attitudes", 2, "number of attitudes, up to 8, at which each lump is cut exactly")

// TestAgainstExactArithmetic holds volumes and first moments against rational
// arithmetic (math/big), at random levels, at vertex heights, and at attitudes at
// which floors are level, nearly level, and turned by a rounding error.
func TestAgainstExactArithmetic(t *testing.T) {
	rng := rand.New(rand.NewPCG(4, 2))
	ups := []r3.Vec{
		{Z: 1}, {X: 1}, {Y: -1}, {X: 2, Y: 3, Z: 6}, {X: 1e-9, Z: 1}, {X: 1e-14, Y: -1e-15, Z: 1}, tilt, {X: 0.3, Y: -0.2, Z: 0.9},
	}
	worst, worstMoment, worstClaim := 0.0, 0.0, 0.0
	for name, f := range lumps(rng) {
		m, err := mesh.New(f, mesh.Solid)
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		whole := geometry.Volume(m)
		lo, hi := m.Box()
		reach := math.Max(r3.Norm(lo), r3.Norm(hi))
		rng.Shuffle(len(ups), func(i, j int) { ups[i], ups[j] = ups[j], ups[i] })
		for _, up := range ups[:*attitudes] {
			cut := m.Cut(up)
			low, high := m.Extent(up)
			levels := []float64{low + (high-low)*rng.Float64(), r3.Dot(up, f.Points[rng.IntN(len(f.Points))])}
			if *attitudes > 2 {
				levels = append(levels, low, high, low+(high-low)*1e-6, high-(high-low)*1e-9, low+(high-low)*rng.Float64())
			}
			for _, h := range levels {
				want, wantMoment := exact(f.Points, f.Faces, up, h)
				off := math.Abs(cut.Volume(h)-want) / whole
				offMoment := r3.Norm(r3.Sub(cut.Moment(h), wantMoment)) / (whole * reach)
				worst, worstMoment = math.Max(worst, off), math.Max(worstMoment, offMoment)
				// A vertex height is told to the rounding of the level alone.
				slack := cut.Surface(h) * 4e-16 * (math.Abs(h) + reach) * r3.Norm(up) / whole
				if off > 1e-12+slack || offMoment > 1e-12+slack {
					t.Errorf("%s, up %v, level %g: volume %.17g, exactly %.17g, off by %.2g; moment off by %.2g", name, up, h, cut.Volume(h), want, off, offMoment)
				}
			}
			worstClaim = math.Max(worstClaim, cut.Error()/whole)
		}
	}
	t.Logf("worst volume %.2g, worst moment %.2g of the capacity (times the reach); error claimed up to %.2g", worst, worstMoment, worstClaim)
}
