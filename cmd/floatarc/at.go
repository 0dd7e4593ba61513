package main

import (
	"fmt"
	"io"
	"math"
	"strings"

	"github.com/spf13/cobra"

	"floatarc/calibration"
	"floatarc/gauge"
	"floatarc/tanks"
	"floatarc/tanks/quantity"
	"floatarc/volume"
)

type atAnswer struct {
	Litres   number `json:"litres"`
	Usable   number `json:"usable_l"`
	Share    number `json:"share"`
	Position number `json:"position"`
	Level    number `json:"level_mm"`
	Angle    number `json:"angle_deg"`
	Sender   number `json:"sender_ohms"`
	Input    number `json:"input_ohms"`
	Blind    bool   `json:"blind"`
	Shown    number `json:"shown_position"`    // by the needle, with the points
	Today    number `json:"stored_position"`   // by the needle, with what the conditioner holds today
	Straight number `json:"straight_position"` // by the needle, wired straight to the gauge
}

func newAt(o *options) *cobra.Command {
	var att attitude
	var flags planFlags
	var bare bool
	c := &cobra.Command{
		Use:   "at [FILE] VALUE",
		Short: "One reading told every way: ohms, litres, share, needle, height",
		Long: `at takes the one thing you know and tells the others:

  at 141ohm         the meter's reading at the terminals, through the wiring
  at 141ohm --sender  the same with the meter on the sender itself
  at 12L            litres in the tank ("3.2 US gal" too)
  at 1/4            a mark of the dial, or a share of the way from empty to full
  at "needle 40 %"  for which the needle must stand there
  at 85mm           height of the surface over the tank's origin ("3 3/8 in" too)`,
		Args: func(_ *cobra.Command, args []string) error {
			if len(args) < 1 || len(args) > 2 {
				return misusef("at: %d words, expected one VALUE, or a FILE and a VALUE; a value with a space stands in quotes, such as \"5 US gal\"", len(args))
			}
			return nil
		},
		RunE: func(c *cobra.Command, args []string) error {
			file, value := tanks.Demo, args[len(args)-1]
			if len(args) == 2 {
				file = args[0]
			}
			j, rel, p, err := o.loadPlan(file, att, flags)
			if err != nil {
				return err
			}
			litres, err := j.litresOf(rel, value, bare)
			if err != nil {
				return fmt.Errorf("at %s: %w", value, err)
			}
			r := j.rig.Reading(rel, litres)
			answer := j.atAnswer(r)
			answer.Shown = number(p.lines.Show(r.InputOhms))
			if stored := j.storedLines(); stored != nil {
				answer.Today = number(stored.Show(r.InputOhms))
			}
			if direct := j.file.Gauge.Response; direct != nil {
				answer.Straight = number(direct.Show(r.InputOhms))
			}
			return o.print(c.OutOrStdout(), answer, []atAnswer{answer}, func(w io.Writer) { j.writeReading(w, value, rel, r, answer) })
		},
	}
	att.register(c)
	flags.register(c)
	flags.registerRound(c)
	c.Flags().BoolVar(&bare, "sender", false, "ohms are measured on the sender itself, wiring taken off")
	return c
}

// litresOf turns a reading into litres in the tank.
func (j *job) litresOf(rel *volume.Relation, value string, bare bool) (float64, error) {
	for _, m := range j.rig.Dial.Marks {
		if m.Label == value {
			return j.rig.Dial.Litres(m.Share), nil
		}
	}
	if needle, ok := strings.CutPrefix(value, "needle"); ok {
		q, err := quantity.Share.Parse(needle)
		if err != nil {
			return 0, err
		}
		marks := j.rig.Dial.Marks
		if lo, hi := marks[0].Position, marks[len(marks)-1].Position; q.Value < lo || q.Value > hi {
			return 0, fmt.Errorf("needle at %.4g, expected %.4g to %.4g, the end marks of the dial (or a percentage)", q.Value, lo, hi)
		}
		return j.rig.Dial.Litres(j.rig.Dial.ShareAt(q.Value)), nil
	}
	q, dim, err := quantity.ParseAny(value, quantity.Share, quantity.Resistance, quantity.Volume, quantity.Length)
	if err != nil {
		return 0, err
	}
	litres := q.Value
	switch dim {
	case quantity.Resistance:
		input := q.Value
		if bare {
			input = j.rig.Wiring.Input(input)
		}
		if litres, err = j.rig.LitresAt(rel, input); err != nil {
			return 0, err
		}
	case quantity.Length:
		if j.file.Sender.Poured {
			return 0, fmt.Errorf("a height in a tank that is known by its litres alone, expected ohms or litres")
		}
		if q.Value < rel.Contents.Bottom || q.Value > rel.Contents.Top {
			return 0, fmt.Errorf("expected a height from %s to %s, within the tank", j.sys.Length.Finer(1).Text(rel.Contents.Bottom), j.sys.Length.Finer(1).Text(rel.Contents.Top))
		}
		litres = rel.Contents.Litres(q.Value)
	case quantity.Share:
		if q.Value > 1 && !strings.Contains(value, "%") {
			return 0, fmt.Errorf("a bare number above 1, expected its unit: %sohm, %sL or %smm", value, value, value)
		}
		litres = j.rig.Dial.Litres(q.Value)
	}
	if litres < 0 || litres > j.file.Tank.Capacity*(1+1e-12) {
		return 0, fmt.Errorf("%s in the tank, expected 0 to the capacity, %s", j.sys.Volume.Text(litres), j.sys.Volume.Text(j.file.Tank.Capacity))
	}
	return litres, nil
}

func (j *job) atAnswer(r calibration.Reading) atAnswer {
	return atAnswer{
		Litres: number(r.Litres), Usable: number(r.Usable), Share: number(r.Share), Position: number(r.Position), Level: j.level(r.Level),
		Angle: j.angle(r.Travel), Sender: number(r.SenderOhms), Input: number(r.InputOhms), Blind: r.Blind, Straight: unknown, Today: unknown,
	}
}

func (j *job) writeReading(w io.Writer, value string, rel *volume.Relation, r calibration.Reading, answer atAnswer) {
	sys := j.sys
	fmt.Fprintf(w, "%s\nAt %s. %s\n\n", j.file.Name, value, attitudeWords(rel.Contents.Attitude, j.file.Mount))
	g := grid{labels: true, notes: true}
	g.add("in the tank", sys.Volume.Text(r.Litres), "")
	g.add("usable", known(r.Usable, sys.Volume.Text), "")
	g.add("share", quantity.Fixed(100*r.Share, 1)+" %", "of the way from the empty to the full mark")
	percent := func(v float64) string { return quantity.Fixed(100*v, 1) + " %" }
	g.add("needle, true", percent(r.Position), "where it must stand on the dial")
	g.add("needle, with points", percent(float64(answer.Shown)), "where it stands with the points of floatarc points")
	if !math.IsNaN(float64(answer.Today)) {
		g.add("needle, today", percent(float64(answer.Today)), "where it stands with what the conditioner holds today")
	}
	if j.file.Gauge.Response != nil {
		g.add("needle, straight", percent(float64(answer.Straight)), "where it stands with the sender wired straight to the gauge")
	}
	g.add("surface", known(float64(answer.Level), sys.Length.Finer(1).Text), "over the origin of the tank frame")
	if j.file.Sender.Arm != nil {
		g.add("arm", one(r.Travel)+" °", "above the tank's x-y plane")
	}
	g.add("sender", quantity.Fixed(r.SenderOhms, 1)+" Ω", "meter on the sender")
	g.add("terminals", quantity.Fixed(r.InputOhms, 1)+" Ω", "meter at the conditioner, through the wiring")
	g.write(w)
	if end := j.endWords(rel, r); end != "" && !r.Blind {
		fmt.Fprintf(w, "\n%s\n", end)
	}
	if r.Blind {
		fmt.Fprintf(w, "\n%s here: the ohms would be the same with a little more or less in the tank.\n", capital(j.rests()))
	}
}

// endWords says that at an end of the live band there may be more, or less.
func (j *job) endWords(rel *volume.Relation, r calibration.Reading) string {
	low, high := rel.Reach()
	near := func(travel float64) bool {
		return math.Abs(r.InputOhms-j.rig.InputAt(travel)) <= gauge.MeterOhms
	}
	switch {
	case near(rel.Low) && low > j.rig.Level.Contents.Unusable+edge(j):
		return fmt.Sprintf("A meter hardly tells this from %s Ω, where %s: there may be %s or less, down to an empty tank.", one(j.rig.InputAt(rel.Low)), j.rests(), j.sys.Volume.Text(low))
	case near(rel.High) && high < j.rig.Tank.Full-edge(j):
		return fmt.Sprintf("A meter hardly tells this from %s Ω, where %s: there may be %s or more, up to a full tank.", one(j.rig.InputAt(rel.High)), j.rests(), j.sys.Volume.Text(high))
	}
	return ""
}
