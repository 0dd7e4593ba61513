package calibration_test

import (
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"floatarc/calibration"
	"floatarc/gauge"
	"floatarc/geometry"
	"floatarc/tanks"
)

// straightBox is a box with a probe: the ohms at the terminals are linear in the litres,
// from 240 at the empty mark to 33 at the full one.
var straightBox = []string{
	"tank.body=[{shape=\"box\", length=600, width=200, height=250}]", "tank.fill.height=230", "tank.pickup.at=[300,100,10]", "tank.rated=30",
	"sender={kind=\"probe\", foot=[300,100,10], head=[300,100,230], resistance={low=240, high=33}}", "wiring.length=0", "wiring.ground=0", "gauge.empty=0",
}

func ranged(t testing.TB, empty, full float64) gauge.Range {
	t.Helper()
	r, err := gauge.LinearRange("test", empty, full)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

func near(t *testing.T, what string, got, want float64) {
	t.Helper()
	if math.Abs(got-want) > 1e-6 {
		t.Errorf("%s: %.9g, by hand %.9g", what, got, want)
	}
}

// every returns whole ohms from 1 up.
func every(n int) (stock []float64) {
	for i := range n {
		stock = append(stock, float64(i+1))
	}
	return stock
}

// TestMatchByHand: a gauge of the sender's own range is right everywhere; what a sender of
// half or twice the ohms, or with some too few, leaves is worked out by hand.
func TestMatchByHand(t *testing.T) {
	of := func(low, high string) *calibration.Matching {
		r := load(t, tanks.Demo, append(slices.Clone(straightBox), "sender.resistance={low="+low+", high="+high+"}")...)
		return r.Matching(r.Level)
	}
	wanted := ranged(t, 240, 33)
	same := of("240", "33").Choose(wanted.Needle, every(400), true)
	near(t, "of its own range", same.Straight.Worst.Percent, 0)
	if same.Best().Network.Count() != 0 {
		t.Errorf("%+v is to help a gauge that is right", same.Best().Network)
	}

	// 200 to 2 ohm on 240 to 42: 40 ohm in series are exact.
	shifted := of("200", "2").Choose(ranged(t, 240, 42).Needle, every(400), true)
	near(t, "40 ohm short", shifted.Straight.Worst.Percent, 100*40./198)
	if shifted.Series == nil || shifted.Series.Network.Series != 40 || shifted.Both != nil || shifted.Parallel != nil {
		t.Fatalf("%+v, expected 40 ohm in series alone", shifted)
	}
	near(t, "40 ohm in series", shifted.Series.Worst.Percent, 0)

	// 120 to 16.5 ohm: straight, empty shows (240-120)/207. In series half of the span lacks
	// however far it is shifted: a quarter of the dial at each end with 68.25 ohm, with 68
	// an ohm/4 more on empty. A part in parallel makes it worse.
	half := of("120", "16.5").Choose(wanted.Needle, every(400), true)
	near(t, "half the ohms", half.Straight.Worst.Percent, 100*120./207)
	if half.Series == nil || half.Series.Network.Series != 68 || half.Parallel != nil || half.Both != nil {
		t.Fatalf("%+v, expected 68 ohm in series alone", half)
	}
	near(t, "half the ohms, in series", half.Series.Worst.Percent, 100*(240-188)/207.)

	// 480 to 66 ohm on 240 to 33: no series part helps. In parallel 480 alone is right on
	// empty, but shows 66 ∥ 480 on full, and bends: with x in parallel, by the closed form
	// the worst of both and of the middle.
	twice := of("480", "66").Choose(wanted.Needle, every(600), true)
	if twice.Series != nil || twice.Parallel == nil {
		t.Fatalf("%+v, expected a part in parallel", twice)
	}
	least := math.Inf(1)
	for _, p := range every(600) {
		worst := 0.0
		for i := range 10001 {
			share := float64(i) / 10000
			r := 480 - share*(480-66)
			shown := math.Max(0, math.Min(1, (240-r*p/(r+p))/207))
			worst = math.Max(worst, 100*math.Abs(shown-share))
		}
		least = math.Min(least, worst)
	}
	if got := twice.Parallel.Worst.Percent; math.Abs(got-least) > 1e-4 {
		t.Errorf("twice the ohms, in parallel: %.6f, on 10001 quantities %.6f", got, least)
	}
}

// TestMatchAgainstAllPairs: nothing that a drawer holds does better than what is chosen,
// by the worst error measured in full.
func TestMatchAgainstAllPairs(t *testing.T) {
	rigs := map[string]*calibration.Rig{}
	for _, name := range []string{"demo", "camper", "sprayer", "launch"} {
		rigs[name] = load(t, name)
	}
	rapid.Check(t, func(t *rapid.T) {
		r := rigs[rapid.SampledFrom([]string{"demo", "camper", "sprayer", "launch"}).Draw(t, "rig")]
		ends := rapid.SampledFrom([][2]float64{{240, 33}, {180, 10}, {90, 0}, {60, 5}, {300, 20}, {10, 180}}).Draw(t, "range")
		wanted, err := gauge.LinearRange("drawn", ends[0], ends[1])
		if err != nil {
			t.Fatal(err)
		}
		drawer := rapid.SliceOfN(rapid.SampledFrom([]float64{3.3, 10, 10, 22, 47, 100, 330, 1500}), 1, 5).Draw(t, "drawer")
		slices.Sort(drawer)
		twins := rapid.Bool().Draw(t, "twins")
		c := r.Matching(r.Level).Choose(wanted.Needle, drawer, twins)
		curve := r.Curve(r.Level)
		worst := func(n gauge.Network) float64 {
			ind := gauge.Through{Network: n, Gauge: wanted.Needle}
			return curve.With(ind).WorstPercent(ind)
		}
		best := c.Best()
		if got := worst(best.Network); math.Abs(got-best.Level) > 1e-9 {
			t.Fatalf("%.9f %% told, %.9f %% measured", best.Level, got)
		}
		for i, a := range drawer {
			for k, b := range drawer {
				for _, n := range []gauge.Network{{Series: a}, {Parallel: b}, {Series: a, Parallel: b}, {Series: a, Parallel: b, AtSender: true}} {
					if n.Count() == 2 && i == k && !twins {
						continue
					}
					if got := worst(n); got < best.Level-calibration.Worth-1e-9 {
						t.Fatalf("%+v lies %.6f %%, but %+v with %.6f %% was chosen", n, got, best.Network, best.Level)
					}
				}
			}
		}
	})
}

// TestNoPartsTurnItRound: with a gauge of the other sense every network leaves the needle
// half of the dial off somewhere, at least.
func TestNoPartsTurnItRound(t *testing.T) {
	r := load(t, tanks.Demo)
	curve := r.Curve(r.Level)
	rapid.Check(t, func(t *rapid.T) {
		part := func(name string) float64 { return math.Exp(rapid.Float64Range(-2, 14).Draw(t, name)) }
		n := gauge.Network{Series: part("series"), Parallel: part("parallel"), AtSender: rapid.Bool().Draw(t, "at sender")}
		low := rapid.Float64Range(0, 300).Draw(t, "empty")
		wanted, err := gauge.LinearRange("reversed", low, low+rapid.Float64Range(1, 300).Draw(t, "span"))
		if err != nil {
			t.Fatal(err)
		}
		ind := gauge.Through{Network: n, Gauge: wanted.Needle}
		if worst := curve.With(ind).WorstPercent(ind); worst < 50 {
			t.Fatalf("%+v: %.3f %%", n, worst)
		}
	})
}

// TestMatchOnASlope: parts are those of level ground, the error that of the slope.
func TestMatchOnASlope(t *testing.T) {
	r := load(t, tanks.Demo)
	rel, err := r.At(geometry.Attitude{NoseUp: 5})
	if err != nil {
		t.Fatal(err)
	}
	e24, err := gauge.PreferredSeries("E24")
	if err != nil {
		t.Fatal(err)
	}
	wanted := ranged(t, 240, 33)
	level, slope := r.Matching(r.Level).Choose(wanted.Needle, e24.Values(), true), r.Matching(rel).Choose(wanted.Needle, e24.Values(), true)
	if level.Best().Network != slope.Best().Network || level.Best().Level != slope.Best().Level {
		t.Errorf("%+v on level ground, %+v on a slope", level.Best().Network, slope.Best().Network)
	}
	if level.Best().Worst.Percent == slope.Best().Worst.Percent {
		t.Error("the same error on a slope")
	}
}

// TestSpreadHoldsItsParts: parts within their tolerance are off by no more than told.
func TestSpreadHoldsItsParts(t *testing.T) {
	r := load(t, tanks.Demo)
	m := r.Matching(r.Level)
	wanted := ranged(t, 240, 33)
	rapid.Check(t, func(t *rapid.T) {
		n := gauge.Network{Series: rapid.Float64Range(1, 100).Draw(t, "series"), Parallel: rapid.Float64Range(200, 5000).Draw(t, "parallel"), AtSender: rapid.Bool().Draw(t, "at sender")}
		within := rapid.Float64Range(0, 0.2).Draw(t, "tolerance")
		most := m.Spread(wanted.Needle, n, within)
		off := n
		off.Series *= 1 + within*rapid.Float64Range(-1, 1).Draw(t, "series off")
		off.Parallel *= 1 + within*rapid.Float64Range(-1, 1).Draw(t, "parallel off")
		if got := m.Judge(wanted.Needle, off).Worst.Percent; got > most+1e-6 {
			t.Fatalf("%+v within %g lies %.6f %%, told %.6f %%", n, within, got, most)
		}
	})
}

func BenchmarkMatch(b *testing.B) {
	r := load(b, tanks.Demo)
	for _, name := range []string{"E24", "E96"} {
		s, err := gauge.PreferredSeries(name)
		if err != nil {
			b.Fatal(err)
		}
		wanted := ranged(b, 180, 10)
		b.Run(name, func(b *testing.B) {
			m := r.Matching(r.Level)
			for b.Loop() {
				m.Choose(wanted.Needle, s.Values(), true)
			}
		})
	}
}
