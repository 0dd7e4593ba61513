package fullsize

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"floatarc/plots/ink"
	"floatarc/tanks/quantity"
)

// A Dipstick is what the strip of a dipstick shows.
type Dipstick struct {
	Title  string   // of the rig, or of the tank
	Stands string   // in which attitude the strip holds: it stands on its head, too
	Words  []string // how the tank and the stick stand
	Notes  []string // what the stick does not show
	Units  quantity.System
	Paper  ink.Paper

	Low, High float64                      // litres between which it is ruled
	Along     func(litres float64) float64 // place above the foot, mm; it never falls
	Marks     []StickMark
}

// A StickMark is a quantity with a name, on the other edge of the strip.
type StickMark struct {
	Label  string
	Litres float64
	Dial   bool // of the dial; not of the tank
}

// A Graduation is a tick of the strip.
type Graduation struct {
	Along  float64 // mm above the foot
	Litres float64
	Label  string // in the units of the strip; empty for a short tick
	Major  bool
	Round  bool // of the labelled ones, the tenth or so
}

// Distances along the strip, mm.
const (
	labelPitch = 4.2 // of labelled ticks
	loosePitch = 5   // of ticks between them that get labels of their own
	tickPitch  = 1.2
	footClear  = 2.2 // no label so near to the foot
	longest    = 6000
)

// Check says why a stick cannot be ruled.
func (d *Dipstick) Check() error {
	switch low, high := d.Along(d.Low), d.Along(d.High); {
	case !(d.High > d.Low):
		return fmt.Errorf("the stick would be ruled from %.4g L to %.4g L, expected litres that rise: it stands clear of the fuel", d.Low, d.High)
	case !(high > low) || math.IsInf(high, 0) || math.IsInf(low, 0):
		return fmt.Errorf("the litres of the stick lie between %.4g mm and %.4g mm from its foot, expected places that rise", low, high)
	case high > longest:
		return fmt.Errorf("a stick of %.4g mm, expected at most %d mm", high, longest)
	}
	return nil
}

// Graduations returns the ticks from the foot up.
func (d *Dipstick) Graduations() []Graduation {
	out, _ := d.ruled()
	return out
}

// ruled returns the ticks and the scale that they belong to.
func (d *Dipstick) ruled() ([]Graduation, scale) {
	per := d.Units.Volume
	litres := func(v float64) float64 { return v / per.Of(1) }
	s := scaleFor(d.Units, per.Of(d.Low), per.Of(d.High), labelPitch, tickPitch, func(v float64) float64 { return d.Along(litres(v)) })
	var out []Graduation
	for _, v := range multiples(per.Of(d.Low), per.Of(d.High), s.minor) {
		g := Graduation{Litres: litres(v), Along: d.Along(litres(v)), Major: whole(v, s.major), Round: whole(v, s.round())}
		if g.Along < 0 {
			continue
		}
		out = append(out, g)
	}
	d.name(out, s)
	return out, s
}

// name gives labels to the ticks of the greater step, and to those between two of them
// where there is room.
func (d *Dipstick) name(ticks []Graduation, s scale) {
	for from := 0; from < len(ticks); {
		to := from + 1
		for to < len(ticks) && !ticks[to].Major {
			to++
		}
		roomy := true
		for i := max(1, from); i <= to && i < len(ticks); i++ {
			roomy = roomy && ticks[i].Along-ticks[i-1].Along >= loosePitch
		}
		for i := from; i < to; i++ {
			v := d.Units.Volume.Of(ticks[i].Litres)
			if ticks[i].Along >= footClear && (ticks[i].Major || roomy && s.labelsMinor(v)) {
				ticks[i].Label = s.label(v)
			}
		}
		from = to
	}
}

// unit is what the labels count.
func (d *Dipstick) unit() string {
	if d.Units.Name == quantity.Metric.Name {
		return "litres"
	}
	return d.Units.Volume.Symbol
}

// A named is a mark with the place of its label.
type named struct {
	StickMark
	along, label float64
}

// marks returns those that the strip shows, their labels spread, and the names of those
// below its foot and above its end.
func (d *Dipstick) marks(pitch float64) (shown []named, below, above []string) {
	low, high := 0.0, d.Along(d.High)
	var places []float64
	for _, m := range slices.SortedStableFunc(slices.Values(d.Marks), func(a, b StickMark) int { return cmp.Compare(a.Litres, b.Litres) }) {
		switch along := d.Along(m.Litres); {
		case along < low-1e-6 || m.Litres < d.Low-1e-9:
			below = append(below, m.Label)
		case along > high+1e-6 || m.Litres > d.High+1e-9:
			above = append(above, m.Label)
		default:
			shown = append(shown, named{m, along, along})
			places = append(places, along)
		}
	}
	for i, at := range ink.Spread(places, pitch, footClear, math.Max(footClear, high)+2*pitch) {
		shown[i].label = at
	}
	return shown, below, above
}

// missing says which marks the strip does not show.
func (d *Dipstick) missing(below, above []string) []string {
	var out []string
	if len(below) > 0 {
		out = append(out, "Below the foot, not on the strip: "+strings.Join(below, ", ")+".")
	}
	if len(above) > 0 {
		out = append(out, "Above the end of the strip: "+strings.Join(above, ", ")+".")
	}
	return out
}
