package gauge

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/mat"
	"pgregory.net/rapid"
)

// TestNetworkByHand: figures worked out by hand.
func TestNetworkByHand(t *testing.T) {
	for _, c := range []struct {
		n    Network
		ohms float64
		want float64
	}{
		{Network{}, 100, 100},
		{Network{Series: 20}, 100, 120},
		{Network{Parallel: 100}, 100, 50},
		{Network{Series: 20, Parallel: 120}, 100, 60},                 // 120 ∥ 120
		{Network{Series: 20, Parallel: 100, AtSender: true}, 100, 70}, // 50 + 20
		{Network{Series: 10, Parallel: 10}, 0, 5},
		{Network{Series: 10, Parallel: 10, AtSender: true}, 0, 10},
	} {
		if got := c.n.Seen(c.ohms); math.Abs(got-c.want) > 1e-12 {
			t.Errorf("%+v behind %g ohm: %g, by hand %g", c.n, c.ohms, got, c.want)
		}
	}
}

// anyNetwork draws a network of two parts.
func anyNetwork(t *rapid.T) Network {
	part := func(name string) float64 { return math.Exp(rapid.Float64Range(0, 9).Draw(t, name)) }
	return Network{Series: part("series"), Parallel: part("parallel"), AtSender: rapid.Bool().Draw(t, "at sender")}
}

// TestNetworkAgainstKirchhoff solves the node equations of sender, wire and parts: one
// ampere into the gauge's terminal raises it by as many volts as it sees ohms. The power
// in the parts is that of the same solution.
func TestNetworkAgainstKirchhoff(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := anyNetwork(t)
		sender, wire := rapid.Float64Range(0.5, 400).Draw(t, "sender"), rapid.Float64Range(0.01, 5).Draw(t, "wire")
		// Nodes: 0 the gauge's terminal, 1 the gauge's end of the wire, 2 the sender's end.
		g := mat.NewDense(3, 3, nil)
		earth := func(i int, ohms float64) { g.Set(i, i, g.At(i, i)+1/ohms) }
		between := func(i, k int, ohms float64) {
			earth(i, ohms)
			earth(k, ohms)
			g.Set(i, k, g.At(i, k)-1/ohms)
			g.Set(k, i, g.At(k, i)-1/ohms)
		}
		between(0, 1, n.Series)
		between(1, 2, wire)
		earth(2, sender)
		if n.AtSender {
			earth(1, n.Parallel)
		} else {
			earth(0, n.Parallel)
		}
		var v mat.VecDense
		if err := v.SolveVec(g, mat.NewVecDense(3, []float64{1, 0, 0})); err != nil {
			t.Fatal(err)
		}
		seen := n.Seen(sender + wire)
		if math.Abs(seen/v.AtVec(0)-1) > 1e-9 {
			t.Fatalf("%g ohm seen, by Kirchhoff %g", seen, v.AtVec(0))
		}
		const volts = 14.4
		over := v.AtVec(0) - v.AtVec(1)
		across := v.AtVec(0)
		if n.AtSender {
			across = v.AtVec(1)
		}
		scale := math.Pow(volts/v.AtVec(0), 2)
		series, parallel := n.MostWatts(volts, sender+wire, sender+wire)
		if math.Abs(series/(over*over/n.Series*scale)-1) > 1e-6 || math.Abs(parallel/(across*across/n.Parallel*scale)-1) > 1e-6 {
			t.Fatalf("%g and %g W, by Kirchhoff %g and %g", series, parallel, over*over/n.Series*scale, across*across/n.Parallel*scale)
		}
	})
}

// TestNetworkTurnsNothingRound: more ohms are more ohms behind any parts, but not by more;
// what the gauge sees leads back to the wire's ohms; between two ends the power is nowhere
// greater than told.
func TestNetworkTurnsNothingRound(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := anyNetwork(t)
		least := rapid.Float64Range(0, 300).Draw(t, "least")
		most := least + rapid.Float64Range(0.1, 300).Draw(t, "span")
		a, b := n.Seen(least), n.Seen(most)
		if !(b > a) || b-a > (most-least)*(1+1e-12) {
			t.Fatalf("%g to %g ohm become %g to %g", least, most, a, b)
		}
		if back := n.Shown(b); math.Abs(back-most) > 1e-6*(1+most)*math.Pow(1+most/n.Parallel+n.Series/n.Parallel, 2) {
			t.Fatalf("%g ohm lead back to %g", most, back)
		}
		series, parallel := n.MostWatts(12, least, most)
		ohms := rapid.Float64Range(least, most).Draw(t, "ohms")
		s, p := n.MostWatts(12, ohms, ohms)
		if s > series*(1+1e-12) || p > parallel*(1+1e-12) {
			t.Fatalf("%g and %g W at %g ohm, at most %g and %g told", s, p, ohms, series, parallel)
		}
		if n.Shown(2*(n.Series+n.Parallel)) >= 0 || n.Shown(0) > 0 {
			t.Fatal("the wire shows what no wire does")
		}
	})
}

// TestObstacles: ends that some network makes of a sender's have no obstacle; and where
// there is none, not even a slight one, two parts meet both ends, found in closed form.
func TestObstacles(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		least := rapid.Float64Range(1, 100).Draw(t, "least")
		most := least + rapid.Float64Range(1, 300).Draw(t, "span")
		n := anyNetwork(t)
		made, err := LinearRange("made", n.Seen(most), n.Seen(least))
		if err != nil {
			t.Skip("both ends the same to the last digit")
		}
		if o := made.Obstacle(most, least); o != NoObstacle {
			t.Fatalf("%+v makes %g to %g of %g to %g, but the obstacle is %q", n, made.Full, made.Empty, least, most, o)
		}
		if o := made.Obstacle(least, most); o != Reversed {
			t.Fatalf("the other way round the obstacle is %q", o)
		}

		low := rapid.Float64Range(1, 100).Draw(t, "low")
		high := low + rapid.Float64Range(1, 300).Draw(t, "wanted")
		r, err := LinearRange("any", low, high)
		if err != nil {
			t.Fatal(err)
		}
		met := meets(least, most, low, high)
		switch o := r.Obstacle(least, most); {
		case o != NoObstacle && met && (high-low > (most-least)*(1+slight) || 1/low-1/high > (1/least-1/most)*(1+slight)):
			t.Fatalf("%g to %g from %g to %g is met, but the obstacle is %q", low, high, least, most, o)
		case !met && high-low <= most-least && 1/low-1/high <= 1/least-1/most:
			t.Fatalf("%g to %g from %g to %g is not met, but nothing lacks", low, high, least, most)
		}
		if left := Left(least, most, low); low < least {
			p := 1 / (1/low - 1/least)
			if got := (Network{Parallel: p}); math.Abs(got.Seen(least)-low) > 1e-9*low || math.Abs(got.Seen(most)-left) > 1e-9*left {
				t.Fatalf("%g ohm left, a part of %g ohm leaves %g", left, p, got.Seen(most))
			}
		}
	})
}

// meets solves for the two parts of either layout that bring both ends to those wanted:
// with u = least + series, or low - series, the difference of the siemens is that wanted.
func meets(least, most, low, high float64) bool {
	span, wanted := most-least, high-low
	// (least+a)(most+a) = span·low·high/wanted
	k := span * low * high / wanted
	a := -(least+most)/2 + math.Sqrt(span*span/4+k)
	if a >= -1e-9 {
		if p := 1/low - 1/(least+a); p >= -1e-12 {
			return true
		}
	}
	// (low-a)(high-a) = wanted·least·most/span
	k = wanted * least * most / span
	a = (low+high)/2 - math.Sqrt(wanted*wanted/4+k)
	if a >= -1e-9 && a < low {
		return 1/(low-a)-1/least >= -1e-12
	}
	return false
}

// TestCommonRanges: each range stands there both ways round, with its ends on the marks.
func TestCommonRanges(t *testing.T) {
	ranges := CommonRanges()
	if len(ranges) != 10 {
		t.Fatalf("%d ranges, expected five both ways round", len(ranges))
	}
	for i, r := range ranges {
		if twin := ranges[i^1]; twin.Empty != r.Full || twin.Full != r.Empty {
			t.Errorf("%s stands beside %s", r.Name, twin.Name)
		}
		if r.Needle.Show(r.Empty) != 0 || r.Needle.Show(r.Full) != 1 || math.Abs(r.Needle.Show((r.Empty+r.Full)/2)-0.5) > 1e-12 {
			t.Errorf("%s shows %g to %g", r.Name, r.Needle.Show(r.Empty), r.Needle.Show(r.Full))
		}
	}
	if _, err := LinearRange("flat", 5, 5); err == nil {
		t.Error("two equal ends were taken")
	}
}
