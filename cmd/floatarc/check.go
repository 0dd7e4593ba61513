package main

import (
	"fmt"
	"io"
	"math"
	"strings"

	"github.com/spf13/cobra"
	"gonum.org/v1/gonum/spatial/r3"

	"floatarc/geometry"
	"floatarc/tanks"
	"floatarc/tanks/quantity"
)

type checkAnswer struct {
	Capacity   number         `json:"capacity_l"`
	Full       number         `json:"full_l"`
	Unusable   number         `json:"unusable_l"`
	Usable     number         `json:"usable_l"`
	Empty      number         `json:"empty_l"`
	LiveLow    number         `json:"live_low_l"`
	LiveHigh   number         `json:"live_high_l"`
	SwingLow   number         `json:"swing_low_deg"`
	SwingHigh  number         `json:"swing_high_deg"`
	WireOhms   number         `json:"wire_ohms"`
	Sender     senderFigures  `json:"sender"`
	Box        boxFigures     `json:"conditioner"`
	Fill       fillFigures    `json:"fill"`
	Trapped    trappedFigures `json:"trapped"`
	Lamp       lampFigures    `json:"lamp"`
	Influences []influence    `json:"influences"`
	ReadBack   []string       `json:"read_back"`
	Warnings   []warning      `json:"warnings"`
}

type figure struct {
	Key   string `json:"key"`
	Value number `json:"value"`
}

func newCheck(o *options) *cobra.Command {
	return &cobra.Command{
		Use:   "check [FILE]",
		Short: "The tank and the sender read back in words, and every warning",
		Long: `check reads the rig back in sentences, so that a swapped sign or a wrong unit
shows, and warns of what usually goes wrong.`,
		Args: oneAtMost,
		RunE: func(c *cobra.Command, args []string) error {
			return o.writeCheck(c.OutOrStdout(), named(args))
		},
	}
}

// writeCheck writes what the command says of a file.
func (o *options) writeCheck(w io.Writer, file string) error {
	j, err := o.load(file)
	if err != nil {
		return err
	}
	answer := j.check()
	answer.Warnings = append(j.warnings(o.thinner(file)), answer.Lamp.warnings()...)
	return o.print(w, answer, answer.figures(), func(w io.Writer) { answer.write(w, j) })
}

func (j *job) check() checkAnswer {
	low, high := j.rig.Level.Live()
	lost := j.rig.Level.Contents.Unusable
	sender, box, fill := j.senderFigures(), j.boxFigures(), j.fillFigures()
	trapped, lamp := j.slopes()
	readBack := j.readBackTank()
	readBack = append(readBack, j.readBackFill(fill)...)
	readBack = append(readBack, j.readBackTrapped(trapped)...)
	readBack = append(readBack, j.readBackSender(sender)...)
	readBack = append(readBack, j.readBackDial()...)
	readBack = append(readBack, j.readBackBox(box)...)
	readBack = append(readBack, j.readBackLamp(lamp)...)
	readBack = append(readBack, j.readBackStated()...)
	return checkAnswer{
		Capacity: number(j.file.Tank.Capacity), Full: number(j.rig.Tank.Full), Unusable: number(lost), Usable: number(j.rig.Tank.Full - lost),
		Empty: number(j.rig.Dial.Empty), LiveLow: number(low), LiveHigh: number(high),
		SwingLow: j.angle(j.rig.Low), SwingHigh: j.angle(j.rig.High), WireOhms: number(j.rig.Wiring.Wire.Ohms()),
		Box: box, Fill: fill, Trapped: trapped, Lamp: lamp, ReadBack: readBack, Influences: j.influences(), Sender: sender, Warnings: []warning{},
	}
}

func (a checkAnswer) write(w io.Writer, j *job) {
	fmt.Fprintf(w, "%s\n\n", j.file.Name)
	for _, line := range a.ReadBack {
		writeWrapped(w, "", line)
	}
	j.writeInfluences(w, a.Influences)
	writeWarnings(w, a.Warnings)
}

// figures returns the numbers as rows for CSV.
func (a checkAnswer) figures() []figure {
	return []figure{
		{"capacity_l", a.Capacity}, {"full_l", a.Full}, {"unusable_l", a.Unusable}, {"usable_l", a.Usable}, {"empty_l", a.Empty},
		{"live_low_l", a.LiveLow}, {"live_high_l", a.LiveHigh}, {"swing_low_deg", a.SwingLow}, {"swing_high_deg", a.SwingHigh}, {"wire_ohms", a.WireOhms},
	}
}

// readBackTank tells the tank in sentences.
func (j *job) readBackTank() []string {
	sys, tank := j.sys, j.file.Tank
	var out []string
	walls := 0
	for _, b := range tank.Bodies {
		role := ""
		if b.Displaces {
			role = ", displaces fuel"
		}
		line := fmt.Sprintf("%s (%s%s): %s%s; %s.", capital(b.Name), b.Shape, role, b.Size(sys.Length.Size), j.cornerWords(b), sys.Volume.Text(geometry.Volume(b.Solid)/1e6))
		if b.Wall > 0 {
			walls++
			line += fmt.Sprintf(" Sizes taken as outside sizes, a wall of %s off every side.", sys.Length.Size(b.Wall))
		}
		out = append(out, line)
	}
	if tank.Bare {
		out = append(out, "The tank is known by its capacity alone, without a shape.")
	} else if walls == 0 {
		out = append(out, "Sizes taken as inside sizes.")
	}
	if m := j.file.Mount; m != (geometry.Mount{}) {
		out = append(out, attitudeWords(geometry.Attitude{}, m))
	}
	contents := j.rig.Level.Contents
	out = append(out, fmt.Sprintf("Holds %s to the brim and %s when the filler stops; %s lie below the pickup, so %s can be used.",
		sys.Volume.Text(tank.Capacity), sys.Volume.Text(tank.Full), sys.Volume.Text(contents.Unusable), sys.Volume.Text(tank.Full-contents.Unusable)))
	if tank.Scale != 1 {
		out = append(out, fmt.Sprintf("That is %s %% otherwise than its sizes say (tank.scale).", quantity.Signed(100*(tank.Scale-1), 1)))
	}
	return out
}

// readBackStated tells how well measures are known, as far as the file states it.
func (j *job) readBackStated() []string {
	var words []string
	for _, m := range j.file.Stated() {
		u := shownIn(m.Dimension.Bare, j.sys)
		words = append(words, strings.TrimSpace(m.Key+" "+u.spread(m.Value, m.Sigma)+" "+u.symbol))
	}
	if len(words) == 0 {
		return nil
	}
	line := "How well it is known, each ± a standard uncertainty: " + strings.Join(words, ", ") + "."
	if len(j.file.Fitted.Keys) > 0 {
		line += " A fill log found some of them, and how they hang together."
	}
	return []string{line}
}

// cornerWords tells where the least corner of the box around a body lies; of a dip
// table nobody knows.
func (j *job) cornerWords(b tanks.Body) string {
	if b.Measured {
		return ""
	}
	size := func(axis r3.Vec) string {
		lo, _ := b.Solid.Extent(axis)
		return j.sys.Length.Size(lo)
	}
	where := "least corner"
	if b.Wall > 0 {
		where = "least corner of the inside"
	}
	return fmt.Sprintf(", %s at (%s, %s, %s)", where, size(r3.Vec{X: 1}), size(r3.Vec{Y: 1}), size(r3.Vec{Z: 1}))
}

func (j *job) readBackDial() []string {
	sys := j.sys
	low, high := j.rig.Level.Live()
	out := []string{
		fmt.Sprintf("The sender moves from %s to %s. The empty mark stands for %s in the tank, the full mark for %s.",
			sys.Volume.Text(low), sys.Volume.Text(high), sys.Volume.Text(j.rig.Dial.Empty), sys.Volume.Text(j.rig.Dial.Full)),
	}
	if d := j.rig.Dial.Full - high; d > edge(j) {
		out = append(out, fmt.Sprintf("The needle will not move for the first %s used from the full mark.", sys.Volume.Text(d)))
	}
	if d := low - j.rig.Dial.Empty; d > edge(j) {
		out = append(out, fmt.Sprintf("The last %s above the empty mark all read the same.", sys.Volume.Text(d)))
	}
	return out
}

func capital(s string) string {
	r := []rune(s)
	return strings.ToUpper(string(r[0])) + string(r[1:])
}

// edge is the quantity below which a blind band is no band.
func edge(j *job) float64 { return 1e-6 * j.file.Tank.Capacity }

// planWords names a plan direction.
func planWords(heading float64) string {
	turn := math.Mod(math.Mod(heading, 360)+360, 360)
	switch turn {
	case 0:
		return "forward"
	case 90:
		return "left"
	case 180:
		return "aft"
	case 270:
		return "right"
	}
	if turn > 180 {
		return fmt.Sprintf("%s° to the right of forward", one(360-turn))
	}
	return fmt.Sprintf("%s° to the left of forward", one(turn))
}

// lineWidth is the width of a page of text.
const lineWidth = 96

// writeWrapped writes a sentence, broken at words, with a hanging indent.
func writeWrapped(w io.Writer, label, sentence string) {
	line, indent := label, strings.Repeat(" ", max(2, len([]rune(label))))
	for _, word := range strings.Fields(sentence) {
		if len([]rune(line))+1+len([]rune(word)) > lineWidth {
			fmt.Fprintln(w, line)
			line = indent + word
			continue
		}
		if line != "" && line != label {
			line += " "
		}
		line += word
	}
	fmt.Fprintln(w, line)
}
