package band_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/optimize/convex/lp"

	"floatarc/calibration/band"
)

// A program is a linear program over the error and over height and slope of each
// line: rows · v ≤ right.
type program struct {
	lines int
	rows  [][]float64
	right []float64
}

// row adds Σ coefficient · line(x) − e·error ≤ right.
func (p *program) row(e, right float64, terms ...term) {
	r := make([]float64, 1+2*p.lines)
	r[0] = -e
	for _, t := range terms {
		r[1+2*t.line] += t.by
		r[2+2*t.line] += t.by * t.x
	}
	p.rows, p.right = append(p.rows, r), append(p.right, right)
}

type term struct {
	line int
	by   float64
	x    float64
}

// least solves the program for the least error; +Inf if it has no solution.
func (p *program) least() float64 {
	n := 1 + 2*p.lines
	g := mat.NewDense(len(p.rows), n, nil)
	for i, r := range p.rows {
		g.SetRow(i, r)
	}
	c := make([]float64, n)
	c[0] = 1
	cStd, aStd, bStd := lp.Convert(c, g, p.right, nil, nil)
	best, _, err := lp.Simplex(cStd, aStd, bStd, 1e-11, nil)
	if err != nil {
		return math.Inf(1)
	}
	return best
}

// exhaustive tries every way to share the samples out among the lines of a path,
// level at its ends or spanning, and every way in which neighbours may cross, each
// a linear program. It knows nothing of corridors: between samples the path is
// free.
func exhaustive(samples []band.Sample, corners int, held bool) float64 {
	lines := corners - 1
	if held {
		lines = corners + 1
	}
	least := math.Inf(1)
	ends := make([]int, lines) // how many samples the lines up to this one have
	var place func(line int)
	place = func(line int) {
		from := 0
		if line > 0 {
			from = ends[line-1]
		}
		if line == lines-1 {
			ends[line] = len(samples)
			least = min(least, crossings(samples, ends, held, nil))
			return
		}
		for ends[line] = from; ends[line] <= len(samples); ends[line]++ {
			place(line + 1)
		}
	}
	place(0)
	return least
}

// crossings tries the ways in which each line may cross the one after it.
func crossings(samples []band.Sample, ends []int, held bool, above []bool) float64 {
	if len(above) < len(ends)-1 {
		return min(crossings(samples, ends, held, append(above, false)), crossings(samples, ends, held, append(above[:len(above):len(above)], true)))
	}
	p := program{lines: len(ends)}
	from := 0
	for i, to := range ends {
		for _, s := range samples[from:to] {
			p.row(1, s.Y, term{i, 1, s.X})   // at most e above the truth
			p.row(1, -s.Y, term{i, -1, s.X}) // at most e below
			p.row(0, min(1, s.Cap), term{i, 1, s.X})
			p.row(0, 0, term{i, -1, s.X})
		}
		if held && (i == 0 || i == len(ends)-1) {
			for _, by := range []float64{1, -1} {
				p.row(0, 0, term{i, by, 1}, term{i, -by, 0})
			}
		}
		from = to
	}
	// A line and the next that has samples cross in the gap between them, unless a
	// line without samples joins them there.
	for i := 0; i+1 < len(ends); i++ {
		last, next := ends[i], ends[i+1]
		empty := i > 0 && ends[i-1] == last || next == last
		if empty || last == 0 || last == len(samples) {
			continue
		}
		by := 1.0
		if above[i] {
			by = -1
		}
		p.row(0, 0, term{i, by, samples[last-1].X}, term{i + 1, -by, samples[last-1].X})
		p.row(0, 0, term{i, -by, samples[last].X}, term{i + 1, by, samples[last].X})
	}
	return p.least()
}

// TestAgainstExhaustiveSearch draws its bands from a fixed seed: the simplex method
// runs in circles on some degenerate programs.
func TestAgainstExhaustiveSearch(t *testing.T) {
	random := rand.New(rand.NewPCG(1, 2))
	for range 60 {
		b := &band.Band{Bottom: 0, Top: 1}
		x, y := 0.0, 0.0
		for range 3 + random.IntN(4) {
			y += 0.01 + 0.3*random.Float64()
			b.Samples = append(b.Samples, band.Sample{X: x, Y: min(y, 1), Cap: math.Inf(1), Gap: true})
			x += 0.1 + random.Float64()
		}
		corners, held := 2+random.IntN(2), random.IntN(2) == 0
		course := band.Corridor.Spanning
		if held {
			course = band.Corridor.Held
		}
		got, _, path, ok := b.Least(course, corners)
		if ok && got < 1e-10 {
			continue // nothing is better, and the programs degenerate
		}
		if want := exhaustive(b.Samples, corners, held); !ok || math.Abs(got-want) > 1e-9 {
			t.Errorf("%d corners, held %t: %.12g by the path %v, exhaustive search %.12g", corners, held, got, path, want)
		}
	}
}
