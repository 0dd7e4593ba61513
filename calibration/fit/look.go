package fit

import (
	"fmt"
	"maps"
	"math"

	"gonum.org/v1/gonum/stat/distuv"

	"floatarc/calibration"
	"floatarc/float"
	"floatarc/geometry"
	"floatarc/volume"
)

// A look is what rigs show at the rows of a log. It keeps the levels of a tank that many
// rigs have in common, and where each row was found.
type look struct {
	rows     []Row
	contents map[stand]*volume.Contents
	levels   map[fill]float64
	places   []place
	blur     []float64 // litres within which the end of the live band is evened out, by row
}

// A stand is a tank at an attitude, and a fill is litres in it.
type stand struct {
	tank     *volume.Tank
	attitude geometry.Attitude
}

type fill struct {
	contents *volume.Contents
	litres   float64
}

// A condition is how the sender is looked at.
type condition struct {
	attitude geometry.Attitude
	sense    float.Sense
	density  float64
}

func (r Row) condition() condition { return condition{r.Attitude, r.Sense, r.Density} }

func newLook(rows []Row) *look {
	return &look{
		rows: rows, contents: map[stand]*volume.Contents{}, levels: map[fill]float64{},
		places: make([]place, len(rows)), blur: make([]float64, len(rows)),
	}
}

// blurred sets what is not known of the litres at each row: of the start, and of the
// pours; at most so many.
func (k *look) blurred(start float64, poured []float64, most float64) {
	variance := start * start
	for i := range k.rows {
		variance += poured[i] * poured[i]
		k.blur[i] = math.Min(most, math.Sqrt(variance))
	}
}

// fork returns a look that knows the same and is another's from now on.
func (k *look) fork() *look {
	f := *k
	f.contents, f.levels = maps.Clone(k.contents), maps.Clone(k.levels)
	return &f
}

// forget drops what is kept of tanks and fills that will not come again.
func (k *look) forget() {
	clear(k.levels)
	clear(k.contents)
}

// relation returns the sender of a rig in its tank under a condition. Where friction
// holds an arm, the mean stands for it.
func (k *look) relation(rig *calibration.Rig, c condition) (*volume.Relation, error) {
	contents := rig.Level.Contents
	if c.attitude != contents.Attitude {
		at := stand{rig.Tank, c.attitude}
		if contents = k.contents[at]; contents == nil {
			var err error
			if contents, err = rig.Tank.At(c.attitude); err != nil {
				return nil, err
			}
			k.contents[at] = contents
		}
	}
	in := *rig
	if c.density > 0 {
		var err error
		if in.Sender, err = float.InFuel(rig.Sender, c.density); err != nil {
			return nil, err
		}
	}
	for _, sense := range []float.Sense{c.sense, float.Mean} {
		if rel, ok := in.In(contents, sense); ok {
			return rel, nil
		}
	}
	return nil, fmt.Errorf("nose up %.4g°, left up %.4g°: %w", c.attitude.NoseUp, c.attitude.LeftUp, calibration.ErrStill)
}

// relations returns the sender of a rig at each row.
func (k *look) relations(rig *calibration.Rig) ([]*volume.Relation, error) {
	known := map[condition]*volume.Relation{}
	out := make([]*volume.Relation, len(k.rows))
	for i, r := range k.rows {
		c := r.condition()
		if known[c] == nil {
			rel, err := k.relation(rig, c)
			if err != nil {
				return nil, err
			}
			known[c] = rel
		}
		out[i] = known[c]
	}
	return out, nil
}

// level returns that of so many litres at a row.
func (k *look) level(row int, rig *calibration.Rig, c *volume.Contents, litres float64) float64 {
	at := fill{c, litres}
	level, known := k.levels[at]
	if !known {
		level = k.places[row].levelOf(c, litres, rig.Tank.Full)
		k.levels[at] = level
	}
	return level
}

// inputs returns what the terminals of a rig show at each row with so many litres in
// the tank. Contacts are evened out: where between two the float stands is not known; and
// so are the ends of the live band, by as much as is not known of the litres.
func (k *look) inputs(rig *calibration.Rig, litres []float64) ([]float64, error) {
	rels, err := k.relations(rig)
	if err != nil {
		return nil, err
	}
	out := make([]float64, len(k.rows))
	for i, rel := range rels {
		level := k.level(i, rig, rel.Contents, k.evened(i, rig, rel, litres[i]).shows)
		out[i] = rig.EvenAt(k.places[i].travelOf(rel, level))
	}
	return out, nil
}

// sharp returns what the terminals show where the litres are known: nothing is evened out
// but contacts.
func (k *look) sharp(rig *calibration.Rig, litres []float64) ([]float64, error) {
	rels, err := k.relations(rig)
	if err != nil {
		return nil, err
	}
	out := make([]float64, len(k.rows))
	for i, rel := range rels {
		out[i] = rig.EvenAt(rel.Travel(litres[i]))
	}
	return out, nil
}

// sharpest is the least width, as a share of a full tank, over which the end of a live
// band is evened out.
const sharpest = 2e-3

// A ramp is a quantity that starts to show at an end of the live band, when it is known
// only to be normal about a middle with a width: what shows on the average, by how much
// that grows with the middle, and the standard deviation of what shows beside it.
type ramp struct{ shows, grows, beside float64 }

func rampOf(over, width float64) ramp {
	u := over / width
	above, density := distuv.UnitNormal.CDF(u), distuv.UnitNormal.Prob(u)
	mean := u*above + density
	variance := (u*u+1)*above + u*density - mean*mean
	return ramp{width * mean, above, width * math.Sqrt(math.Max(0, variance-above*above))}
}

// evened returns the litres that the sender of a row shows on the average when there are
// so many give or take what is not known of them: between the ends of the live band, and
// far from them, one and the same. Without that a reading at an end would not tell which
// side of it is nearer.
func (k *look) evened(row int, rig *calibration.Rig, rel *volume.Relation, litres float64) ramp {
	low, high := rel.Reach()
	width := math.Max(k.blur[row], sharpest*rig.Tank.Full)
	up, over := rampOf(litres-low, width), rampOf(litres-high, width)
	return ramp{math.Max(low, math.Min(high, low+up.shows-over.shows)), up.grows - over.grows, math.Hypot(up.beside, over.beside)}
}

// settle remembers where each row is found, and returns by how many ohms the reading
// there changes for a litre more, and what besides is not known of it, ohm.
func (k *look) settle(rig *calibration.Rig, litres []float64) (slopes, beside []float64, err error) {
	rels, err := k.relations(rig)
	if err != nil {
		return nil, nil, err
	}
	slopes, beside = make([]float64, len(k.rows)), make([]float64, len(k.rows))
	for i, rel := range rels {
		p := &k.places[i]
		moving := k.evened(i, rig, rel, litres[i])
		level := k.level(i, rig, rel.Contents, moving.shows)
		*p = placeOf(rel, level, p.travelOf(rel, level))
		by := pouring * rig.Tank.Full
		if _, high := rel.Reach(); moving.shows+by > high {
			by = -by
		}
		if p.found {
			rate := (rig.EvenAt(p.travelOf(rel, level+by/p.area)) - rig.EvenAt(p.travel)) / by
			slopes[i], beside[i] = moving.grows*rate, moving.beside*math.Abs(rate)
		}
	}
	return slopes, beside, nil
}
