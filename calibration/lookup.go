package calibration

import (
	"fmt"
	"math"
	"slices"

	"gonum.org/v1/gonum/interp"

	"floatarc/gauge"
)

// A LookupRow is what one input means.
type LookupRow struct {
	Input    float64 // at the terminals, ohm
	Count    int     // of the converter; 0 without one
	Litres   float64
	Position float64 // where the needle must stand
}

// A Lookup is a table of inputs to quantities for a program that runs straight
// lines between its rows, and what it is worth.
type Lookup struct {
	Rows []LookupRow // the key rising
	// LitresOff and PercentOff are the greatest errors of the straight lines
	// between the rows, over the live band.
	LitresOff, PercentOff float64
	// PerCount is the most that one count of the converter stands for, L; 0
	// without one.
	PerCount float64
	// Shorted and Open are the inputs, ohm, below and above which no sender of
	// its tolerance reads; 0 and +Inf where they cannot be told.
	Shorted, Open float64
}

// Faulty is the least share by which a reading must lie beyond the sender's ends
// before it is taken for a fault (common practice, no source).
const Faulty = 0.1

// hidden is the resistance at the low end, ohm, below which a short looks like a
// reading.
const hidden = 5.0

// Lookup returns a table of so many rows over what the conditioner is told of on
// level ground, on the mean of rising and falling fuel, evenly spaced in ohms or,
// with a converter, in its counts. Tolerance is the sender's, as a share.
func (r *Rig) Lookup(rows int, tolerance float64) (*Lookup, error) {
	if rows < 2 {
		return nil, fmt.Errorf("%d rows, expected 2 or more", rows)
	}
	told := r.Told(r.Level)
	ends := sorted(r.InputAt(told.Low.Travel), r.InputAt(told.High.Travel))
	if told.Low.Travel >= told.High.Travel || !(ends[0] < ends[1]) {
		return nil, ErrFlat
	}
	t := &Lookup{}
	k := r.keys()
	if err := r.fill(t, rows, k, ends); err != nil {
		return nil, err
	}
	r.judge(t, k, told)
	r.faults(t, tolerance)
	return t, nil
}

func sorted(a, b float64) [2]float64 { return [2]float64{math.Min(a, b), math.Max(a, b)} }

// keys are what a table is looked up by: ohms, or counts of a converter.
type keys struct {
	divider   *gauge.Divider
	converter *gauge.Converter // nil for ohms
}

func (r *Rig) keys() keys {
	k := keys{divider: r.Conditioner.Divider(), converter: r.Conditioner.Feed.Converter}
	if k.divider == nil {
		k.converter = nil
	}
	return k
}

// of returns the key of an input, between whole counts too.
func (k keys) of(input float64) float64 {
	if k.converter == nil {
		return input
	}
	return k.divider.X(input) / k.converter.Full * k.converter.Steps()
}

// fill puts the rows into the table and checks that they rise or fall.
func (r *Rig) fill(t *Lookup, rows int, k keys, ends [2]float64) error {
	from, to := k.of(ends[0]), k.of(ends[1])
	for i := range rows {
		row := LookupRow{Input: ends[0] + (ends[1]-ends[0])*float64(i)/float64(rows-1)}
		if k.converter != nil { // the middle of a count stands for it
			share := (from + (to-from)*float64(i)/float64(rows-1)) / k.converter.Steps() * k.converter.Full
			row.Count = k.converter.Count(share)
			row.Input = k.divider.Ohms(k.converter.Share(row.Count))
		}
		row.Litres = r.LitresNear(r.Level, row.Input)
		row.Position = r.Dial.Position(r.Dial.Share(row.Litres))
		if n := len(t.Rows); n > 0 {
			before := t.Rows[n-1]
			if k.converter != nil && row.Count <= before.Count {
				return fmt.Errorf("%d rows over %.0f counts, expected fewer rows than counts", rows, to-from)
			}
			if n > 1 && (row.Litres-before.Litres)*(before.Litres-t.Rows[n-2].Litres) < 0 {
				return fmt.Errorf("the litres turn round at %.4g ohm, expected them to rise or to fall all the way", row.Input)
			}
		}
		t.Rows = append(t.Rows, row)
	}
	return nil
}

// looks is how many places a row, on average, are held against the truth, and
// mostCounts of how many counts each is.
const (
	looks      = 16
	mostCounts = 1 << 14
)

// judge holds the straight lines between the rows against the truth all along the
// sender's travel, and finds where one count means most.
func (r *Rig) judge(t *Lookup, k keys, told Told) {
	var litres, position interp.PiecewiseLinear
	var at, q, p []float64
	for _, row := range t.Rows {
		at, q, p = append(at, k.of(row.Input)), append(q, row.Litres), append(p, row.Position)
	}
	if litres.Fit(at, q) != nil || position.Fit(at, p) != nil {
		return // not with keys that rise
	}
	truth := func(travel float64) (key, litres float64) { return k.of(r.InputAt(travel)), r.Level.Litres(travel) }
	travels := r.looks(told, len(t.Rows))
	t.LitresOff = greatest(travels, func(travel float64) float64 {
		key, q := truth(travel)
		return math.Abs(litres.Predict(key) - q)
	})
	t.PercentOff = greatest(travels, func(travel float64) float64 {
		key, q := truth(travel)
		return 100 * math.Abs(position.Predict(key)-r.Dial.Position(r.Dial.Share(q)))
	})
	if k.converter != nil {
		t.PerCount = r.perCount(k, t.Rows[0].Count, t.Rows[len(t.Rows)-1].Count)
	}
}

// looks returns the travels at which to hold a table against the truth, rising.
func (r *Rig) looks(told Told, rows int) []float64 {
	low, high := told.Low.Travel, told.High.Travel
	travels := append([]float64{low, high}, r.Sender.Track().Knots(low, high)...)
	for _, m := range r.Dial.Marks {
		travels = append(travels, told.within(r.Level.Travel(r.Dial.Litres(m.Share))))
	}
	for i := range looks * rows {
		travels = append(travels, low+(high-low)*float64(i)/float64(looks*rows))
	}
	slices.Sort(travels)
	return travels
}

// greatest returns the greatest value of f, looked at closer and closer around each
// travel that stands out and comes near it.
func greatest(travels []float64, f func(travel float64) float64) float64 {
	values := make([]float64, len(travels))
	for i, t := range travels {
		values[i] = f(t)
	}
	most := slices.Max(values)
	enough := most * (1 - looksNear)
	for i, v := range values {
		lo, hi := max(0, i-1), min(len(values)-1, i+1)
		if v >= values[lo] && v >= values[hi] && v >= enough {
			nearby, _ := closer(v, travels[i], travels[lo], travels[hi], f)
			most = math.Max(most, nearby)
		}
	}
	return most
}

// looksNear is how far below the greatest another place is looked at closely.
const looksNear = 0.1

// perCount returns the most litres from one count to the next; of more counts than
// it can go through, from one in so many.
func (r *Rig) perCount(k keys, from, to int) float64 {
	stride := 1 + (to-from)/mostCounts
	at := func(count int) float64 { return r.LitresNear(r.Level, k.divider.Ohms(k.converter.Share(count))) }
	most := 0.0
	for count, before := from, at(from); count+stride <= to; count += stride {
		next := at(count + stride)
		most = math.Max(most, math.Abs(next-before)/float64(stride))
		before = next
	}
	return most
}

// faults tells readings beyond the sender's own ends from those of a short and of
// an open wire.
func (r *Rig) faults(t *Lookup, tolerance float64) {
	low, high := r.Sender.Stops()
	ends := sorted(r.InputAt(low), r.InputAt(high))
	margin := math.Max(tolerance, Faulty)
	t.Shorted, t.Open = ends[0]*(1-margin), ends[1]*(1+margin)
	least, most := r.Conditioner.Limits()
	if ends[0] < hidden || t.Shorted < least {
		t.Shorted = 0
	}
	if t.Open >= most {
		t.Open = math.Inf(1)
	}
}
