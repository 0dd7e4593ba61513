package mesh

import "math"

// Where the running polynomial of the sweep starts anew. One polynomial over the
// whole height would keep the rounding of every strip that it has ended; a slab
// keeps only that of its own, and starts from the strips that reach into it.
const usualSlabs = 256

// slabs returns the first knots of the slabs. near is how many knots a strip
// may span and still be added to each of them by itself: what spans more is
// never thinner than near gaps. What a strip leaves behind grows with the
// square of the slab's height over the strip's, and with the strip's area; a
// slab therefore ends where the thinnest run of near gaps gets too thin for its
// height, which makes thin slabs of thin crowds of knots, a floor with the
// rounding of single precision, say.
func slabs(knots []float64, near, faces int) []int32 {
	starts := []int32{0}
	pieces := len(knots) - 1
	tallest := max(16, pieces/usualSlabs)
	ratio := math.Sqrt(10 * float64(faces))
	most := 8 * usualSlabs
	begin, thinnest := 0, math.Inf(1)
	for k := 1; k <= pieces; k++ { // the slab would reach up to knot k
		newest := math.Inf(1)
		if k >= near { // it may reach below the slab, as a strip that ends here does
			newest = knots[k] - knots[k-near]
		}
		least := min(thinnest, newest)
		next := 0
		switch {
		case k-begin > tallest:
			next = k - 1
		case len(starts) < most && knots[k]-knots[begin] > ratio*least:
			next = k - 1
			if newest < thinnest && k-near > begin {
				next = k - near // a crowd starts there
			}
		}
		if next > begin {
			starts = append(starts, int32(next))
			begin, thinnest = next, math.Inf(1)
			k = next // look at the knots above again
			continue
		}
		thinnest = least
	}
	return starts
}
