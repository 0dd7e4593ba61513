package main

import (
	"fmt"
	"io"
	"slices"

	"github.com/spf13/cobra"

	"floatarc/calibration"
	"floatarc/gauge"
	"floatarc/tanks/quantity"
	"floatarc/volume"
)

type pointRow struct {
	Label    string `json:"label"`
	Share    number `json:"share"`
	Position number `json:"position"`
	Litres   number `json:"litres"`
	Angle    number `json:"angle_deg"`
	Sender   number `json:"sender_ohms"`
	Input    number `json:"input_ohms"`
	Blind    bool   `json:"blind"`
}

type worst struct {
	Percent number `json:"worst_pct"`
	Litres  number `json:"worst_l"`
	Live    number `json:"worst_live_pct"`
	At      number `json:"worst_at_l"`
}

type pointsAnswer struct {
	Method string     `json:"method"`
	Points []pointRow `json:"points"`
	Error  struct {
		Before *worst `json:"before"`
		After  worst  `json:"after"`
	} `json:"error"`
	Warnings []warning `json:"warnings"`
}

// plan is what the conditioner is to store.
type plan struct {
	method    string
	points    []calibration.Point
	lines     *gauge.Lines
	unreached []string // labels of marks that share a blind band with another
	spared    []string // labels of points for which there is no place
}

// methodFlag adds --method, of which one way is built.
func methodFlag(c *cobra.Command) {
	c.Flags().Var(&method{"marks"}, "method", `where to put the points: "marks", at the printed marks of the dial`)
}

type method struct{ name string }

func (m *method) Set(text string) error {
	if text != "marks" {
		return fmt.Errorf("expected \"marks\", the one method that is built so far")
	}
	return nil
}

func (m *method) String() string { return m.name }
func (m *method) Type() string   { return "METHOD" }

// atMarks plans points at the printed marks, the best few of them where the
// conditioner has fewer places.
func (j *job) atMarks() (*plan, error) {
	all, unreached := j.rig.AtMarks()
	if len(all) < 2 {
		return nil, fmt.Errorf("%s: the sender shows one and the same resistance at every mark, expected two that differ", j.file.File)
	}
	chosen := j.rig.Choose(all, j.rig.Conditioner.Places)
	p := &plan{method: "marks", points: chosen}
	for _, m := range unreached {
		p.unreached = append(p.unreached, m.Label)
	}
	for _, a := range all {
		if !slices.Contains(chosen, a) {
			p.spared = append(p.spared, a.Label)
		}
	}
	var err error
	p.lines, err = gauge.NewLines(j.rig.Conditioner.Law, calibration.Pairs(chosen))
	return p, err
}

// loadPlan reads the rig of a command, puts its sender into the tank at an
// attitude, and plans its points.
func (o *options) loadPlan(file string, att attitude) (*job, *volume.Relation, *plan, error) {
	j, rel, err := o.loadAt(file, att)
	if err != nil {
		return nil, nil, nil, err
	}
	p, err := j.atMarks()
	return j, rel, p, err
}

// errors holds the gauge wired straight and the plan against the truth.
func (j *job) errors(rel *volume.Relation, p *plan) (before *calibration.Worst, after calibration.Worst) {
	direct := j.file.Gauge.Response
	if direct == nil {
		return nil, j.rig.Curve(rel, p.lines).Worst(p.lines)
	}
	curve := j.rig.Curve(rel, p.lines, direct)
	w := curve.Worst(direct)
	return &w, curve.Worst(p.lines)
}

func newPoints(o *options) *cobra.Command {
	var att attitude
	c := &cobra.Command{
		Use:   "points [FILE]",
		Short: "The calibration points to store, and the error before and after",
		Long: `points prints the pairs of input resistance and dial position that the
conditioner is to store, and how far the needle then lies at worst. With an
attitude the pairs stay those of level ground; the error is that of the attitude.`,
		Args: cobra.MaximumNArgs(1),
		RunE: func(c *cobra.Command, args []string) error {
			j, rel, p, err := o.loadPlan(named(args), att)
			if err != nil {
				return err
			}
			before, after := j.errors(rel, p)
			answer := j.pointsAnswer(p, before, after)
			answer.Warnings = j.pointWarnings(p)
			return o.print(c.OutOrStdout(), answer, answer.Points, func(w io.Writer) { j.writePoints(w, p, rel, before, after, answer.Warnings) })
		},
	}
	methodFlag(c)
	att.register(c)
	return c
}

func (j *job) pointsAnswer(p *plan, before *calibration.Worst, after calibration.Worst) pointsAnswer {
	a := pointsAnswer{Method: p.method, Warnings: []warning{}}
	for _, q := range p.points {
		a.Points = append(a.Points, pointRow{
			Label: q.Label, Share: number(q.Share), Position: number(q.Position), Litres: number(q.Litres), Angle: j.angle(q.Travel),
			Sender: number(q.SenderOhms), Input: number(q.InputOhms), Blind: q.Blind,
		})
	}
	a.Error.After = newWorst(after)
	if before != nil {
		w := newWorst(*before)
		a.Error.Before = &w
	}
	return a
}

func newWorst(w calibration.Worst) worst {
	return worst{number(w.Percent), number(w.Litres), number(w.LivePercent), number(w.At.Litres)}
}

func (j *job) writePoints(w io.Writer, p *plan, rel *volume.Relation, before *calibration.Worst, after calibration.Worst, warnings []warning) {
	sys := j.sys
	fmt.Fprintf(w, "%s\n%d points at the marks of the dial; the conditioner runs straight lines in %s.\n\n", j.file.Name, len(p.points), lawWords(j.rig.Conditioner.Law))
	j.pointsGrid(p).write(w)
	fmt.Fprintf(w, "\nHow far the needle lies at worst, from the empty to the full mark. %s\n\n", attitudeWords(rel.Contents.Attitude, j.file.Mount))
	e := grid{heads: []string{"", "worst % of dial", "where: " + sys.Volume.Symbol, "worst " + sys.Volume.Symbol, "worst % in live band"}, labels: true}
	row := func(name string, v calibration.Worst) {
		e.add(name, quantity.Fixed(v.Percent, 2), sys.Volume.Number(v.At.Litres), sys.Volume.Number(v.Litres), quantity.Fixed(v.LivePercent, 2))
	}
	if before != nil {
		row("sender straight to the gauge", *before)
	}
	row("with these points", after)
	e.write(w)
	low, high := rel.Live()
	fmt.Fprintf(w, "\nThe live band, where the sender moves, runs from %s to %s.\n", sys.Volume.Text(low), sys.Volume.Text(high))
	if before != nil && after.Percent >= before.Percent {
		fmt.Fprintln(w, "These points are no better than the sender wired straight to the gauge.")
	}
	writeWarnings(w, warnings)
}

// pointsGrid is the table of pairs to store; under a divider it gives the voltage
// too, as a share of the supply.
func (j *job) pointsGrid(p *plan) *grid {
	sys := j.sys
	g := &grid{heads: []string{"mark", "store Ω", "needle at %", "in the tank " + sys.Volume.Symbol, "sender Ω"}, labels: true, notes: true}
	onArm := j.file.Sender.Arm != nil
	if onArm {
		g.heads = append(g.heads, "arm °")
	}
	g.heads = append(g.heads, "")
	divider, divided := j.rig.Conditioner.Law.(gauge.Divider)
	if divided {
		g.heads = slices.Insert(g.heads, 2, "store % of supply")
	}
	low, high := j.rig.Level.Reach()
	for _, q := range p.points {
		note := ""
		switch {
		case q.Blind && q.Litres < low:
			note = fmt.Sprintf("%s from %s down", j.rests(), sys.Volume.Text(low))
		case q.Blind:
			note = fmt.Sprintf("%s from %s up", j.rests(), sys.Volume.Text(high))
		}
		row := []string{q.Label, quantity.Fixed(q.InputOhms, 1), quantity.Fixed(100*q.Position, 1), sys.Volume.Number(q.Litres), one(q.SenderOhms)}
		if onArm {
			row = append(row, one(q.Travel))
		}
		row = append(row, note)
		if divided {
			row = slices.Insert(row, 2, quantity.Fixed(100*divider.X(q.InputOhms), 2))
		}
		g.add(row...)
	}
	return g
}

// rests says what the sender does in a blind band.
func (j *job) rests() string {
	switch j.file.Sender.Kind {
	case "arm":
		return "the arm rests on its stop"
	case "stem":
		return "the float rests at the end of the stem"
	case "probe":
		return "the surface is beyond the probe"
	}
	return "the sender reads the same"
}

func lawWords(l gauge.Law) string {
	if d, ok := l.(gauge.Divider); ok {
		return fmt.Sprintf("the voltage over the sender (pull-up %g Ω)", d.PullUp)
	}
	return "resistance"
}
