package calibration

import (
	"cmp"
	"math"
	"slices"

	"floatarc/gauge"
	"floatarc/volume"
)

// A Sample is the truth at one quantity.
type Sample struct {
	Litres   float64
	Travel   float64 // of the sender
	Input    float64 // at the terminals, ohm
	Position float64 // where the needle must stand
	Live     bool    // in the live band
}

// A Curve is the truth from the empty to the full mark, at one attitude.
// Litres rise from sample to sample.
type Curve struct {
	Samples []Sample

	rig *Rig
	rel *volume.Relation
}

// samplings is the number of even steps of the sender's travel from which a
// curve starts. The worst error is then searched between the samples.
const samplings = 512

// Curve samples the truth from the empty to the full mark at an attitude, with
// a sample wherever the sender's track, the dial or one of the indicators
// bends, and a step beside the ends of what the conditioner is told of, so that
// errors have their corners on samples.
func (r *Rig) Curve(rel *volume.Relation, indicators ...gauge.Indicator) *Curve {
	c := &Curve{rig: r, rel: rel}
	from, to := rel.Travel(r.Dial.Empty), rel.Travel(r.Dial.Full)
	var litres []float64
	for _, m := range r.Dial.Marks {
		litres = append(litres, r.Dial.Litres(m.Share))
	}
	low, high := rel.Reach()
	litres = append(litres, r.Dial.Empty, r.Dial.Full, low, high)
	for _, q := range litres {
		if q >= r.Dial.Empty && q <= r.Dial.Full {
			c.Samples = append(c.Samples, c.at(q, rel.Travel(q)))
		}
	}
	travels := slices.Clone(r.Sender.Track().Knots(from, to))
	for i := 0; i <= samplings && to > from; i++ {
		travels = append(travels, from+(to-from)*float64(i)/samplings)
	}
	told := r.Told(rel)
	above, below := r.asides(told)
	c.insert(append(travels, told.Low.Travel, told.High.Travel, r.TravelAt(above), r.TravelAt(below)))
	return c.With(indicators...)
}

// With returns the curve with samples where indicators bend, too.
func (c *Curve) With(indicators ...gauge.Indicator) *Curve {
	var travels []float64
	for _, ind := range indicators {
		for _, input := range ind.Knots() {
			travels = append(travels, c.rig.TravelAt(input))
		}
	}
	with := &Curve{Samples: slices.Clone(c.Samples), rig: c.rig, rel: c.rel}
	with.insert(travels)
	return with
}

// insert adds samples at travels, as far as they lie between the marks.
func (c *Curve) insert(travels []float64) {
	for _, t := range travels {
		if t < c.rel.Low || t > c.rel.High {
			continue
		}
		if q := c.rel.Litres(t); q > c.rig.Dial.Empty && q < c.rig.Dial.Full {
			c.Samples = append(c.Samples, c.at(q, t))
		}
	}
	slices.SortStableFunc(c.Samples, byLitres)
}

func byLitres(a, b Sample) int {
	return cmp.Or(cmp.Compare(a.Litres, b.Litres), cmp.Compare(a.Travel, b.Travel))
}

// at returns the truth at so many litres, with the sender at a travel.
func (c *Curve) at(litres, travel float64) Sample {
	low, high := c.rel.Reach()
	return Sample{
		Litres: litres, Travel: travel,
		Input:    c.rig.InputAt(travel),
		Position: c.rig.Dial.Position(c.rig.Dial.Share(litres)),
		Live:     live(litres, low, high, edge*c.rig.Tank.Full),
	}
}

// sign returns that by which what the conditioner runs straight lines in rises with
// the litres; 0 where it stays.
func (c *Curve) sign() float64 {
	x := c.rig.Conditioner.Law.X
	return float64(cmp.Compare(x(c.Samples[len(c.Samples)-1].Input), x(c.Samples[0].Input)))
}

// At returns the truth at so many litres.
func (c *Curve) At(litres float64) Sample { return c.at(litres, c.rel.Travel(litres)) }

// Off returns the needle error at a sample: position shown less position true,
// and the same in litres, through the marks.
func (c *Curve) Off(ind gauge.Indicator, s Sample) (position, litres float64) {
	shown := ind.Show(s.Input)
	return shown - s.Position, c.rig.Dial.Litres(c.rig.Dial.ShareAt(shown)) - s.Litres
}

// Worst is the greatest needle error from the empty to the full mark, each
// figure by itself, as absolute values.
type Worst struct {
	Percent     float64 // of the dial
	Litres      float64
	LivePercent float64 // over the live band
	AwayPercent float64 // over the live band, from one step beside a blind band on
	At          Sample  // where Percent is reached
}

// Worst returns the greatest errors of an indicator. It looks at every sample,
// then closer and closer around the worst.
func (c *Curve) Worst(ind gauge.Indicator) Worst {
	percent := c.percent(ind)
	litres := func(s Sample) float64 { _, l := c.Off(ind, s); return math.Abs(l) }
	inBand := func(s Sample) float64 {
		if !s.Live {
			return 0
		}
		return percent(s)
	}
	var w Worst
	w.Percent, w.At = c.peak(percent)
	w.Litres, _ = c.peak(litres)
	w.LivePercent, _ = c.peak(inBand)
	away := c.rig.away(c.rel)
	w.AwayPercent, _ = c.peak(func(s Sample) float64 {
		if !away(s) {
			return 0
		}
		return percent(s)
	})
	return w
}

// WorstPercent returns the greatest error of an indicator in percent of the dial.
func (c *Curve) WorstPercent(ind gauge.Indicator) float64 {
	most, _ := c.peak(c.percent(ind))
	return most
}

func (c *Curve) percent(ind gauge.Indicator) func(Sample) float64 {
	return func(s Sample) float64 {
		off, _ := c.Off(ind, s)
		return 100 * math.Abs(off)
	}
}
