package main

import (
	"fmt"
	"io"
	"math"
	"slices"

	"github.com/spf13/cobra"
	"gonum.org/v1/gonum/floats/scalar"

	"floatarc/calibration/fit"
	"floatarc/float"
	"floatarc/tanks/quantity"
)

// A planRow is a row of a log to come: its first columns are those of a log, the others
// are passed over when it is read back.
type planRow struct {
	Added      number `json:"litres_added"`
	Removed    string `json:"litres_removed"`
	Ohms       string `json:"ohms"`
	Needle     string `json:"needle"`
	Note       string `json:"note"`
	Litres     number `json:"expected_total_l"`
	Input      number `json:"expected_ohms"`
	Low        number `json:"expected_ohms_low"` // 95 of 100 readings lie between these
	High       number `json:"expected_ohms_high"`
	Change     number `json:"expected_change_ohms"` // since the row before
	ChangeBy   number `json:"expected_change_within_ohms"`
	Position   number `json:"expected_needle"`
	NeedleLow  number `json:"expected_needle_low"`
	NeedleHigh number `json:"expected_needle_high"`
	Blind      bool   `json:"expected_blind"`
}

type planAnswer struct {
	Rows []planRow `json:"rows"`
	Next *nextFill `json:"next"` // the one reading that tells the most, before any
}

// mostCans is how many rows a log to come may have.
const mostCans = 500

func (o *options) fitPlan(c *cobra.Command, args []string, f fitFlags) error {
	if err := oneAtMost(c, args); err != nil {
		return err
	}
	if f.write != "" {
		return misusef("fit: --write with --plan, expected it with a log")
	}
	can, err := quantity.Volume.Parse(f.can)
	if err == nil && !(can.Value > 0) {
		err = fmt.Errorf("%q, expected more than 0", f.can)
	}
	if err != nil {
		return misusef("--plan: what one can holds: %v", err)
	}
	if f.log.can == "" && can.Sigma > 0 {
		f.log.can = f.can
	}
	j, err := o.load(named(args))
	if err != nil {
		return err
	}
	p, err := j.plan(f.plan)
	if err != nil {
		return err
	}
	answer, err := j.planLog(can.Value, p, f.log)
	if err != nil {
		return err
	}
	return o.print(c.OutOrStdout(), answer, answer.form(), func(w io.Writer) { j.writePlan(w, answer, f) })
}

// form returns the rows as a person fills them in, without digits that nobody reads.
func (a *planAnswer) form() []planRow {
	out := slices.Clone(a.Rows)
	for i := range out {
		r := &out[i]
		for _, n := range []*number{
			&r.Added, &r.Litres, &r.Input, &r.Low, &r.High, &r.Change, &r.ChangeBy, &r.Position, &r.NeedleLow, &r.NeedleHigh,
		} {
			*n = number(scalar.Round(float64(*n), 3))
		}
	}
	return out
}

// planLog tells what each can must show, from the start until the filler stops.
func (j *job) planLog(can float64, p *plan, flags logFlags) (*planAnswer, error) {
	l, err := j.cans(can, flags)
	if err != nil {
		return nil, err
	}
	family := j.family(j.file.Doubts())
	expected, err := fit.Plan(family, l)
	if err != nil {
		return nil, fmt.Errorf("%s: %w", j.file.File, err)
	}
	answer := &planAnswer{}
	for i, e := range expected {
		half := fit.Coverage * e.Sigma
		row := planRow{
			Added: number(l.Rows[i].Poured), Litres: number(e.Litres), Input: number(e.Input), Low: number(math.Max(0, e.Input-half)), High: number(e.Input + half),
			Change: number(e.Change), ChangeBy: number(fit.Coverage * e.ChangeSigma), Position: number(p.lines.Show(e.Input)), Blind: e.Blind,
		}
		if i == 0 {
			row.ChangeBy = unknown
		}
		at, other := p.lines.Show(float64(row.Low)), p.lines.Show(float64(row.High))
		row.NeedleLow, row.NeedleHigh = number(math.Min(at, other)), number(math.Max(at, other))
		answer.Rows = append(answer.Rows, row)
	}
	prospect, err := fit.Before(family)
	if err != nil {
		return nil, err
	}
	each := l.Rows[len(l.Rows)/2] // a can, of which so many are poured to get there
	poured := func(litres float64) float64 {
		return math.Hypot(math.Sqrt(math.Abs(litres-l.Start)/can)*each.PouredSigma, l.Can*(litres-l.Start))
	}
	if next, ok := prospect.Next(each.InputSigma, poured); ok {
		answer.Next = j.nextFill(next)
	}
	return answer, nil
}

// cans returns the log to come: a reading before the first can, then one after each, the
// last of what still goes in.
func (j *job) cans(can float64, flags logFlags) (*fit.Log, error) {
	pour, meter, err := flags.sigmas()
	if err != nil {
		return nil, err
	}
	share, err := flags.canShare()
	if err != nil {
		return nil, err
	}
	water, err := flags.isWater()
	if err != nil {
		return nil, err
	}
	density := 0.0
	if water && j.file.Fuel.Kind != "water" {
		density = j.fluid(&loadedLog{water: true}).DensityAt(j.file.Fuel.Temperature)
	}
	l := &loadedLog{fit: &fit.Log{Can: share}}
	if flags.start == "" || flags.start == unknownL {
		flags.start = drained
	}
	if err := j.takeStartOf(l, flags); err != nil {
		return nil, err
	}
	room := j.rig.Tank.Full - l.fit.Start
	if n := room / can; n > mostCans {
		return nil, misusef("%.0f cans to fill the tank, expected at most %d: a larger can", n, mostCans)
	}
	if !(room > 0) {
		return nil, misusef("--start: %.4g L, expected less than a full tank, %.4g L", l.fit.Start, j.rig.Tank.Full)
	}
	add := func(litres float64, sense float.Sense) {
		r := fit.Row{Poured: litres, Sense: sense, InputSigma: 1, Density: density}
		if litres > 0 {
			r.PouredSigma = pour(litres)
		}
		l.fit.Rows = append(l.fit.Rows, r)
	}
	if l.fit.Start > 0 {
		add(0, float.Mean)
	} else {
		add(0, float.Falling)
	}
	for left := room; left > crumb*j.rig.Tank.Full; left -= can {
		add(math.Min(can, left), float.Rising)
	}
	return l.fit, j.readSigmas(l.fit, meter)
}

// crumb is the share of a full tank that is not worth another can.
const crumb = 0.005

// readSigmas sets what a meter and a winding make uncertain of the readings to come.
func (j *job) readSigmas(l *fit.Log, meter func(float64) float64) error {
	inputs, err := fit.Shown(j.rig, l)
	if err != nil {
		return err
	}
	for i, input := range inputs {
		l.Rows[i].InputSigma = math.Hypot(meter(input), j.turn(input))
	}
	return nil
}

func (j *job) writePlan(w io.Writer, a *planAnswer, f fitFlags) {
	sys := j.sys
	v := sys.Volume
	fmt.Fprintf(w, "%s\n", j.file.Name)
	writeWrapped(w, "", fmt.Sprintf("The fill log to take, on level ground, by cans of %s. Readings between the two figures pass (95 of 100 would, if the rig is as measured). "+
		"The change from the row before is known better: it shows a fault at the second can. As CSV, to fill in: --csv.", v.Text(float64(a.Rows[len(a.Rows)/2].Added))))
	fmt.Fprintln(w)
	for _, caution := range fillCautions {
		writeWrapped(w, "  ! ", caution)
	}
	fmt.Fprintln(w)
	g := grid{heads: []string{"poured\n" + v.Symbol, "in the tank\n" + v.Symbol, "meter\nΩ", "passes\nΩ", "change\nΩ", "needle\n%", "found\nΩ", "needle\nseen", "note"}, notes: true}
	for _, r := range a.Rows {
		note, change := "________", known(float64(r.Change), func(c float64) string { return quantity.Signed(c, 1) + " ± " + one(float64(r.ChangeBy)) })
		if r.Blind {
			note = "at its stop"
		}
		g.add(v.Number(float64(r.Added)), v.Number(float64(r.Litres)), one(float64(r.Input)), one(float64(r.Low))+" … "+one(float64(r.High)), change,
			quantity.Fixed(100*float64(r.Position), 0), "______", "______", note)
	}
	g.write(w)
	fmt.Fprintln(w)
	if a.Next != nil {
		writeWrapped(w, "", fmt.Sprintf("If there is time for one reading only, take it with %s in the tank (about %s Ω): the litres behind a reading, now known to ± %s at worst (95 %%), would then be known to ± %s.",
			v.Text(float64(a.Next.Litres)), one(float64(a.Next.Ohms)), v.Text(float64(a.Next.Before)), v.Text(float64(a.Next.After))))
	}
}

// fillCautions are what whoever pours must know.
var fillCautions = []string{
	"Outdoors, engine off and cold, no flame, no phone in the hand, an extinguisher near. Wait after each can until the vapour has drifted off.",
	"Earth the tank and touch a metal can to the filler before and while you pour; never fill a plastic can in a boat or on a liner.",
	"Read the meter with the battery disconnected, an ohmmeter and nothing else on the sender. Wait until the reading stands still.",
}
