package main

import (
	"fmt"
	"io"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"floatarc/calibration"
	"floatarc/float"
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
	Place    string `json:"place"` // of the needle, in words
	Drive    number `json:"drive"` // of a gauge that is not linear in it
}

type pointsAnswer struct {
	Method    string           `json:"method"`
	Rounded   bool             `json:"rounded"`
	NeverOver number           `json:"never_over"` // share; null with the method marks
	Points    []pointRow       `json:"points"`
	Error     errorsAnswer     `json:"error"`
	Floor     number           `json:"floor_pct"`
	Least     number           `json:"least_pct"` // proven least on the samples
	Between   number           `json:"between_pct"`
	Away      number           `json:"least_away_pct"` // the same from one step beside a blind band on
	Numbers   []numberRow      `json:"by_number"`
	Stored    []storedRow      `json:"stored"`
	Installed *installedAnswer `json:"installed"`
	Warnings  []warning        `json:"warnings"`
}

func newPoints(o *options) *cobra.Command {
	var att attitude
	var flags planFlags
	var lookup lookupFlags
	c := &cobra.Command{
		Use:   "points [FILE]",
		Short: "The calibration points to store, and the error before and after",
		Long: `points prints the pairs of input resistance and dial position that the
conditioner is to store, and how far the needle then lies at worst. With an
attitude the pairs stay those of level ground; the error is that of the attitude.

--method marks puts a pair at each printed mark. --method best puts them where
the needle lies least, free in input and in position: no other choice of so many
has a smaller worst error.`,
		Args: oneAtMost,
		RunE: func(c *cobra.Command, args []string) error {
			if err := lookup.check(c); err != nil {
				return err
			}
			j, rel, p, err := o.loadPlan(named(args), att, flags)
			if err != nil {
				return err
			}
			if lookup.format != "" {
				return j.writeLookup(c.OutOrStdout(), lookup)
			}
			sheet, err := j.pointsSheet(rel, p, flags)
			if err != nil {
				return err
			}
			sheet.warnings = append(j.pointWarnings(p), j.installedWarnings()...)
			if best := sheet.errors.best; best.over > broken {
				sheet.warnings = append(sheet.warnings, warning{"promise_broken", fmt.Sprintf("The best points do not keep the promise: near E the needle shows up to %s %% too much, since it cannot go lower (gauge.needle).", quantity.Fixed(best.over, 1))})
			}
			if c.Flags().Changed("never-over") && p.method == atMarks {
				sheet.warnings = append(sheet.warnings, warning{"never_over_unused", "--never-over is kept by --method best alone: with points at the marks the needle is right on every mark and bends between them."})
			}
			answer := sheet.answer(float64(flags.neverOver))
			return o.print(c.OutOrStdout(), answer, answer.Points, sheet.write)
		},
	}
	flags.register(c)
	flags.registerRound(c)
	lookup.register(c)
	att.register(c)
	return c
}

// broken is the excess, in percent of the dial, above which a promise is not kept.
const broken = 0.01

// A pointsSheet is everything that points tells.
type pointsSheet struct {
	*job
	rel       *volume.Relation
	plan      *plan
	neverOver float64
	errors    errorsSheet
	numbers   []numberRow
	stored    []storedRow
	warnings  []warning
}

func (j *job) pointsSheet(rel *volume.Relation, p *plan, f planFlags) (*pointsSheet, error) {
	v, err := j.survey(rel, p, float64(f.neverOver))
	if err != nil {
		return nil, err
	}
	s := &pointsSheet{job: j, rel: rel, plan: p, neverOver: v.below, numbers: v.byNumber(), stored: v.storedRows()}
	s.errors, err = v.errorsSheet(p)
	return s, err
}

func (s *pointsSheet) answer(neverOver float64) pointsAnswer {
	p := s.plan
	a := pointsAnswer{
		Method: p.method, Rounded: p.rounded, NeverOver: unknown, Error: s.errors.answer(), Numbers: s.numbers, Stored: s.stored,
		Floor: unknown, Least: unknown, Between: unknown, Away: unknown, Installed: s.installedAnswer(), Warnings: s.warnings,
	}
	if p.search != nil {
		a.NeverOver, a.Floor, a.Between = number(neverOver), number(p.search.Floor), number(p.search.Between)
		a.Least, a.Away = number(p.best.Least), number(p.best.Live)
	}
	for _, q := range p.points {
		row := pointRow{
			Label: q.Label, Share: number(q.Share), Position: number(q.Position), Litres: number(q.Litres), Angle: s.angle(q.Travel),
			Sender: number(q.SenderOhms), Input: number(q.InputOhms), Blind: q.Blind, Place: s.place(q.Position), Drive: unknown,
		}
		if n := s.rig.Conditioner.Needle; n != nil {
			row.Drive = number(n.Drive(q.Position))
		}
		a.Points = append(a.Points, row)
	}
	return a
}

func (s *pointsSheet) write(w io.Writer) {
	p := s.plan
	fmt.Fprintf(w, "%s\n", s.file.Name)
	writeWrapped(w, "", s.headline())
	fmt.Fprintln(w)
	s.pointsGrid(p).write(w)
	if s.rig.Wiring.Installed != nil {
		fmt.Fprintln(w)
		writeWrapped(w, "", s.installedWords())
	}
	s.errors.write(w)
	s.writeLive(w)
	s.writeNumbers(w)
	s.writeStored(w)
	writeWarnings(w, s.warnings)
}

// headline says what the points are.
func (s *pointsSheet) headline() string {
	p := s.plan
	law := lawWords(s.rig.Conditioner.Law)
	if s.rig.Conditioner.Needle != nil {
		law += " and gives out the drive of the gauge"
	}
	grid := ""
	if p.rounded {
		grid = fmt.Sprintf(" Inputs in steps of %g Ω", s.rig.Step())
		if s.rig.Conditioner.Inputs != nil {
			grid = " Inputs from the conditioner's list"
		}
		if p.method == free {
			grid += fmt.Sprintf("; positions that an eye can set, %s", finenessWords[s.file.Gauge.Fineness])
		}
		grid += "."
	}
	if p.method == atMarks {
		return fmt.Sprintf("%d points at the marks of the dial; the conditioner runs straight lines in %s.%s", len(p.points), law, grid)
	}
	promise := ""
	if s.neverOver > 0 && s.errors.best.over <= broken {
		promise = fmt.Sprintf(" Below %s of the way from empty to full the needle never shows more than there is on falling fuel.", shareWords(s.neverOver))
	}
	return fmt.Sprintf("%d points where the needle lies least; the conditioner runs straight lines in %s; outside them it holds the end values.%s%s", len(p.points), law, grid, promise)
}

var finenessWords = map[gauge.Fineness]string{
	gauge.Percents: "whole percents", gauge.Halves: "on the marks and half way between", gauge.OnMarks: "on the marks",
}

func shareWords(v float64) string {
	if v == quarter {
		return "a quarter"
	}
	return quantity.Fixed(100*v, 0) + " %"
}

// writeLive tells the live band, and what it costs.
func (s *pointsSheet) writeLive(w io.Writer) {
	sys := s.sys
	low, high := s.rel.Live()
	fmt.Fprintf(w, "\nThe live band, where the sender moves, runs from %s to %s.\n", sys.Volume.Text(low), sys.Volume.Text(high))
	if words := s.floorWords(); words != "" {
		writeWrapped(w, "", words)
	}
	if before := s.errors.straight; before != nil && s.errors.chosen().Percent >= before.Percent {
		fmt.Fprintln(w, "These points are no better than the sender wired straight to the gauge.")
	}
}

// floorWords says what no number of points lowers.
func (s *pointsSheet) floorWords() string {
	p := s.plan
	if p.search == nil || p.search.Floor < 0.05 {
		return ""
	}
	words := fmt.Sprintf("On level ground no number of points brings the worst error below %s %%", quantity.Fixed(p.search.Floor, 2))
	if s.neverOver > 0 {
		words = fmt.Sprintf("On level ground, and never showing too much near E, no number of points brings the worst error below %s %%", quantity.Fixed(p.search.Floor, 2))
	}
	told := s.rig.Told(s.rig.Level)
	slack := edge(s.job)
	var ends []string
	if told.Low.Litres > s.rig.Dial.Empty+slack {
		ends = append(ends, fmt.Sprintf("from %s down %s", s.sys.Volume.Text(told.Low.Litres), s.restsAt(told.Low)))
	}
	if told.High.Litres < s.rig.Dial.Full-slack {
		ends = append(ends, fmt.Sprintf("from %s up %s", s.sys.Volume.Text(told.High.Litres), s.restsAt(told.High)))
	}
	if least, most := s.rig.Conditioner.Needle.Ends(); least > 0 || most < 1 {
		ends = append(ends, "the needle does not reach the ends of the dial")
	}
	if _, stepped := s.rig.Sender.Track().(*float.Contacts); stepped {
		ends = append(ends, "the reading stands still from contact to contact")
	}
	switch {
	case len(ends) > 0:
		words += ": " + strings.Join(ends, ", and ")
	case s.neverOver > 0:
		words += ": rising and falling fuel read so far apart, and the needle must not show too much"
	}
	if away := s.errors.chosen().AwayPercent; len(ends) > 0 && s.rel == s.rig.Level && away < p.search.Floor {
		words += fmt.Sprintf(". Away from there the needle lies by at most %s %%", quantity.Fixed(away, 2))
	}
	return words + "."
}

// pointsGrid is the table of pairs to store; under a divider it gives the voltage
// too, as a share of the supply.
func (j *job) pointsGrid(p *plan) *grid {
	sys := j.sys
	g := &grid{heads: []string{"mark", "store Ω", "needle at %", "in the tank " + sys.Volume.Symbol, "sender Ω"}, labels: true, notes: true}
	if p.method == free {
		g.heads[0] = "point"
	}
	onArm, needle, divider := j.file.Sender.Arm != nil, j.rig.Conditioner.Needle, j.file.Conditioner.Divider()
	if onArm {
		g.heads = append(g.heads, "arm °")
	}
	g.heads = append(g.heads, "")
	if needle != nil {
		g.heads = slices.Insert(g.heads, 3, "drive")
	}
	if divider != nil {
		g.heads = slices.Insert(g.heads, 2, j.dividerHeads()...)
	}
	for _, q := range p.points {
		row := []string{q.Label, quantity.Fixed(q.InputOhms, 1), quantity.Fixed(100*q.Position, 1), sys.Volume.Number(q.Litres), one(q.SenderOhms)}
		if onArm {
			row = append(row, one(q.Travel))
		}
		row = append(row, j.pointNote(p, q))
		if needle != nil {
			row = slices.Insert(row, 3, fmt.Sprintf("%.4g", needle.Drive(q.Position)))
		}
		if divider != nil {
			row = slices.Insert(row, 2, j.dividerCells(q.InputOhms)...)
		}
		g.add(row...)
	}
	return g
}

// dividerHeads name what a divider makes of an input: the share of the supply, or
// volts where the supply is known, and the count of a converter.
func (j *job) dividerHeads() []string {
	heads := []string{"= % of supply"}
	if j.file.Conditioner.Feed.Supply > 0 {
		heads = []string{"= V"}
	}
	if j.file.Conditioner.Feed.Converter != nil {
		heads = append(heads, "= count")
	}
	return heads
}

func (j *job) dividerCells(input float64) []string {
	feed := j.file.Conditioner.Feed
	x := j.file.Conditioner.Divider().X(input)
	cells := []string{quantity.Fixed(100*x, 2)}
	if feed.Supply > 0 {
		cells = []string{quantity.Fixed(feed.Supply*x, 3)}
	}
	if feed.Converter != nil {
		cells = append(cells, fmt.Sprint(feed.Converter.Count(x)))
	}
	return cells
}

// pointNote tells where the needle stands, and where the sender does not move.
func (j *job) pointNote(p *plan, q calibration.Point) string {
	note := ""
	if p.method == free {
		note = j.place(q.Position)
	}
	told := j.rig.Told(j.rig.Level)
	border, way := told.Low, "down"
	switch q.End {
	case calibration.NoEnd:
		return note
	case calibration.HighEnd:
		border, way = told.High, "up"
	}
	if note != "" {
		note += "; "
	}
	return note + fmt.Sprintf("%s from %s %s", j.restsAt(border), j.sys.Volume.Text(border.Litres), way)
}

// restsAt says what keeps the reading at an end.
func (j *job) restsAt(b calibration.Border) string {
	if b.Limited {
		return "the conditioner takes no more"
	}
	return j.rests()
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
	limits := ""
	if limited, ok := l.(gauge.Limited); ok {
		l = limited.Law
		limits = fmt.Sprintf(" for inputs of %.4g to %.4g Ω", limited.Least, limited.Most)
	}
	if d, ok := l.(gauge.Divider); ok {
		return fmt.Sprintf("the voltage over the sender (pull-up %g Ω)%s", d.PullUp, limits)
	}
	return "resistance" + limits
}
