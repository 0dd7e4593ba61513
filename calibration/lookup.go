package calibration

import (
	"fmt"
	"math"

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
	// Least and Most are the litres at the ends of the table; where the tank can
	// hold less or more, a reading at that end does not tell.
	Least, Most float64
}

// Faulty is the least share by which a reading must lie beyond the sender's ends
// before it is taken for a fault (common practice, no source).
const Faulty = 0.1

// hidden is the resistance at the low end, ohm, below which a short looks like a
// reading.
const hidden = 5.0

// Lookup returns a table of so many rows over the live band on level ground, on
// the mean of rising and falling fuel, evenly spaced in ohms or, with a converter,
// in its counts. Tolerance is the sender's, as a share.
func (r *Rig) Lookup(rows int, divider *gauge.Divider, converter *gauge.Converter, tolerance float64) (*Lookup, error) {
	if rows < 2 {
		return nil, fmt.Errorf("%d rows, expected 2 or more", rows)
	}
	travel, _ := r.told(r.Level)
	low, high := r.inputAt(travel[0]), r.inputAt(travel[1])
	if low > high {
		low, high = high, low
	}
	if !(low < high) {
		return nil, ErrFlat
	}
	margin := math.Max(tolerance, Faulty)
	t := &Lookup{Shorted: low * (1 - margin), Open: high * (1 + margin)}
	if low < hidden {
		t.Shorted = 0
	}
	key := func(input float64) float64 { return input }
	back := key
	if converter != nil {
		key = func(input float64) float64 { return divider.X(input) / converter.Full * converter.Steps() }
		back = func(k float64) float64 { return divider.Ohms(k / converter.Steps() * converter.Full) }
		if divider.X(t.Open) >= converter.Full {
			t.Open = math.Inf(1)
		}
	}
	if err := r.fill(t, rows, key, back, [2]float64{low, high}, converter); err != nil {
		return nil, err
	}
	r.judge(t, key, converter != nil)
	t.Least, t.Most = t.Rows[0].Litres, t.Rows[len(t.Rows)-1].Litres
	if t.Least > t.Most {
		t.Least, t.Most = t.Most, t.Least
	}
	return t, nil
}

func (r *Rig) inputAt(travel float64) float64 {
	return r.Wiring.Input(r.Sender.Track().Ohms(travel))
}

// fill puts the rows into the table and checks that they rise or fall.
func (r *Rig) fill(t *Lookup, rows int, key, back func(float64) float64, ends [2]float64, converter *gauge.Converter) error {
	counted, most := converter != nil, 0.0
	if counted {
		most = converter.Steps() - 1
	}
	from, to := key(ends[0]), key(ends[1])
	for i := range rows {
		k := from + (to-from)*float64(i)/float64(rows-1)
		row := LookupRow{}
		if counted { // the middle of a count stands for it
			row.Count = min(int(math.Floor(k)), int(most))
			k = float64(row.Count) + 0.5
		}
		row.Input = back(k)
		row.Litres = r.LitresNear(r.Level, row.Input)
		row.Position = r.Dial.Position(r.Dial.Share(row.Litres))
		if n := len(t.Rows); n > 0 {
			before := t.Rows[n-1]
			if counted && row.Count <= before.Count {
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

// looks is how many places between two rows are held against the truth.
const looks = 16

// judge holds the straight lines between the rows against the truth, and finds
// where one count means most.
func (r *Rig) judge(t *Lookup, key func(float64) float64, counted bool) {
	for i := 1; i < len(t.Rows); i++ {
		a, b := t.Rows[i-1], t.Rows[i]
		before := a.Litres
		for k := 1; k <= looks; k++ {
			input := a.Input + (b.Input-a.Input)*float64(k)/looks
			share := (key(input) - key(a.Input)) / (key(b.Input) - key(a.Input))
			litres := r.LitresNear(r.Level, input)
			position := r.Dial.Position(r.Dial.Share(litres))
			t.LitresOff = math.Max(t.LitresOff, math.Abs(a.Litres+share*(b.Litres-a.Litres)-litres))
			t.PercentOff = math.Max(t.PercentOff, 100*math.Abs(a.Position+share*(b.Position-a.Position)-position))
			if counted {
				step := key(input) - key(input-(b.Input-a.Input)/looks)
				t.PerCount = math.Max(t.PerCount, math.Abs(litres-before)/step)
			}
			before = litres
		}
	}
}
