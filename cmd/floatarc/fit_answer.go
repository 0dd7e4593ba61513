package main

import (
	"math"

	"floatarc/calibration/fit"
)

// A parameterRow is a measure before and after, in the unit of its key.
type parameterRow struct {
	Name   string `json:"name"`
	Before number `json:"before"`
	After  number `json:"after"`
	Sigma  number `json:"sigma"` // standard uncertainty after
	Unit   string `json:"unit"`
	Prior  number `json:"prior_sigma"`
	Usual  bool   `json:"prior_usual"` // not stated in the file: of usual care
	Left   string `json:"left"`        // "silent" or "alike": left at its prior
	With   string `json:"left_with"`   // what moved instead
	Moved  number `json:"moved_sigmas"`
}

// A fitRow is a row of the log against the fitted rig.
type fitRow struct {
	Line     int    `json:"line"`
	Litres   number `json:"litres"`
	Ohms     number `json:"ohms"`
	Residual number `json:"residual_l"` // logged less model
	Used     bool   `json:"used"`
	Before   number `json:"residual_before_l"`
	Model    number `json:"model_l"`
	Expected number `json:"expected_ohms"`
	Blind    bool   `json:"blind"`
	Flag     string `json:"flag"`
	Off      number `json:"off_sigmas"` // where a flag was found and not given
	Needle   string `json:"needle"`
	True     number `json:"true_position"`
	Shown    number `json:"box_position"` // what the box should show there
	Verdict  string `json:"verdict"`
}

// A correction is a point to store, before and after.
type correction struct {
	Label    string `json:"label"`
	Position number `json:"position"`
	Litres   number `json:"litres"`
	Before   number `json:"before_ohms"`
	After    number `json:"after_ohms"`
	Blind    bool   `json:"blind"`
}

// A nextFill is the one further fill point that tells the most.
type nextFill struct {
	Litres number `json:"litres"`
	Ohms   number `json:"ohms"`
	Before number `json:"before_l"` // 95 % half width of the worst litres along the tank
	After  number `json:"after_l"`
}

// nextFill tells it of a rig.
func (j *job) nextFill(n fit.Next) *nextFill {
	return &nextFill{
		Litres: number(n.Litres), Ohms: number(j.rig.Input(j.rig.Level, n.Litres)),
		Before: number(fit.Coverage * n.Before), After: number(fit.Coverage * n.After),
	}
}

type fitAnswer struct {
	Parameters []parameterRow `json:"parameters"`
	Rows       []fitRow       `json:"rows"`
	Before     number         `json:"rms_before_l"`
	After      number         `json:"rms_after_l"`
	Square     number         `json:"chi_square"`
	Freedom    int            `json:"degrees_of_freedom"`
	Chance     number         `json:"chance"`
	Widened    number         `json:"widened"`
	Verdict    string         `json:"verdict"`
	Method     string         `json:"method"`
	Points     []correction   `json:"points"`
	Moves      []storedRow    `json:"stored"`
	Next       *nextFill      `json:"next"`
	// Correlation of the parameters, in their order.
	Correlation [][]number `json:"correlation"`
	Warnings    []warning  `json:"warnings"`
}

func (s *fitSheet) answer() fitAnswer {
	o := s.outcome
	a := fitAnswer{
		Rows: s.rows(), Before: number(o.Prior), After: number(o.RMS), Square: number(o.Square), Freedom: o.Freedom,
		Chance: number(o.Chance), Widened: number(o.Widened), Verdict: string(s.verdict()), Method: s.plan.method, Points: s.corrections(), Moves: s.moves,
		Parameters: []parameterRow{}, Correlation: [][]number{}, Warnings: s.warnings,
	}
	for i, p := range o.Parameters {
		a.Parameters = append(a.Parameters, parameterRow{
			Name: p.Name, Before: number(p.Value), After: number(p.After), Sigma: number(p.AfterSigma), Unit: p.Unit, Prior: number(p.Sigma),
			Usual: p.Usual, Left: string(p.Left), With: p.With, Moved: number(p.Moved),
		})
		var row []number
		for j := range o.Parameters {
			row = append(row, number(o.Correlation.At(i, j)))
		}
		a.Correlation = append(a.Correlation, row)
	}
	if s.next != nil {
		a.Next = s.after.nextFill(*s.next)
	}
	return a
}

// rows returns every row of the log against the fitted rig.
func (s *fitSheet) rows() []fitRow {
	var out []fitRow
	for i, r := range s.outcome.Rows {
		row := fitRow{
			Line: s.log.file.Rows[i].Line, Litres: number(r.Litres), Ohms: number(r.Input), Residual: number(r.Residual), Used: r.Used,
			Before: number(r.Prior), Model: number(r.Model), Expected: number(r.Expected), Blind: r.Blind, Flag: string(r.Flag), Off: number(r.Off),
			Needle: s.log.file.Rows[i].Needle, True: unknown, Shown: unknown,
		}
		if p := s.proofs[i]; p != nil {
			row.True, row.Shown, row.Verdict = number(p.right), number(p.box), string(p.verdict)
		}
		out = append(out, row)
	}
	return out
}

// corrections returns the points to store as the log corrects them, each beside the one
// of the rig as measured.
func (s *fitSheet) corrections() []correction {
	var out []correction
	for i, p := range s.plan.points {
		c := correction{Label: p.Label, Position: number(p.Position), Litres: number(p.Litres), Before: unknown, After: number(p.InputOhms), Blind: p.Blind}
		for k, q := range s.before.points {
			if s.plan.method == atMarks && q.Label == p.Label || s.plan.method == free && k == i && len(s.before.points) == len(s.plan.points) {
				c.Before = number(q.InputOhms)
			}
		}
		out = append(out, c)
	}
	return out
}

// A fitVerdict is how the log and the rig go together.
type fitVerdict string

// The verdicts.
const (
	goes     fitVerdict = "fits"
	scatters fitVerdict = "scatters" // more than the stated errors allow
	wrong    fitVerdict = "wrong"    // something else is wrong than what may move
	tame     fitVerdict = "tame"     // less than the stated errors would make: they are too wide
)

// Of the verdict: the chances below, or above, which it changes; and what else makes a log
// wrong that hardly can be, readings off by a share of a full tank or measures by so many
// of their uncertainties: else the meter and the pours are worse than told.
const (
	hardly     = fit.Scattering
	impossible = 1e-9
	tooGood    = 0.9999
	offShare   = 0.03
	offSigmas  = 5
)

func (s *fitSheet) verdict() fitVerdict {
	o := s.outcome
	far := math.IsNaN(o.Chance) || o.RMS > offShare*s.rig.Tank.Full
	for _, p := range o.Parameters {
		far = far || math.Abs(p.Moved) > offSigmas && p.Name != fit.StartName
	}
	switch chance := o.Chance; {
	case chance < impossible && far || math.IsNaN(chance):
		return wrong
	case chance < hardly:
		return scatters
	case chance > tooGood:
		return tame
	}
	return goes
}
