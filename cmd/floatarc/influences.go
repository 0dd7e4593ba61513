package main

import (
	"fmt"
	"io"
	"math"
	"slices"

	"floatarc/calibration"
)

// An influence is a thing that may be a little otherwise than the rig says, and
// what that makes in litres at one reading.
type influence struct {
	Of    string `json:"of"`
	Empty number `json:"empty_l"`
	Half  number `json:"half_l"`
	Full  number `json:"full_l"`
}

// names of influences, for people.
var influenceNames = map[string]string{
	"earth": "1 ohm more of earth", "nose": "nose up by 1°", "left": "left side up by 1°", "arm": "1 mm more of arm",
	"pivot": "pivot 1 mm higher", "draught": "float 1 mm deeper", "wire": fmt.Sprintf("wire from %d to %d degC", calibration.Cold, calibration.Hot),
}

// influences returns what matters, the most first.
func (j *job) influences() []influence {
	all := j.rig.Influences()
	slices.SortStableFunc(all, func(a, b calibration.Influence) int {
		switch d := b.Most() - a.Most(); {
		case d > 1e-9:
			return 1
		case d < -1e-9:
			return -1
		}
		return 0
	})
	out := []influence{}
	for _, i := range all {
		out = append(out, influence{i.Of, number(i.Empty), number(i.Half), number(i.Full)})
	}
	return out
}

// most returns the greatest litres of an influence.
func (i influence) most() float64 {
	return math.Max(math.Abs(float64(i.Empty)), math.Max(math.Abs(float64(i.Half)), math.Abs(float64(i.Full))))
}

// writeInfluences prints what matters most, and what not.
func (j *job) writeInfluences(w io.Writer, all []influence) {
	v := j.sys.Volume
	fmt.Fprintf(w, "\nWhat matters most: %s more behind the same reading.\n\n", v.Symbol)
	g := grid{heads: []string{"", "at empty", "half way", "at full"}, labels: true}
	signed := func(litres number) string {
		hundredths := math.Round(100 * v.Of(float64(litres)))
		return fmt.Sprintf("%+.2f", hundredths/100+0)
	}
	for _, i := range all {
		name := influenceNames[i.Of]
		if i.Of == "pivot" && j.file.Sender.Arm == nil {
			name = "sender 1 mm higher"
		}
		g.add(name, signed(i.Empty), signed(i.Half), signed(i.Full))
	}
	g.write(w)
	if words := advice(all); words != "" && j.file.Wired {
		fmt.Fprintf(w, "\n%s\n", words)
	}
}

// advice says what to do about wire and earth: the one that people ask about and
// the one that they forget.
func advice(all []influence) string {
	of := func(name string) float64 {
		for _, i := range all {
			if i.Of == name {
				return i.most()
			}
		}
		return 0
	}
	const little = 0.2
	switch wire, earth := of("wire"), of("earth"); {
	case earth == 0:
		return ""
	case wire < little*earth:
		return "Ignore the wire, clean the earth: measure from the sender's own body to the battery's minus."
	default:
		return "Both the wire and the earth count: measure them, and calibrate at the temperature of use."
	}
}
