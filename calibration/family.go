package calibration

import (
	"math"

	"gonum.org/v1/gonum/mat"
)

// A Measure is a figure on which a rig hangs, with how well it is known.
type Measure struct {
	Name  string // the key of a rig file: "sender.arm"
	Unit  string // of the three that follow; empty for a share
	Value float64
	Sigma float64 // standard uncertainty
	// Even says that it lies anywhere within √3 Sigma of the value alike, and nowhere
	// else: a tolerance (JCGM 101:2008, 6.4.2). Others are taken to be normal (6.4.7).
	Even bool
	// Usual says that nobody stated the uncertainty: it is that of usual care.
	Usual bool
}

// Even returns a measure that lies anywhere within ± a half width of 0 alike.
func Even(name string, half float64) Measure {
	return Measure{Name: name, Sigma: half / math.Sqrt(3), Even: true}
}

// A Family is the rigs that may be meant when one is described by measures that are
// not known exactly.
type Family struct {
	Measures []Measure
	// Correlation of the measures where they hang together; nil where they do not.
	Correlation *mat.SymDense
	// Rig returns the rig in which the measures have other values. It is safe for
	// concurrent use.
	Rig func(values []float64) (*Rig, error)
}

// Values returns those of the measures.
func (f *Family) Values() []float64 {
	out := make([]float64, len(f.Measures))
	for i, m := range f.Measures {
		out[i] = m.Value
	}
	return out
}
