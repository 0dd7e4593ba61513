package calibration_test

import (
	"cmp"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"floatarc/calibration"
	"floatarc/gauge"
	"floatarc/tanks"
)

// inBox is the truth in the box at n+1 quantities between the marks by the closed
// form: input and position.
func inBox(n int) (inputs, positions []float64) {
	for i := range n + 1 {
		share := float64(i) / float64(n)
		inputs, positions = append(inputs, boxInput(boxEmpty+share*(boxFull-boxEmpty))), append(positions, share)
	}
	return inputs, positions
}

// held is the worst error of pairs (input falling, position) with their end values
// held, in percent.
func held(inputs, positions, at, p []float64) float64 {
	worst := 0.0
	for k, input := range inputs {
		shown := p[len(p)-1]
		if input >= at[0] {
			shown = p[0]
		} else {
			for i := 1; i < len(at); i++ {
				if input >= at[i] {
					shown = p[i-1] + (at[i-1]-input)/(at[i-1]-at[i])*(p[i]-p[i-1])
					break
				}
			}
		}
		worst = math.Max(worst, 100*math.Abs(shown-positions[k]))
	}
	return worst
}

// TestBestAgainstExhaustiveSearch goes over every choice of inputs and positions on
// a grid, and then closer around the best of them. It knows nothing of bands. No
// choice may be better than the best, and the closest must come near it. The box is
// known by its closed form, the demo by its samples.
func TestBestAgainstExhaustiveSearch(t *testing.T) {
	if testing.Short() {
		t.Skip("takes long")
	}
	for _, c := range []struct {
		name   string
		set    []string
		places int
		grid   int
	}{
		{"box", box, 2, 40}, {"box", box, 3, 16},
		{"demo", nil, 2, 40}, {"demo, F where the live band ends", []string{`gauge.full="sender"`}, 2, 40}, {"demo, F where the live band ends", []string{`gauge.full="sender"`}, 3, 16},
	} {
		r := load(t, tanks.Demo, c.set...)
		inputs, positions := inBox(300)
		if c.name != "box" {
			inputs, positions = nil, nil
			for _, s := range r.Curve(r.Level).Samples {
				inputs, positions = append(inputs, s.Input), append(positions, s.Position)
			}
		}
		random := rand.New(rand.NewPCG(1, 2))
		_, b, _ := best(t, r, 0, c.places)
		span := slices.Max(inputs) - slices.Min(inputs)
		least := math.Inf(1)
		for _, start := range overGrid(inputs, positions, c.places, c.grid) {
			for scale := 1.0; scale > 1e-4; scale *= 0.7 {
				for range 120 * c.places {
					start.nearby(random, inputs, positions, scale*span/float64(c.grid), scale/float64(c.grid))
				}
			}
			// The samples see a little less than all quantities.
			least = math.Min(least, start.everywhere(t, r))
		}
		if least < b.Least-1e-6 || least > b.Least+0.05 {
			t.Errorf("%s, %d points: exhaustive search %.5f %%, best %.5f %%", c.name, c.places, least, b.Least)
		}
		t.Logf("%s, %d points: exhaustive search %.5f %%, best %.5f %%", c.name, c.places, least, b.Least)
	}
}

// A guess is a choice of inputs and positions, and its worst error.
type guess struct {
	at, p   []float64
	percent float64
}

// everywhere returns the worst error of the guess at all quantities.
func (g *guess) everywhere(t *testing.T, r *calibration.Rig) float64 {
	var pairs []gauge.Pair
	for i := range g.at {
		pairs = append(pairs, gauge.Pair{Input: g.at[i], Position: g.p[i]})
	}
	l, err := r.Conditioner.Lines(pairs)
	if err != nil {
		t.Fatal(err)
	}
	return r.Curve(r.Level, l).WorstPercent(l)
}

// overGrid goes over all choices of so many inputs and positions on a grid of n steps
// each way, and returns the best for each choice of inputs, the best sixty of them.
func overGrid(inputs, positions []float64, places, n int) []guess {
	from, to := slices.Max(inputs), slices.Min(inputs)
	var all []guess
	a, q := make([]float64, places), make([]float64, places)
	var place func(i, low int, into *guess)
	place = func(i, low int, into *guess) {
		if i == places {
			if e := held(inputs, positions, a, q); e < into.percent {
				*into = guess{slices.Clone(a), slices.Clone(q), e}
			}
			return
		}
		for j := low; j <= n; j++ {
			q[i] = float64(j) / float64(n)
			place(i+1, j, into)
		}
	}
	var choose func(i, first int)
	choose = func(i, first int) {
		if i == places {
			g := guess{percent: math.Inf(1)}
			place(0, 0, &g)
			all = append(all, g)
			return
		}
		for k := first; k <= n; k++ {
			a[i] = from + (to-from)*float64(k)/float64(n)
			choose(i+1, k+1)
		}
	}
	choose(0, 0)
	slices.SortFunc(all, func(a, b guess) int { return cmp.Compare(a.percent, b.percent) })
	return all[:60]
}

// nearby tries one choice drawn around the guess, and takes it if it is better.
func (g *guess) nearby(random *rand.Rand, inputs, positions []float64, ohms, share float64) {
	a, q := make([]float64, len(g.at)), make([]float64, len(g.p))
	for i := range g.at {
		a[i], q[i] = g.at[i]+ohms*random.NormFloat64(), math.Max(0, math.Min(1, g.p[i]+share*random.NormFloat64()))
		if i > 0 && a[i] >= a[i-1] {
			return
		}
	}
	if e := held(inputs, positions, a, q); e < g.percent {
		*g = guess{a, q, e}
	}
}
