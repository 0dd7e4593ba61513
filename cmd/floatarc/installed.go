package main

import (
	"fmt"
	"math"
	"strings"

	"floatarc/gauge"
	"floatarc/tanks/quantity"
)

// install replaces the wiring by what was measured at the terminals: PLACE=OHMS
// and so on, separated by commas. A place is a stop, a mark, or whatever the
// command at takes.
func (j *job) install(text string) error {
	var found []gauge.Found
	for _, reading := range strings.Split(text, ",") {
		where, ohms, ok := strings.Cut(reading, "=")
		refuse := func(err error) error {
			return fmt.Errorf("--measured %s: %w", strings.Join(strings.Fields(reading), " "), err)
		}
		if !ok {
			return refuse(fmt.Errorf("expected PLACE=OHMS such as full=34.1, low=238 or 140ohm=141.2"))
		}
		sender, alone, err := j.senderAt(strings.TrimSpace(where))
		j.throughSender = j.throughSender || !alone
		if err != nil {
			return refuse(err)
		}
		q, err := quantity.Resistance.Parse(ohms)
		if err == nil && q.Value < 0 {
			err = fmt.Errorf("%g ohm, expected 0 or more", q.Value)
		}
		if err != nil {
			return refuse(err)
		}
		found = append(found, gauge.Found{Sender: sender, Terminals: q.Value})
	}
	installed, err := gauge.Install(found)
	if err != nil {
		return fmt.Errorf("--measured: %w", err)
	}
	low, high := j.rig.Sender.Stops()
	for _, travel := range []float64{low, high} {
		if input := installed.Input(j.rig.Sender.Track().Ohms(travel)); input < 0 {
			return fmt.Errorf("--measured: the terminals would read %.4g ohm with the sender at %.4g ohm, expected 0 or more", input, j.rig.Sender.Track().Ohms(travel))
		}
	}
	j.rig.Wiring.Installed = installed
	return nil
}

// senderAt returns the sender's ohms at a known place, and whether they were measured by
// themselves.
func (j *job) senderAt(where string) (ohms float64, alone bool, err error) {
	track, dial := j.rig.Sender.Track(), j.rig.Dial
	switch where {
	case "low": // as far as the tank lets the sender go
		return track.Ohms(j.rig.Low), false, nil
	case "high":
		return track.Ohms(j.rig.High), false, nil
	case "empty":
		return j.rig.Level.Ohms(dial.Empty), false, nil
	case "half":
		return j.rig.Level.Ohms((dial.Empty + dial.Full) / 2), false, nil
	case "full":
		return j.rig.Level.Ohms(dial.Full), false, nil
	}
	if q, err := quantity.Resistance.Parse(where); err == nil && strings.ContainsAny(where, "oΩΩR") {
		return q.Value, true, nil // the sender alone, its plug pulled
	}
	litres, err := j.litresOf(j.rig.Level, where, true)
	if err != nil {
		return 0, false, fmt.Errorf("not a place, expected low, high, empty, half, full, a mark (1/4), litres (12L) or the sender's own ohms (33ohm)")
	}
	return j.rig.Level.Ohms(litres), false, nil
}

// installedAnswer is the wiring as it was measured.
type installedAnswer struct {
	Offset   number `json:"offset_ohms"`
	Scale    number `json:"scale"`
	Residual number `json:"residual_ohms"`
	Doubt    string `json:"doubt"`
}

func (j *job) installedAnswer() *installedAnswer {
	in := j.rig.Wiring.Installed
	if in == nil {
		return nil
	}
	return &installedAnswer{number(in.Offset), number(in.Scale), number(in.Residual), string(in.Doubt())}
}

// installedWords tells the wiring as it was measured.
func (j *job) installedWords() string {
	in := j.rig.Wiring.Installed
	words := fmt.Sprintf("Wiring as measured: the terminals see %s × the sender's ohms %s %s ohm; the file's own wire and joints, %s ohm, do not count.",
		quantity.Fixed(in.Scale, 4), sign(in.Offset), quantity.Fixed(math.Abs(in.Offset), 2), quantity.Fixed(j.file.Wiring.Wire.Ohms()+j.file.Wiring.Ground, 2))
	if len(in.Found) > 2 {
		words += fmt.Sprintf(" The readings lie up to %s ohm off that line.", quantity.Fixed(in.Residual, 2))
	}
	return words
}

// slip is the factor below which, or above whose inverse, a slip of the pen is
// likelier than any fault of the wiring.
const slip = 0.4

func sign(v float64) string {
	if v < 0 {
		return "−"
	}
	return "+"
}

// installedWarnings tells why readings do not fit a wire and a joint.
func (j *job) installedWarnings() []warning {
	in := j.rig.Wiring.Installed
	if in == nil {
		return nil
	}
	least, most := in.Ends()
	adds := func(f gauge.Found) string {
		return fmt.Sprintf("%s ohm at %s ohm", quantity.Fixed(f.Terminals-f.Sender, 1), quantity.Fixed(f.Sender, 0))
	}
	both := adds(least) + " and " + adds(most)
	if in.Scale < slip || in.Scale > 1/slip {
		return []warning{{"wiring_slipped", fmt.Sprintf("The terminals see %s times the sender's ohms: look at the meter's range, the decimal points and the places first.", quantity.Fixed(in.Scale, 3))}}
	}
	switch in.Doubt() {
	case gauge.Grows:
		return []warning{{"wiring_grows", "What the wiring adds grows, " + both + ": a wire and a joint add the same everywhere. Look for a bad earth, measure at the sender's own body, and check the sender's ohms."}}
	case gauge.Shrinks:
		return []warning{{"wiring_shrinks", "What the wiring adds shrinks, " + both + ": something lies in parallel to the sender, a second gauge or a leak through damp."}}
	case gauge.Less:
		return []warning{{"wiring_negative", "The terminals read less than the sender alone, " + both + ": no wire does that. Were the meter's leads subtracted twice, or the sender's ohms measured otherwise?"}}
	case gauge.Scatters:
		return []warning{{"wiring_scatters", fmt.Sprintf("The readings lie up to %s ohm off a straight line: a loose joint, or a reading at another place than said. Measure again.", quantity.Fixed(in.Residual, 1))}}
	}
	return nil
}
