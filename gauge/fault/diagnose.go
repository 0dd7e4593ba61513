package fault

import (
	"cmp"
	"math"
	"slices"
)

// A Verdict is how well a cause fits.
type Verdict struct {
	Cause Cause
	Share float64 // of all that may be; they add up to 1
	// For are the readings that speak for it, the strongest first, and Against those that
	// speak against it, by how much more, or less, likely they are with it than with
	// the others.
	For, Against []Weight
}

// A Weight is a reading and by which factor it speaks.
type Weight struct {
	Reading Reading
	Factor  float64
}

// telling is the factor from which a reading is said to speak for or against a cause.
const telling = 1.5

// Diagnose ranks the causes by how well they fit, the best first. It refuses readings that no
// meter shows.
func (c Circuit) Diagnose(r Readings) ([]Verdict, error) {
	if err := r.Check(); err != nil {
		return nil, err
	}
	s := c.with(r)
	out := make([]Verdict, len(priors))
	each := make([]map[Reading]float64, len(priors))
	sum := 0.0
	for i, p := range priors {
		each[i] = s.likelihoods(p.cause)
		out[i] = Verdict{Cause: p.cause, Share: p.often}
		for _, l := range each[i] {
			out[i].Share *= l
		}
		sum += out[i].Share
	}
	for i := range out {
		out[i].Share /= sum
		out[i].For, out[i].Against = weights(each, i)
	}
	slices.SortStableFunc(out, func(a, b Verdict) int { return cmp.Compare(b.Share, a.Share) })
	return out, nil
}

// weights compares what each reading says of a cause with what it says of the others.
func weights(each []map[Reading]float64, of int) (speakFor, against []Weight) {
	for reading, own := range each[of] {
		others, often := 0.0, 0.0
		for k, p := range priors {
			if k != of {
				others += p.often * each[k][reading]
				often += p.often
			}
		}
		switch factor := own / (others / often); {
		case factor > telling:
			speakFor = append(speakFor, Weight{reading, factor})
		case factor < 1/telling:
			against = append(against, Weight{reading, factor})
		}
	}
	strongest := func(a, b Weight) int {
		return cmp.Or(cmp.Compare(math.Abs(math.Log(b.Factor)), math.Abs(math.Log(a.Factor))), cmp.Compare(a.Reading, b.Reading))
	}
	slices.SortFunc(speakFor, strongest)
	slices.SortFunc(against, strongest)
	return speakFor, against
}

// sure and standing are the shares from which a cause is called sure, and from which one
// still stands.
const (
	sure     = 0.9
	standing = 0.05
)

// Sure tells whether the first of some verdicts is as good as certain.
func Sure(v []Verdict) bool { return v[0].Share >= sure }

// Standing returns those that are not ruled out.
func Standing(v []Verdict) []Verdict {
	var out []Verdict
	for _, x := range v {
		if x.Share >= standing {
			out = append(out, x)
		}
	}
	return out
}
