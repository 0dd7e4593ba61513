package main

import (
	"fmt"
	"slices"
	"strings"

	"floatarc/plots"
	"floatarc/tanks"
	"floatarc/tanks/quantity"
)

// A question is one thing that new --ask asks: a measure of the form, or a word that no
// letter stands for.
type question struct {
	id     string // its letter, or its own word
	letter string // empty for a word
	key    string // as people know it, "sender.arm"
	words  string // what is asked
	unit   string // of a bare number; empty where there is none
	like   string // an answer, for one whose default is no example

	place  string   // the key beside which the mark stands
	keys   []string // those that an answer fills
	needed bool     // a rig cannot do without it, so that a default stands live in the file
	kept   bool     // a word that has a sensible default, which is no measure: never marked
	read   reader
}

// A reader turns an answer into the TOML values of the question's keys; a single one is for
// all of them.
type reader func(text string) (literal string, err error)

// Words that are asked and have no letter.
const (
	askKind  = "kind"
	askName  = "name"
	askFuel  = "fuel"
	askShape = "shape"
	askHeads = "heads"
)

// questions are those of a form, in the order of its file.
func (f form) questions(sys quantity.System) []question {
	out := []question{
		{id: askName, key: "name", words: "what the rig is called", place: "name", keys: []string{"name"}, kept: true, read: readName},
		{id: askFuel, key: "fuel.kind", words: "petrol, diesel, kerosene, avgas, ethanol85 or water", place: "fuel.kind", keys: []string{"fuel.kind"}, kept: true, read: readWord(fuelWords...)},
	}
	for _, m := range f.measures() {
		if m.section == bodySection && out[len(out)-1].id == "A" {
			out = append(out, f.shapeQuestions()...)
		}
		out = append(out, f.question(m, sys))
	}
	return out
}

var fuelWords = []string{"petrol", "diesel", "kerosene", "avgas", "ethanol85", "water"}

// kindQuestion comes before there is a form.
func kindQuestion() question {
	return question{id: askKind, key: askKind, words: "vehicle, boat or machine", kept: true, read: readWord(newKinds...)}
}

// shapeQuestions ask for the tank's shape, and for what has no letter of a drum.
func (f form) shapeQuestions() []question {
	body := bodySection + "[0]"
	out := []question{{id: askShape, key: bodySection + ".shape", words: strings.Join(f.shapeWords(), ", "), place: body + ".shape", kept: true, read: readWord("box", "drum", "v")}}
	if f.shape == plots.DrumTank {
		key := body + ".heads"
		out = append(out, question{id: askHeads, key: bodySection + ".heads", words: "its ends: flat, torispherical (dished, the usual one), ellipsoidal or hemispherical",
			place: key, keys: []string{key}, needed: true, read: readHeads})
	}
	return out
}

// shapeNames are the words for the shapes.
var shapeNames = []struct {
	shape       plots.TankShape
	word, words string
}{{plots.BoxTank, "box", "box"}, {plots.DrumTank, "drum", "drum (a lying cylinder)"}, {plots.VeeTank, "v", "v (a V bottom)"}}

// shapeKeys are what the file calls the shapes.
var shapeKeys = map[plots.TankShape]string{plots.BoxTank: "box", plots.DrumTank: "cylinder", plots.VeeTank: "outline"}

// shapeWords are those for people, the usual one of the kind first.
func (f form) shapeWords() []string {
	var out []string
	for _, s := range shapeNames {
		if s.shape == tankShapes[f.kind] {
			out = slices.Insert(out, 0, s.words)
		} else {
			out = append(out, s.words)
		}
	}
	return out
}

// shapeOf returns the shape of a word, and its word of a shape.
func shapeOf(word string) plots.TankShape {
	for _, s := range shapeNames {
		if s.word == word {
			return s.shape
		}
	}
	return plots.BoxTank
}

func (f form) shapeWord() string {
	for _, s := range shapeNames {
		if s.shape == f.shape {
			return s.word
		}
	}
	return ""
}

// optional are the measures that a rig can do without.
var optional = []string{
	"tank.rated", "tank.body.radius", "tank.body.wall", "tank.fill.height", "tank.pickup.at", "mount.nose_up", "mount.left_up",
	"sender.resistance.points", "wiring.length", "wiring.ground", "gauge.response", "gauge.settle", "gauge.marks",
	"use.consumption", "use.reserve", "use.grade", "use.side_slope",
}

// severalUnits are said of answers of several numbers that are not alike.
var severalUnits = map[string]string{"sender.resistance.points": "°, and Ω behind it"}

// corners are where the letters of a section with a V bottom stand in its outline.
var corners = map[string][]string{
	"C": {"[0][0]", "[4][0]"}, "D": {"[0][1]", "[1][1]"}, "E": {"[2][1]", "[4][1]"}, "F": {"[3][0]"}, "G": {"[3][2]"},
}

// question asks for a measure.
func (f form) question(m measure, sys quantity.System) question {
	key := m.path()
	q := question{
		id: m.letter, letter: m.letter, key: key, words: m.words, unit: m.in(f.kind, sys), needed: !slices.Contains(optional, key),
		place: strings.Replace(key, bodySection+".", bodySection+"[0].", 1),
	}
	if m.place() {
		q.words += ": forward, left and up from the origin"
	}
	q.keys = []string{q.place}
	if m.section == bodySection && m.key == "points" {
		q.keys = nil
		for _, c := range corners[m.letter] {
			q.keys = append(q.keys, q.place+c)
		}
	}
	q.read, q.like = readerOf(m, q.unit)
	if several, ok := severalUnits[key]; ok {
		q.unit = several
	}
	return q
}

// readerOf returns what reads the answers for a measure, with an answer where the default
// of the file is none.
func readerOf(m measure, unit string) (reader, string) {
	switch m.path() {
	case "tank.body.wall", "tank.body.radius":
		return orNone(readMeasure(unit, quantity.Length)), ""
	case "sender.heading":
		return readHeading, ""
	case "sender.resistance.points":
		return readBetween, "-30 180, -10 90"
	case "gauge.response":
		return readResponse, "10 95 180"
	case "gauge.marks":
		return readMarkWords, "E 1/4 1/2 3/4 F"
	case "wiring.size":
		return readMeasure(unit, quantity.Area, quantity.WireGauge), ""
	case "use.consumption":
		return readMeasure(unit, quantity.PerDistance, quantity.PerTime), ""
	case "use.reserve":
		return readMeasure(unit, quantity.Volume, quantity.Distance, quantity.Duration), ""
	}
	if m.place() {
		return readPlace(unit), ""
	}
	return readMeasure(unit, dimensions[m.unit]), ""
}

// dimensions are those of the units of the form.
var dimensions = map[formUnit]*quantity.Dimension{
	tapeUnit: quantity.Length, canUnit: quantity.Volume, cableUnit: quantity.Length, ohmUnit: quantity.Resistance,
	degreeUnit: quantity.Angle, gradeUnit: quantity.Angle, sameUnit("s"): quantity.Wait,
}

// known tells whether a draft has an answer to a question.
func (q question) known(d *tanks.Draft) bool {
	_, _, ok := d.Value(q.place)
	return ok && !d.Marked(q.place, q.letter)
}

// shown is what stands in a draft for a question, as a person would answer.
func (q question) shown(d *tanks.Draft) string {
	if q.id == askHeads {
		return headsWord(d)
	}
	if len(q.keys) == 0 {
		return ""
	}
	literal, _, _ := d.Value(q.keys[0])
	return spoken(literal)
}

// where names a question: its letter and key.
func (q question) where() string {
	if q.letter == "" {
		return q.key
	}
	return fmt.Sprintf("%s (%s)", q.letter, q.key)
}
