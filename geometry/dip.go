package geometry

import (
	"fmt"
	"math"
	"sort"

	"gonum.org/v1/gonum/spatial/r3"
)

// A Dip is a tank without a shape: heights and volumes as measured, with
// straight lines between. It stands with its lowest height's zero at z = 0, and
// answers for level ground only: for any other level vector its cut knows
// nothing (NaN).
type Dip struct {
	rows []DipRow
}

// A DipRow is one measurement.
type DipRow struct {
	Height float64 // mm
	Volume float64 // mm³ below it
}

// NewDip returns the tank of two or more rows with rising heights and volumes
// that never fall, or a [DimensionError] that names the row ("table[3]").
func NewDip(rows []DipRow) (*Dip, error) {
	if len(rows) < 2 {
		return nil, wrong("table", "%d rows, expected two or more of height and volume", len(rows))
	}
	for i, r := range rows {
		name := fmt.Sprintf("table[%d]", i)
		switch {
		case !(math.Abs(r.Height) <= largest):
			return nil, wrong(name, "height %g mm, expected one within ±%g mm", r.Height, float64(largest))
		case !(r.Volume >= 0) || r.Volume > largest*largest*largest:
			return nil, wrong(name, "volume %g L, expected 0 or more", r.Volume/1e6)
		case i > 0 && !(r.Height > rows[i-1].Height):
			return nil, wrong(name, "height %g mm is not above the row before, %g mm, expected rising heights", r.Height, rows[i-1].Height)
		case i > 0 && !(r.Volume >= rows[i-1].Volume):
			return nil, wrong(name, "volume %g L is less than in the row before, %g L, expected volumes that rise with the height", r.Volume/1e6, rows[i-1].Volume/1e6)
		}
	}
	if last := rows[len(rows)-1].Volume; last <= 0 {
		return nil, wrong("table", "no volume anywhere, expected some in the last row")
	}
	return &Dip{rows: append([]DipRow{}, rows...)}, nil
}

func (d *Dip) ends() (lo, hi float64) { return d.rows[0].Height, d.rows[len(d.rows)-1].Height }

// Extent implements [Solid]; NaN for a vector that is not upright.
func (d *Dip) Extent(n r3.Vec) (lo, hi float64) {
	lo, hi = d.ends()
	if n.X == 0 && n.Y == 0 && n.Z != 0 {
		return min(n.Z*lo, n.Z*hi), max(n.Z*lo, n.Z*hi)
	}
	if n.Z == 0 {
		return math.Inf(-1), math.Inf(1) // how long and wide it is, nobody knows
	}
	return math.NaN(), math.NaN()
}

// Contains implements [Solid] by height alone.
func (d *Dip) Contains(p r3.Vec) bool {
	lo, hi := d.ends()
	slack := Nearness * (hi - lo)
	return p.Z >= lo-slack && p.Z <= hi+slack
}

// Clearance implements [Solid] by height alone.
func (d *Dip) Clearance(p r3.Vec) float64 {
	lo, hi := d.ends()
	return math.Min(math.Abs(p.Z-lo), math.Abs(p.Z-hi))
}

// Cut implements [Solid].
func (d *Dip) Cut(n r3.Vec) Cut {
	level := math.NaN()
	if n.X == 0 && n.Y == 0 && n.Z > 0 {
		level = n.Z
	}
	return dipCut{rows: d.rows, length: level}
}

type dipCut struct {
	rows   []DipRow
	length float64 // of the upright level vector; NaN for any other
}

// find returns the row below a height, -1 if there is none.
func (c dipCut) find(z float64) int {
	return sort.Search(len(c.rows), func(i int) bool { return c.rows[i].Height > z }) - 1
}

func (c dipCut) Volume(h float64) float64 {
	z := h / c.length
	i, last := c.find(z), len(c.rows)-1
	switch {
	case math.IsNaN(z):
		return math.NaN()
	case i < 0:
		return 0
	case i == last:
		return c.rows[last].Volume
	}
	return c.rows[i].Volume + (z-c.rows[i].Height)*c.slope(i)
}

// slope is the rate of the volume over row i, mm².
func (c dipCut) slope(i int) float64 {
	a, b := c.rows[i], c.rows[i+1]
	return (b.Volume - a.Volume) / (b.Height - a.Height)
}

func (c dipCut) Surface(h float64) float64 {
	z := h / c.length
	switch i := c.find(z); {
	case math.IsNaN(z):
		return math.NaN()
	case i < 0 || i == len(c.rows)-1:
		return 0
	default:
		return c.slope(i) / c.length
	}
}

// Moment implements [Cut]: only the height of the centre is known.
func (c dipCut) Moment(h float64) r3.Vec {
	z := h / c.length
	sum := 0.0
	for i := range c.rows[1:] {
		lo, hi := c.rows[i].Height, math.Min(z, c.rows[i+1].Height)
		if lo < hi {
			sum += c.slope(i) * (hi - lo) * (hi + lo) / 2
		}
	}
	if first := c.rows[0]; z >= first.Height {
		sum += first.Volume * first.Height // below the first row, taken to lie there
	}
	return r3.Vec{X: math.NaN(), Y: math.NaN(), Z: sum}
}

// FreeSurface implements [Cut]: only the area is known.
func (c dipCut) FreeSurface(h float64) FreeSurface {
	unknown := math.NaN()
	area := c.Surface(h)
	return FreeSurface{
		Area: area, First: r3.Vec{X: unknown, Y: unknown, Z: area * h / c.length},
		Second: Symmetric{unknown, unknown, unknown, unknown, unknown, unknown},
	}
}

// Error implements [Cut]: what the table says is taken as it is.
func (c dipCut) Error() float64 { return closed * c.rows[len(c.rows)-1].Volume }
