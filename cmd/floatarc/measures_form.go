package main

import (
	"fmt"
	"slices"
	"strings"

	"floatarc/plots"
	"floatarc/tanks/quantity"
)

// A measure is what a person measures for a rig file: its letter and its words stand in
// the file that new writes, beside its key, and on the blank sheet. Capitals stand in the
// sketches, small letters are for what none of them shows; I, O, i and l are left out,
// which are taken for figures.
type measure struct {
	letter       string
	kinds        string // the first letters of those of newKinds that have it
	section, key string
	words        string // where to hold the tape; {kind} stands for the word
	unit         formUnit
	part         plots.SketchPart // what it is in a sketch, if it is in one
}

// A formUnit is the unit to write in, in the order of formSystems: of a vehicle, and of
// what counts hours.
type formUnit struct{ distance, hours [3]string }

var formSystems = []string{quantity.Metric.Name, quantity.US.Name, quantity.Imperial.Name}

func sameUnit(s string) formUnit { return formUnit{[3]string{s, s, s}, [3]string{s, s, s}} }

func unitIn(metric, us, imperial string) formUnit {
	all := [3]string{metric, us, imperial}
	return formUnit{all, all}
}

var (
	tapeUnit    = unitIn("mm", "in", "in")
	canUnit     = unitIn("L", "US gal", "imp gal")
	cableUnit   = unitIn("m", "ft", "ft")
	wireUnit    = unitIn("mm²", "AWG", "mm²")
	ohmUnit     = sameUnit("Ω")
	degreeUnit  = sameUnit("°")
	gradeUnit   = sameUnit("%")
	useUnit     = formUnit{[3]string{"L/100km", "mpg(US)", "mpg(imp)"}, [3]string{"L/h", "US gal/h", "imp gal/h"}}
	reserveUnit = formUnit{[3]string{"km", "mi", "mi"}, [3]string{"min", "min", "min"}}
	noUnit      = sameUnit("")
)

// vehicles, boats and machines, and those that share a measure.
const (
	forVehicle, forBoat, forMachine = "v", "b", "m"
	forAll                          = "vbm"
)

// bodySection is the table of what depends on the tank's shape and not on the kind.
const bodySection = "tank.body"

// measures are all of them, in the order of the file.
var measures = []measure{
	{"A", forAll, "tank", "rated", "what the plate or the pump says it holds", canUnit, plots.Plate},
	{"B", forVehicle, bodySection, "length", "tape along the {kind}, rear face to front face", tapeUnit, plots.Length},
	{"B", forBoat, bodySection, "length", "tape along the {kind}, aft face to fore face", tapeUnit, plots.Length},
	{"B", forMachine, bodySection, "overall", "tape over both heads, tip to tip", tapeUnit, plots.Length},
	{"C", forVehicle, bodySection, "width", "tape across, right face to left face", tapeUnit, plots.Width},
	{"C", forBoat, bodySection, "points", "tape across, right side to left side", tapeUnit, plots.Width},
	{"D", forVehicle, bodySection, "height", "tape upright, bottom to top, not over a neck or a seam", tapeUnit, plots.Height},
	{"D", forBoat, bodySection, "points", "upright, from the keel to the top", tapeUnit, plots.Height},
	{"E", forBoat, bodySection, "points", "upright, from the keel to where the sides begin", tapeUnit, plots.Chine},
	{"F", forBoat, bodySection, "points", "from the right side left to the keel", tapeUnit, plots.Keel},
	{"G", forBoat, bodySection, "points", "rounding of the keel, the third number", tapeUnit, plots.Radius},
	{"G", forVehicle, bodySection, "radius", "rounding of the four edges that run along", tapeUnit, plots.Radius},
	{"H", forMachine, bodySection, "around", "tape once around the outside, square to the drum", tapeUnit, plots.Around},
	{"J", forVehicle, bodySection, "wall", "sheet, if you measured outside; none for inside sizes", tapeUnit, plots.Wall},
	{"J", forBoat, bodySection, "wall", "plate, if you measured outside; none for inside sizes", tapeUnit, plots.Wall},
	{"J", forMachine, bodySection, "wall", "plate; B and H are outside sizes", tapeUnit, plots.Wall},
	{"K", forAll, "tank.fill", "height", "plumb from the origin up to the fuel when the filler or vent stops the fill", tapeUnit, plots.Fill},
	{"L", forAll, "tank.pickup", "at", "mouth of the draw tube", tapeUnit, plots.Pickup},
	{"M", forBoat, "mount", "nose_up", "by a level along the tank's top, at her usual trim, + nose up", degreeUnit, plots.NoseUp},
	{"N", forBoat, "mount", "left_up", "by a level across the tank's top, + left up", degreeUnit, plots.LeftUp},
	{"P", forAll, "sender", "pivot", "axle of the arm", tapeUnit, plots.Axle},
	{"Q", forAll, "sender", "arm", "straight from the axle to the float's centre, bends or not", tapeUnit, plots.ArmLength},
	{"R", forAll, "sender", "heading", "where the arm points, seen from above: forward, left, aft, right", noUnit, plots.Heading},
	{"S", forAll, "sender", "stop_low", "angle of that straight line on the low stop, minus below level", degreeUnit, plots.StopLow},
	{"T", forAll, "sender", "stop_high", "angle on the high stop", degreeUnit, plots.StopHigh},
	{"U", forAll, "sender.float", "diameter", "how thick the float is", tapeUnit, plots.FloatAcross},
	{"V", forAll, "sender.float", "length", "how long the float is, along its axis", tapeUnit, plots.FloatLong},
	{"W", forAll, "sender.float", "draft", "how deep it sits, dunked in fuel", tapeUnit, plots.Draft},
	{"X", forAll, "sender.resistance", "low", "arm on its low stop", ohmUnit, plots.OhmsLow},
	{"Y", forAll, "sender.resistance", "high", "arm on its high stop", ohmUnit, plots.OhmsHigh},
	{"Z", forAll, "sender.resistance", "points", "angle and ohms in several places", ohmUnit, plots.OhmsBetween},
	{"a", forAll, "wiring", "length", "the wire one way, sender to conditioner", cableUnit, 0},
	{"b", forAll, "wiring", "size", "how thick the wire is, by its print or a gauge", wireUnit, 0},
	{"c", forAll, "wiring", "ground", "return path: meter from the sender's body to the conditioner's ground, leads shorted first", ohmUnit, 0},
	{"d", forAll, "gauge", "response", "the gauge by itself: ohms at E, 1/2, F, by a decade box in place of the sender", ohmUnit, 0},
	{"e", forAll, "gauge", "settle", "how long a slow needle takes", sameUnit("s"), 0},
	{"f", forAll, "gauge", "marks", "what the dial is marked with", noUnit, 0},
	{"g", forAll, "use", "consumption", "what the engine takes", useUnit, 0},
	{"h", forAll, "use", "reserve", "still to be had when the warning lamp lights", reserveUnit, 0},
	{"j", forVehicle + forMachine, "use", "grade", "steepest climb and descent", gradeUnit, 0},
	{"j", forBoat, "use", "grade", "steepest trim under way", gradeUnit, 0},
	{"k", forVehicle + forMachine, "use", "side_slope", "steepest lean to a side", gradeUnit, 0},
	{"k", forBoat, "use", "side_slope", "steepest heel", gradeUnit, 0},
}

// path is the key with the tables that it stands in.
func (m measure) path() string { return m.section + "." + m.key }

// in is the unit to write it in, of a kind.
func (m measure) in(kind string, sys quantity.System) string {
	i := max(0, slices.Index(formSystems, sys.Name))
	if kind == newKinds[0] {
		return m.unit.distance[i]
	}
	return m.unit.hours[i]
}

// place tells whether it is a point: forward, left and up from the origin.
func (m measure) place() bool { return m.part == plots.Pickup || m.part == plots.Axle }

// said is what the file says beside the key.
func (m measure) said() string {
	if !m.place() {
		return m.letter + ": " + m.words
	}
	return fmt.Sprintf("%s: %s: %[1]sx forward, %[1]sy left, %[1]sz up from the origin", m.letter, m.words)
}

// A form is a kind of rig with a shape of tank.
type form struct {
	kind  string
	shape plots.TankShape
}

// usualForm is that of most rigs of a kind.
func usualForm(kind string) form { return form{kind, tankShapes[kind]} }

// measuresOf are those of a kind, with the tank that it usually has.
func measuresOf(kind string) []measure { return usualForm(kind).measures() }

// measures are those of a form: of the body, those of the kind that usually has its shape.
func (f form) measures() []measure {
	var out []measure
	for _, m := range measures {
		kind := f.kind
		if m.section == bodySection {
			kind = f.sketched()
		}
		if strings.Contains(m.kinds, kind[:1]) {
			m.words = strings.ReplaceAll(m.words, "{kind}", f.kind)
			out = append(out, m)
		}
	}
	return out
}

// sketched is the kind whose sketch shows a tank of the form.
func (f form) sketched() string {
	for _, kind := range newKinds {
		if tankShapes[kind] == f.shape {
			return kind
		}
	}
	return f.kind
}

// measure is that of a letter.
func (f form) measure(letter string) (measure, error) {
	for _, m := range f.measures() {
		if m.letter == letter {
			return m, nil
		}
	}
	return measure{}, fmt.Errorf("letter %s: a %s has none, expected one of those in its list of measures", letter, f.kind)
}

// letterIn returns the letters that a sketch of a kind shows.
func letterIn(kind string) func(plots.SketchPart) string {
	return func(part plots.SketchPart) string {
		for _, m := range measuresOf(kind) {
			if m.part == part {
				return m.letter
			}
		}
		return ""
	}
}

// noteWidth is how long a line of a comment of the rig file gets.
const noteWidth = 64

// note returns the comment of a measure, with what else is to be said of it, in lines.
func (f form) note(letter string, more ...string) (string, error) {
	m, err := f.measure(letter)
	if err != nil {
		return "", err
	}
	return commented(strings.Join(append([]string{m.said()}, more...), "; ")), nil
}

// commented breaks a comment into lines; newRig moves them to their column.
func commented(text string) string {
	var b strings.Builder
	b.WriteString("#")
	long := 0
	for _, word := range strings.Fields(text) {
		if long > 0 && long+1+len([]rune(word)) > noteWidth {
			b.WriteString("\n #")
			long = 0
		}
		b.WriteString(" " + word)
		long += 1 + len([]rune(word))
	}
	return b.String()
}
