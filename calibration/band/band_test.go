package band_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"floatarc/calibration/band"
)

// sampled returns the band around a function at n+1 even places.
func sampled(f func(float64) float64, from, to float64, n int) *band.Band {
	b := &band.Band{Bottom: math.Inf(-1), Top: math.Inf(1)}
	for i := range n + 1 {
		x := from + (to-from)*float64(i)/float64(n)
		b.Samples = append(b.Samples, band.Sample{X: x, Y: f(x), Cap: math.Inf(1)})
	}
	return b
}

func square(x float64) float64 { return x * x }

// TestExactOptima checks the least worst error of N links against the exact
// optima (approximation theory; for convex or concave functions a free line
// halves the error of the best chords): x² on [0,1] 1/(8N²), √x on [0,1]
// 1/(4N(N+1)), sin x on [0, π/2] half of the tabled chord errors.
func TestExactOptima(t *testing.T) {
	const n = 20000
	check := func(name string, b *band.Band, links int, want, tolerance float64) {
		t.Helper()
		b.Bottom, b.Top = -1, 2
		got, _, path, ok := b.Least(band.Corridor.Spanning, links+1)
		if !ok || len(path) > links+1 || math.Abs(got-want) > tolerance {
			t.Errorf("%s, %d links: %.12g with %d corners, expected %.12g", name, links, got, len(path), want)
		}
	}
	for links := 1; links <= 16; links++ {
		k := float64(links)
		check("x²", sampled(square, 0, 1, n), links, 1/(8*k*k), 1e-8)
		// The samples see √x coarsely next to 0: even in the root they do not.
		b := &band.Band{}
		for i := range n + 1 {
			y := float64(i) / n
			b.Samples = append(b.Samples, band.Sample{X: y * y, Y: y, Cap: math.Inf(1)})
		}
		check("√x", b, links, 1/(4*k*(k+1)), 1e-8)
	}
	for links, chord := range map[int]float64{1: .2105136624, 2: .04850012398, 3: .02099273672, 4: .0116551069, 5: .007401417117, 8: .002857841173} {
		check("sin x", sampled(math.Sin, 0, math.Pi/2, n), links, chord/2, 1e-8)
	}
}

// cylinder is the share of a lying cylinder filled to h of its diameter (Perry's
// Chemical Engineers' Handbook, sec. 10; from memory).
func cylinder(h float64) float64 {
	k := 1 - 2*h
	return (math.Acos(k) - k*math.Sqrt(1-k*k)) / math.Pi
}

// TestMinimumSegments checks the published problem of H. Imai and M. Iri
// (Computational-geometric methods for polygonal approximations of a curve, CVGIP
// 36, 1986): the fewest segments whose ends are chosen among 101 points of the
// curve, within a vertical tolerance at the points. The counts were computed by
// two independent programs.
func TestMinimumSegments(t *testing.T) {
	tolerances := []float64{0.0201, 0.0101, 0.0051, 0.00205, 0.00101}
	for name, row := range map[string]struct {
		f    func(float64) float64
		want []int
	}{
		"lying cylinder": {cylinder, []int{3, 5, 7, 11, 17}},
		"x²":             {square, []int{4, 5, 8, 12, 17}},
		"√x":             {math.Sqrt, []int{5, 6, 8, 13, 18}},
	} {
		b := sampled(row.f, 0, 1, 100)
		b.Bottom, b.Top = -1, 2
		var stops []band.Stop
		for _, s := range b.Samples {
			stops = append(stops, band.Stop{X: s.X, Y: []float64{s.Y}})
		}
		for i, e := range tolerances {
			path, ok := b.Corridor(e, e).OnGrid(stops, false, 101)
			if !ok || len(path)-1 != row.want[i] {
				t.Errorf("%s within %g: %d segments, published problem %d", name, e, len(path)-1, row.want[i])
			}
			// Free corners never need more.
			free, ok := b.Corridor(e, e).Spanning(101)
			if !ok || len(free) > len(path) {
				t.Errorf("%s within %g: %d free corners, %d on the curve", name, e, len(free), len(path))
			}
		}
	}
}

// drawBand draws a band of few samples, rising or not, some sharing their X, some
// with gaps and caps.
func drawBand(t *rapid.T, rising bool) *band.Band {
	n := rapid.IntRange(3, 9).Draw(t, "samples")
	b := &band.Band{Bottom: 0, Top: 1}
	x, y := 0.0, rapid.Float64Range(0, 0.3).Draw(t, "y")
	for i := range n {
		s := band.Sample{X: x, Y: y, Cap: math.Inf(1)}
		if i < n-1 {
			s.Gap = rapid.Bool().Draw(t, "gap")
		}
		b.Samples = append(b.Samples, s)
		if rapid.IntRange(0, 4).Draw(t, "same") > 0 {
			x += rapid.Float64Range(0.05, 1).Draw(t, "dx")
		}
		if y = rapid.Float64Range(0, 1).Draw(t, "y"); rising {
			y = max(y, s.Y)
		}
	}
	if x == 0 {
		t.Skip("all samples at one X")
	}
	return b
}

// TestPathsStayInside holds the path of the least error against the truth, at the
// samples and, where there is no gap, at its corners too.
func TestPathsStayInside(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := drawBand(t, rapid.Bool().Draw(t, "rising"))
		corners := rapid.IntRange(2, 5).Draw(t, "corners")
		held := rapid.Bool().Draw(t, "held")
		course := band.Corridor.Spanning
		if held {
			course = band.Corridor.Held
		}
		worst, _, path, ok := b.Least(course, corners)
		if !ok {
			if !held {
				return
			}
			t.Fatalf("no path with %d corners", corners)
		}
		if len(path) > corners {
			t.Fatalf("%d corners, asked for %d", len(path), corners)
		}
		for i, v := range path {
			if v.Y < -1e-9 || v.Y > 1+1e-9 || i > 0 && v.X < path[i-1].X {
				t.Fatalf("corners %v", path)
			}
		}
		for _, s := range b.Samples {
			// A path that is all but upright is one at this X from both sides.
			least := math.Inf(1)
			for _, x := range []float64{s.X - 1e-9, s.X, s.X + 1e-9} {
				least = min(least, math.Abs(show(path, x)-s.Y))
			}
			if least > worst+1e-6 {
				t.Fatalf("at %g the path %v is off by %g, promised %g", s.X, path, least, worst)
			}
		}
	})
}

// show runs along a path, held at its ends.
func show(path []band.Vertex, x float64) float64 {
	if x <= path[0].X {
		return path[0].Y
	}
	for i := 1; i < len(path); i++ {
		if a, b := path[i-1], path[i]; x <= b.X && b.X > a.X {
			return a.Y + (b.Y-a.Y)*(x-a.X)/(b.X-a.X)
		}
	}
	return path[len(path)-1].Y
}

// TestGridIsAnUpperBound solves the same problem by going over a grid of corners:
// never better than the least error, and closer to it on a finer grid.
func TestGridIsAnUpperBound(t *testing.T) {
	b := &band.Band{Bottom: 0, Top: 1}
	for i := range 201 {
		x := float64(i) / 200
		b.Samples = append(b.Samples, band.Sample{X: x, Y: cylinder(x), Cap: math.Inf(1)})
	}
	for corners := 2; corners <= 4; corners++ {
		least, _, _, _ := b.Least(band.Corridor.Held, corners)
		before := math.Inf(1)
		for _, fine := range []int{20, 40, 80} {
			got, _, _, ok := b.Least(band.OnGrid(even(fine), true), corners)
			if !ok || got < least-1e-9 || got > before+1e-9 {
				t.Errorf("%d corners on a grid of %d: %.9g, on a coarser one %.9g, free %.9g", corners, fine, got, before, least)
			}
			before = got
		}
		if before-least > 0.01 {
			t.Errorf("%d corners: %.6g on the finest grid, free %.6g", corners, before, least)
		}
	}
}

// even returns a grid of n steps each way.
func even(n int) []band.Stop {
	y := make([]float64, n+1)
	for i := range y {
		y[i] = float64(i) / float64(n)
	}
	stops := make([]band.Stop, n+1)
	for i := range stops {
		stops[i] = band.Stop{X: float64(i) / float64(n), Y: y}
	}
	return stops
}

// TestScale: a band a million times as high has a million times the error, and ends
// that are infinite, or nearer than the truth, are none the worse for it.
func TestScale(t *testing.T) {
	small := sampled(square, 0, 1, 500)
	small.Bottom, small.Top = -1, 2
	large := sampled(func(x float64) float64 { return 1e6 * square(x) }, 0, 1, 500)
	for _, course := range []band.Course{band.Corridor.Spanning, band.Corridor.Held} {
		a, _, _, _ := small.Least(course, 3)
		b, _, path, ok := large.Least(course, 3)
		if !ok || math.Abs(b/1e6-a) > 1e-9 {
			t.Errorf("%g with the path %v, a millionth of it %g", b, path, a)
		}
	}
	narrow := sampled(func(x float64) float64 { return x }, 0, 1, 100)
	narrow.Bottom, narrow.Top = 0.4, 0.6
	if e, _, path, ok := narrow.Least(band.Corridor.Held, 1); !ok || len(path) != 1 || math.Abs(e-0.5) > 1e-9 {
		t.Errorf("%g with the path %v, expected 0.5 with one corner", e, path)
	}
}

// BenchmarkLeast places 16 held points on a curve of 10,000 samples.
func BenchmarkLeast(b *testing.B) {
	curve := sampled(cylinder, 0, 1, 9999)
	curve.Bottom, curve.Top = 0, 1
	for b.Loop() {
		if _, _, _, ok := curve.Least(band.Corridor.Held, 16); !ok {
			b.Fatal("no path")
		}
	}
}
