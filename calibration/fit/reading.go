package fit

import (
	"math"

	"floatarc/calibration"
	"floatarc/volume"
)

// A Reading is a row of the log against the corrected rig.
type Reading struct {
	Row
	Litres   float64 // in the tank as the log says, from the start and with the can that were found
	Expected float64 // ohm that the corrected rig shows with them
	Model    float64 // litres that the reading stands for
	Off      float64 // in standard uncertainties, where a flag was found and not given
	Residual float64 // litres as logged less those of the model
	Prior    float64 // the same of the rig as measured
	// Blind says that the sender rests on its stop, where the reading stands for many
	// quantities, and the logged one is among them: the residual is 0.
	Blind bool
	Used  bool
	Flag  Flag
	// Vague says that nothing is known of the pour, whatever else is known against the row.
	Vague bool
}

// nearEnd is how many standard uncertainties of a reading it may lie from that at a stop
// and still be taken as there.
const nearEnd = 3

// readings holds every row against the corrected rig, and against the one as measured.
func (o *Outcome) readings(l *Log, prior *calibration.Rig) error {
	d := o.descent
	after, err := d.look.relations(d.state.rig)
	if err != nil {
		return err
	}
	before, err := d.look.relations(prior)
	if err != nil {
		return err
	}
	logged := o.logged()
	expected, err := d.look.sharp(d.state.rig, logged)
	if err != nil {
		return err
	}
	for _, k := range d.vague {
		o.Rows[k].Vague = true
	}
	var sum, priorSum float64
	n := 0
	for i := range o.Rows {
		r := &o.Rows[i]
		r.Row, r.Litres, r.Used = l.Rows[i], logged[i], d.counts(i)
		r.Expected = expected[i]
		r.Model, r.Blind = r.against(d.state.rig, after[i], logged[i])
		priorModel, _ := r.against(prior, before[i], logged[i])
		r.Residual, r.Prior = logged[i]-r.Model, logged[i]-priorModel
		if r.Used && !r.Blind {
			sum, priorSum, n = sum+r.Residual*r.Residual, priorSum+r.Prior*r.Prior, n+1
		}
	}
	o.RMS, o.Prior = math.Sqrt(sum/float64(max(1, n))), math.Sqrt(priorSum/float64(max(1, n)))
	return nil
}

// logged returns what the log says is in the tank at each row, from the start and with
// the can that were found, and pours of which nothing is known as the readings tell them.
func (o *Outcome) logged() []float64 {
	d := o.descent
	correction := d.system.correction(d.poured)
	for _, k := range d.vague {
		d.log.Rows[k].Poured += correction[k]
	}
	return d.litres(d.state.values)
}

// against returns the litres that a reading stands for in a rig; where the sender rests
// on its stop, and so many litres are among those that it may then stand for, these.
func (r *Reading) against(rig *calibration.Rig, rel *volume.Relation, litres float64) (model float64, blind bool) {
	if math.IsNaN(r.Input) {
		return math.NaN(), false
	}
	low, high := rel.Reach()
	near := func(travel float64) bool { return math.Abs(r.Input-rig.EvenAt(travel)) <= nearEnd*r.InputSigma }
	model = rig.LitresNear(rel, r.Input)
	switch {
	case litres <= low && (model <= low || near(rel.Low)), litres >= high && (model >= high || near(rel.High)):
		return litres, true
	}
	return model, false
}
