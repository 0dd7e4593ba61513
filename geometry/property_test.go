package geometry

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/integrate/quad"
	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
	"pgregory.net/rapid"
)

func drawHead(t *rapid.T, label string, diameter float64) Head {
	switch k := HeadKind(rapid.IntRange(0, 5).Draw(t, label)); k {
	case Cone, Ellipsoidal, Spherical:
		return Head{Kind: k, Depth: diameter * rapid.Float64Range(0.02, 0.5).Draw(t, label+" depth")}
	case Torispherical:
		return Head{Kind: k, KnuckleRadius: diameter * rapid.Float64Range(0.01, 0.4).Draw(t, label+" knuckle")}
	default:
		return Head{Kind: k}
	}
}

func drawSolid(t *rapid.T) Solid {
	size := rapid.Float64Range(50, 900)
	var s Solid
	var err error
	switch rapid.IntRange(0, 7).Draw(t, "shape") {
	case 0:
		b := Box{Length: size.Draw(t, "length"), Width: size.Draw(t, "width"), Height: size.Draw(t, "height"), Along: Axis(rapid.IntRange(0, 2).Draw(t, "along"))}
		u, v, _ := across3(b.Along, [3]float64{b.Length, b.Width, b.Height})
		b.Radius = min(u, v) / 2 * rapid.Float64Range(0, 1).Draw(t, "radius")
		s, err = b.Solid()
	case 1, 2:
		d := size.Draw(t, "diameter")
		s, err = Cylinder{Diameter: d, Length: size.Draw(t, "length"), Low: drawHead(t, "low", d), High: drawHead(t, "high", d)}.Solid()
	case 3:
		s, err = Oval{Width: size.Draw(t, "width"), Height: size.Draw(t, "height"), Length: size.Draw(t, "length")}.Solid()
	case 4:
		// A section with a tunnel, every corner rounded.
		w, h, r := size.Draw(t, "width"), size.Draw(t, "height"), rapid.Float64Range(0, 1).Draw(t, "fillet")
		r *= math.Min(w, h) / 8
		s, err = Sweep([]Corner{{0, 0, r}, {w / 3, 0, r}, {w / 2, h / 2, r}, {2 * w / 3, 0, r}, {w, h / 10, r}, {w, h, r}, {0, h, r}}, size.Draw(t, "length"), 0)
	case 5:
		low := rapid.OneOf(rapid.Just(0.0), size).Draw(t, "low")
		s, err = Frustum(low, size.Draw(t, "high"), size.Draw(t, "length"), 0)
	case 6:
		s, err = Ellipsoid(size.Draw(t, "length"), size.Draw(t, "width"), size.Draw(t, "height"), 0)
	case 7:
		s, err = NewLoft(drawStations(t))
	}
	if err != nil {
		t.Fatal(err)
	}
	turn := rapid.Float64Range(-180, 180)
	place := Turned(r3.Vec{X: size.Draw(t, "x"), Y: size.Draw(t, "y"), Z: size.Draw(t, "z")}, turn.Draw(t, "rx"), turn.Draw(t, "ry"), turn.Draw(t, "rz"))
	if rapid.Bool().Draw(t, "square") {
		place = Across(Axis(rapid.IntRange(0, 2).Draw(t, "axis")), place.Origin)
	}
	return Place(s, place)
}

// drawStations returns stations of four to six corners each, turned against each
// other; the last may be an edge or a point.
func drawStations(t *rapid.T) []Station {
	n := rapid.IntRange(2, 4).Draw(t, "stations")
	corners := rapid.IntRange(4, 6).Draw(t, "corners")
	var out []Station
	at := 0.0
	for i := range n {
		radius := rapid.Float64Range(100, 400).Draw(t, "radius")
		flat := rapid.Float64Range(0.4, 1).Draw(t, "flat")
		if i == n-1 {
			flat *= float64(rapid.SampledFrom([]int{1, 1, 0}).Draw(t, "edge"))
			radius *= float64(rapid.SampledFrom([]int{1, 1, 0}).Draw(t, "point"))
		}
		twist := rapid.Float64Range(-0.4, 0.4).Draw(t, "twist")
		s := Station{At: at}
		for k := range corners {
			sin, cos := math.Sincos(2*math.Pi*(float64(k)+0.2*math.Sin(3*float64(k+i)))/float64(corners) + twist)
			s.Points = append(s.Points, r2.Vec{X: 500 + radius*cos, Y: 300 + radius*flat*sin})
		}
		at += rapid.Float64Range(50, 500).Draw(t, "apart")
		out = append(out, s)
	}
	return out
}

func drawUp(t *rapid.T) r3.Vec {
	angle := rapid.OneOf(rapid.Just(0.0), rapid.Float64Range(-1e-6, 1e-6), rapid.Float64Range(-30, 30), rapid.SampledFrom([]float64{-90, 90, 180}))
	return Mount{}.Up(Attitude{NoseUp: angle.Draw(t, "nose up"), LeftUp: angle.Draw(t, "left up")})
}

func TestVolumeRisesWithLevel(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s, n := drawSolid(t), drawUp(t)
		cut, whole := s.Cut(n), Volume(s)
		lo, hi := s.Extent(n)
		before := cut.Volume(lo)
		for i := 1; i <= 40; i++ {
			v := cut.Volume(lo + (hi-lo)*float64(i)/40)
			if v < before-1e-11*whole {
				t.Fatalf("volume falls from %g to %g", before, v)
			}
			before = v
		}
		if math.Abs(cut.Volume(lo)) > 1e-10*whole || math.Abs(before-whole) > 1e-10*whole {
			t.Fatalf("ends at %g and %g of %g", cut.Volume(lo), before, whole)
		}
	})
}

func TestUpsideDownIsTheComplement(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s, n := drawSolid(t), drawUp(t)
		lo, hi := s.Extent(n)
		h := lo + (hi-lo)*rapid.Float64Range(0, 1).Draw(t, "level")
		whole := Volume(s)
		sum := s.Cut(n).Volume(h) + s.Cut(r3.Scale(-1, n)).Volume(-h)
		if math.Abs(sum-whole) > 1e-10*whole {
			t.Fatalf("the two parts make %.15g of %.15g", sum, whole)
		}
	})
}

func TestTurningTheFrameChangesNothing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s, n := drawSolid(t), drawUp(t)
		lo, hi := s.Extent(n)
		h := lo + (hi-lo)*rapid.Float64Range(0, 1).Draw(t, "level")
		turn := rapid.Float64Range(-180, 180)
		f := Turned(r3.Vec{X: 700, Y: -300, Z: 90}, turn.Draw(t, "a"), turn.Draw(t, "b"), turn.Draw(t, "c"))
		m := r3.Add(r3.Add(r3.Scale(n.X, f.U), r3.Scale(n.Y, f.V)), r3.Scale(n.Z, f.W))
		want := s.Cut(n).Volume(h)
		got := Place(s, f).Cut(m).Volume(h + r3.Dot(m, f.Origin))
		if math.Abs(got-want) > 1e-9*Volume(s) {
			t.Fatalf("turned %.15g, unturned %.15g", got, want)
		}
	})
}

func TestSurfaceIsTheRateOfVolume(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s, n := drawSolid(t), drawUp(t)
		lo, hi := s.Extent(n)
		a := rapid.Float64Range(0, 1).Draw(t, "from")
		b := rapid.Float64Range(0, 1).Draw(t, "to")
		from, to := lo+(hi-lo)*min(a, b), lo+(hi-lo)*max(a, b)
		cut := s.Cut(n)
		// Many short panels; where the area bends or jumps within one, the rule
		// may be off by the panel's width times the bend, which is summed up
		// as the tolerance.
		const panels = 400
		width := (to - from) / panels
		sum, bends := 0.0, 0.0
		for i := range panels {
			x0 := from + width*float64(i)
			sum += quad.Fixed(cut.Surface, x0, x0+width, 3, nil, 0)
			bends += width * math.Abs(cut.Surface(x0)-2*cut.Surface(x0+width/2)+cut.Surface(x0+width))
		}
		if got := cut.Volume(to) - cut.Volume(from); math.Abs(got-sum) > bends+1e-9*Volume(s) {
			t.Fatalf("volume grows by %.12g, the surface's integral is %.12g ± %.3g", got, sum, bends)
		}
	})
}

func TestMomentIsTheSumOfLevels(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s, n := drawSolid(t), drawUp(t)
		lo, hi := s.Extent(n)
		top := lo + (hi-lo)*rapid.Float64Range(0, 1).Draw(t, "level")
		cut := s.Cut(n)
		// n·moment = ∫ h dV = top V(top) - ∫ V dh.
		const panels = 100
		sum := 0.0
		for i := range panels {
			x0, x1 := lo+(top-lo)*float64(i)/panels, lo+(top-lo)*float64(i+1)/panels
			sum += quad.Fixed(cut.Volume, x0, x1, 4, nil, 0)
		}
		want := top*cut.Volume(top) - sum
		got := r3.Dot(n, cut.Moment(top))
		if size := Volume(s) * (hi - lo + math.Abs(top)); math.Abs(got-want) > 1e-6*size {
			t.Fatalf("moment %.12g, from levels %.12g", got, want)
		}
	})
}

// TestFreeSurfaceIsTheRateOfMoments compares the area and its first moments with
// differences of the volume and of its moments; the second moments with those of
// the first under a shift along the level vector, and with a whole turn.
func TestFreeSurfaceIsTheRateOfMoments(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s, n := drawSolid(t), drawUp(t)
		lo, hi := s.Extent(n)
		h := lo + (hi-lo)*rapid.Float64Range(0.02, 0.98).Draw(t, "level")
		cut := s.Cut(n)
		f := cut.FreeSurface(h)
		if a := cut.Surface(h); math.Abs(f.Area-a) > 1e-6*(a+Volume(s)/(hi-lo)) {
			t.Fatalf("area %.12g, surface %.12g", f.Area, a)
		}
		// Where the surface bends within the step, the difference is no rate.
		step := 1e-5 * (hi - lo)
		bend := math.Abs(cut.Surface(h-step)-2*cut.Surface(h)+cut.Surface(h+step)) / (Volume(s) / (hi - lo))
		rate := r3.Scale(1/(2*step), r3.Sub(cut.Moment(h+step), cut.Moment(h-step)))
		reach := math.Abs(h) + hi - lo + r3.Norm(r3.Scale(1/Volume(s), cut.Moment(hi)))
		if off := r3.Norm(r3.Sub(rate, f.First)) / (Volume(s) / (hi - lo) * reach); off > 2e-4+2*bend {
			t.Fatalf("moments of the surface %v, rate of the moments %v, off %g, bend %g", f.First, rate, off, bend)
		}
		// All of the surface lies at n·p = h.
		if off := r3.Norm(r3.Sub(f.Second.Apply(n), r3.Scale(h, f.First))); off > 1e-6*reach*reach*Volume(s)/(hi-lo) {
			t.Fatalf("second moment along up %v, expected %v", f.Second.Apply(n), r3.Scale(h, f.First))
		}
	})
}

// TestSecondMomentsTurnWithTheFrame holds second moments about lines in the
// surface against those of the turned solid.
func TestSecondMomentsTurnWithTheFrame(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s, n := drawSolid(t), drawUp(t)
		lo, hi := s.Extent(n)
		h := lo + (hi-lo)*rapid.Float64Range(0.02, 0.98).Draw(t, "level")
		turn := rapid.Float64Range(-180, 180)
		f := Turned(r3.Vec{X: 700, Y: -300, Z: 90}, turn.Draw(t, "a"), turn.Draw(t, "b"), turn.Draw(t, "c"))
		out := func(v r3.Vec) r3.Vec {
			return r3.Add(r3.Add(r3.Scale(v.X, f.U), r3.Scale(v.Y, f.V)), r3.Scale(v.Z, f.W))
		}
		m, axis := out(n), Beside(n)
		want := s.Cut(n).FreeSurface(h).About(axis, n)
		got := Place(s, f).Cut(m).FreeSurface(h+r3.Dot(m, f.Origin)).About(out(axis), m)
		if size := math.Pow(Volume(s), 4./3); math.Abs(got-want) > 1e-8*size {
			t.Fatalf("turned %.12g, unturned %.12g", got, want)
		}
	})
}

// TestClearanceIsFree goes from a point its clearance in many directions, which
// must not leave the solid or enter it.
func TestClearanceIsFree(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := drawSolid(t)
		var p r3.Vec
		for i, axis := range []r3.Vec{{X: 1}, {Y: 1}, {Z: 1}} {
			lo, hi := s.Extent(axis)
			p = r3.Add(p, r3.Scale(lo+(hi-lo)*rapid.Float64Range(-0.1, 1.1).Draw(t, string(rune('x'+i))), axis))
		}
		inside, clear := s.Contains(p), s.Clearance(p)
		if !(clear >= 0) || math.IsInf(clear, 0) {
			t.Fatalf("clearance %g", clear)
		}
		if clear < 1e-4 {
			return // the boundary belongs to the solid, to within a billionth
		}
		for i := range 60 {
			q := r3.Add(p, r3.Scale(clear*(1-1e-6)-1e-5, Direction(i, 60)))
			if s.Contains(q) != inside {
				t.Fatalf("%g mm from %v, clearance %g, the solid is crossed", clear, p, clear)
			}
		}
	})
}

func TestCentreLiesInside(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := rapid.Float64Range(50, 900).Draw(t, "diameter")
		s, err := Cylinder{Diameter: d, Length: 300, Low: drawHead(t, "low", d), High: drawHead(t, "high", d)}.Solid()
		if err != nil {
			t.Fatal(err)
		}
		n := drawUp(t)
		lo, hi := s.Extent(n)
		h := lo + (hi-lo)*rapid.Float64Range(0.01, 1).Draw(t, "level")
		cut := s.Cut(n)
		centre := r3.Scale(1/cut.Volume(h), cut.Moment(h))
		if !s.Contains(centre) || r3.Dot(n, centre) > h {
			t.Fatalf("the centre %v of a convex tank's fuel lies outside the fuel", centre)
		}
	})
}

// TestQuadratureReachesItsPromise compares cuts of revolved heads with the same
// integrals on many times as many panels, each a tiny part of the width.
func TestQuadratureReachesItsPromise(t *testing.T) {
	worst := 0.0
	rapid.Check(t, func(t *rapid.T) {
		d := rapid.Float64Range(50, 900).Draw(t, "diameter")
		h := drawHead(t, "head", d)
		e, err := h.resolve(d/2, 0, "head")
		if err != nil {
			t.Fatal(err)
		}
		if e.meridian == nil {
			return
		}
		body := newRevolved(e.meridian...)
		n := drawUp(t)
		lo, hi := body.Extent(n)
		level := lo + (hi-lo)*rapid.Float64Range(0, 1).Draw(t, "level")
		cut := body.Cut(n).(*revolvedCut)
		want := 0.0
		cut.panels(level, func(p panel) {
			const parts = 64
			for i := range parts {
				a := p.from + (p.to-p.from)*float64(i)/parts
				b := p.from + (p.to-p.from)*float64(i+1)/parts
				want += apply(softened(24), func(x float64) float64 {
					_, r, k := cut.level(p, x, level)
					return r * r * segmentArea(k) * p.speed(x)
				}, a, b)
			}
		})
		off := math.Abs(cut.Volume(level)-want) / body.volume
		worst = math.Max(worst, off)
		if off > 1e-10 {
			t.Fatalf("off by %g of the capacity", off)
		}
	})
	t.Logf("worst error of a cut: %.2g of the capacity", worst)
}
