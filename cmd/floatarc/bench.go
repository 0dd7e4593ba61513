package main

import (
	"fmt"
	"io"
	"math"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"floatarc/calibration"
	"floatarc/gauge"
	"floatarc/tanks/quantity"
	"floatarc/volume"
)

type benchPart struct {
	Ohms   number `json:"ohms"`
	Series string `json:"series"` // or "drawer"
}

type benchRow struct {
	Label     string      `json:"label"`
	Input     number      `json:"input_ohms"`
	Sender    number      `json:"sender_ohms"`
	Set       number      `json:"set_ohms"` // what to set the decade box to, at the place asked for
	Position  number      `json:"position"`
	Place     string      `json:"place"`
	Tolerance number      `json:"tolerance_pct"`
	OhmsOff   number      `json:"tolerance_ohms"` // the same in ohms
	Litres    number      `json:"litres"`
	Rising    number      `json:"litres_rising"`
	Falling   number      `json:"litres_falling"`
	Midpoint  bool        `json:"midpoint"`
	Blind     bool        `json:"blind"`
	Parts     []benchPart `json:"parts"`
	Join      string      `json:"parts_join"`
	PartsOhms number      `json:"parts_ohms"`
	PartsOff  number      `json:"parts_error_l"`
	PartsAt   number      `json:"parts_position"` // where the needle must stand with them
	Watts     number      `json:"parts_watts"`    // at most, in the hottest part
	end       calibration.End
	single    standIn
	pair      standIn
}

// A standIn is what parts show in place of a setting.
type standIn struct {
	gauge.Stand
	off      float64 // litres
	position float64 // where the needle must stand with them
}

type benchAnswer struct {
	Method   string     `json:"method"`
	At       string     `json:"at"`
	Sweep    number     `json:"sweep_deg"`
	Settle   number     `json:"settle_s"`
	Settings []benchRow `json:"settings"`
	Warnings []warning  `json:"warnings"`
}

// benchFlags say where the box is and what parts stand in for it.
type benchFlags struct {
	at     string
	series string
	have   string
}

const (
	terminals  = "terminals"
	tank       = "tank"
	drawer     = "drawer"
	usualSweep = 90.0 // degrees from E to F (common practice, no source)
	charging   = 14.4 // V of a 12 V system (common practice, no source)
)

func newBench(o *options) *cobra.Command {
	var att attitude
	var flags planFlags
	var b benchFlags
	c := &cobra.Command{
		Use:   "bench [FILE]",
		Short: "The schedule for a decade box, and resistors that stand in for one",
		Long: `bench prints which resistance to dial on a decade box in place of the sender,
where the needle must then stand, and the litres that stand for it, with a check
half way between the points. Without a decade box: the nearest single resistor
and the best pair, from a series of preferred values or from your drawer.`,
		Args: oneAtMost,
		RunE: func(c *cobra.Command, args []string) error {
			if b.at != terminals && b.at != tank {
				return misusef("--at %q, expected terminals or tank", b.at)
			}
			stock, series, err := b.chosen(c)
			if err != nil {
				return err
			}
			j, rel, p, err := o.loadPlan(named(args), att, flags)
			if err != nil {
				return err
			}
			answer := j.benchAnswer(rel, p, b.at)
			for i := range answer.Settings {
				j.stand(&answer.Settings[i], b.at, rel, p, stock, series)
			}
			answer.Warnings = append([]warning{}, j.installedWarnings()...)
			return o.print(c.OutOrStdout(), answer, answer.csvRows(), func(w io.Writer) { answer.write(w, j, p, rel, series, stock) })
		},
	}
	flags.register(c)
	flags.registerRound(c)
	c.Flags().StringVar(&b.at, "at", terminals, "where the decade box is: `PLACE` terminals (of the conditioner) or tank (at the sender's end of the final wiring)")
	b.registerStock(c)
	att.register(c)
	return c
}

// registerStock registers where the resistors come from.
func (b *benchFlags) registerStock(c *cobra.Command) {
	c.Flags().StringVar(&b.series, "series", "E24", "the `SERIES` of resistors to be had: E6, E12, E24 or E96")
	c.Flags().StringVar(&b.have, "have", "", "the resistors in your drawer instead, one `OHMS` for each part: 10,22,22,47,1k")
}

// chosen returns the stock that the flags of a command ask for.
func (b benchFlags) chosen(c *cobra.Command) ([]float64, gauge.Series, error) {
	if c.Flags().Changed("have") && (c.Flags().Changed("series") || b.have == "") {
		return nil, gauge.Series{}, misusef("--have %q beside --series %s, expected the resistors of your drawer, or a series", b.have, b.series)
	}
	stock, series, err := b.stock()
	if err != nil {
		err = misusef("%v", err)
	}
	return stock, series, err
}

// stock returns the resistors to choose from, rising, and the series' tolerance.
func (b benchFlags) stock() ([]float64, gauge.Series, error) {
	if b.have == "" {
		s, err := gauge.PreferredSeries(strings.ToUpper(b.series))
		if err != nil {
			return nil, s, fmt.Errorf("--series: %w", err)
		}
		return s.Values(), s, nil
	}
	var out []float64
	for _, text := range strings.FieldsFunc(b.have, func(r rune) bool { return r == ',' || r == ' ' }) {
		if n := len(text); n > 1 && strings.ContainsAny(text[n-1:], "kM") {
			text += "ohm"
		}
		q, err := quantity.Resistance.Parse(text)
		if err == nil && !(q.Value > 0) {
			err = fmt.Errorf("%g ohm, expected more than 0", q.Value)
		}
		if err != nil {
			return nil, gauge.Series{}, fmt.Errorf("--have: %w", err)
		}
		out = append(out, q.Value)
	}
	if len(out) == 0 {
		return nil, gauge.Series{}, fmt.Errorf("--have %q, expected resistors such as 10,22,47", b.have)
	}
	slices.Sort(out)
	return out, gauge.Series{Name: drawer}, nil
}

func (j *job) sweep() float64 {
	if j.file.Gauge.Sweep > 0 {
		return j.file.Gauge.Sweep
	}
	return usualSweep
}

func (j *job) benchAnswer(rel *volume.Relation, p *plan, at string) benchAnswer {
	a := benchAnswer{Method: p.method, At: at, Sweep: number(j.sweep()), Settle: unknown}
	if j.file.Gauge.Settle > 0 {
		a.Settle = number(j.file.Gauge.Settle)
	}
	for _, s := range j.rig.Bench(rel, p.points, p.lines, j.sweep()) {
		row := benchRow{
			Label: settingLabel(s), Input: number(s.Input), Sender: number(s.Sender), Set: number(s.Input), Position: number(s.Position), Place: j.place(s.Position),
			Tolerance: number(100 * s.Tolerance), OhmsOff: unknown, Litres: number(s.Litres), Rising: number(s.Rising), Falling: number(s.Falling),
			Midpoint: s.Midpoint(), Blind: s.Blind, end: s.End,
		}
		if at == tank {
			row.Set = row.Sender
		}
		if s.PerOhm != 0 {
			row.OhmsOff = number(math.Abs(s.Tolerance / s.PerOhm))
		}
		a.Settings = append(a.Settings, row)
	}
	return a
}

func settingLabel(s calibration.Setting) string {
	if s.Midpoint() {
		return s.Label + " – " + s.Between
	}
	return s.Label
}

// stand finds the parts that stand for a setting. They stand for the input at the
// terminals; at the tank the wiring lies in between, and they stand for the sender.
func (j *job) stand(row *benchRow, at string, rel *volume.Relation, p *plan, stock []float64, series gauge.Series) {
	target := float64(row.Set)
	litres := j.rig.LitresNear(rel, float64(row.Input))
	in := func(s gauge.Stand) standIn {
		input := j.seen(s.Ohms, at)
		return standIn{s, math.Abs(j.rig.LitresNear(rel, input) - litres), p.lines.Show(input)}
	}
	row.single = in(gauge.Nearest(stock, target))
	best := row.single
	if pair, ok := gauge.NearestPair(stock, target, series.Name != drawer); ok {
		row.pair = in(pair)
		if math.Abs(pair.Ohms-target) < math.Abs(best.Ohms-target) {
			best = row.pair
		}
	}
	for _, p := range best.Parts {
		row.Parts = append(row.Parts, benchPart{number(p), series.Name})
	}
	row.Join, row.PartsOhms, row.PartsOff = string(best.Join), number(best.Ohms), number(best.off)
	row.PartsAt, row.Watts = number(best.position), number(j.hottest(best.Stand))
}

// hottest returns the most power in one of the parts: through the pull-up where it
// is known, and with all of the supply straight across them where it is not.
func (j *job) hottest(s gauge.Stand) float64 {
	volts := j.supply()
	if d := j.file.Conditioner.Divider(); d != nil {
		volts *= d.X(s.Ohms)
	}
	return s.Hottest(volts)
}

// supply returns the volts behind the parts: those of the file, or of a battery on
// charge.
func (j *job) supply() float64 {
	if volts := j.file.Conditioner.Feed.Supply; volts > 0 {
		return volts
	}
	return charging
}

// seen returns what the terminals see of ohms set at a place.
func (j *job) seen(ohms float64, at string) float64 {
	if at == tank {
		return j.rig.Wiring.Input(ohms)
	}
	return ohms
}
