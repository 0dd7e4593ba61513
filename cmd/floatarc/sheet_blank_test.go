package main

import (
	"fmt"
	"maps"
	"regexp"
	"slices"
	"strings"
	"testing"

	"floatarc/plots"
	"floatarc/plots/ink"
	"floatarc/plots/sheet"
	"floatarc/tanks/quantity"
)

// everyBlank are the blank sheets of all kinds in all units.
func everyBlank(t *testing.T, do func(kind string, sys quantity.System, d *sheet.Document)) {
	t.Helper()
	for _, kind := range newKinds {
		for _, sys := range []quantity.System{quantity.Metric, quantity.US, quantity.Imperial} {
			d, err := blankSheet(kind, sys)
			if err != nil {
				t.Fatal(err)
			}
			do(kind, sys, d)
		}
	}
}

// TestBlankSheetTakesTwoPages on either paper, with some rows for an odd section.
func TestBlankSheetTakesTwoPages(t *testing.T) {
	if testing.Short() {
		t.Skip("long")
	}
	everyBlank(t, func(kind string, sys quantity.System, d *sheet.Document) {
		for _, paper := range ink.Papers {
			d.Size = paper
			if n, err := d.PageCount(); n != blankPages || err != nil {
				t.Errorf("%s, %s on %v: %d pages, %v", kind, sys.Name, paper, n, err)
			}
		}
	})
}

// tables are those of blocks, those in columns with them.
func tables(blocks []sheet.Block) (out []sheet.Table, words string) {
	for _, b := range blocks {
		switch b := b.(type) {
		case sheet.Table:
			out = append(out, b)
		case sheet.Paragraph:
			words += b.Text + "\n"
		case sheet.Columns:
			for _, side := range [][]sheet.Block{b.Left, b.Right} {
				more, text := tables(side)
				out, words = append(out, more...), words+text
			}
		}
	}
	return out, words
}

var namedReading = regexp.MustCompile(`([A-Z]) (sender\.[a-z_.]+[a-z])`)

// onSheet returns the letters of a blank sheet with the keys that it names beside them, and
// the units beside their boxes.
func onSheet(d *sheet.Document) (keys, units map[string]string) {
	keys, units = map[string]string{}, map[string]string{}
	for _, page := range d.Pages {
		all, words := tables(page)
		for _, t := range all {
			last := len(t.Columns) - 1
			if t.Columns[last].Head != keyHead {
				continue
			}
			for _, r := range t.Rows {
				keys[r.Cells[0]], units[r.Cells[0]] = r.Cells[last], r.Cells[last-2]
			}
		}
		for _, m := range namedReading.FindAllStringSubmatch(words, -1) {
			keys[m[1]] = m[2]
		}
	}
	return keys, units
}

var (
	tomlSection = regexp.MustCompile(`^\[+([a-z._]+)\]`)
	tomlKey     = regexp.MustCompile(`^(?:# )?([a-z_]+) = (.*?)(?: +#|$)`)
	fileLetter  = regexp.MustCompile(`# ([A-Za-z]): (.*)`)
)

// inFile returns the letters of a rig file with the keys that they stand beside, what is
// said there and the value, and the order of the letters.
func inFile(text string) (keys, words, values map[string]string, order []string) {
	keys, words, values = map[string]string{}, map[string]string{}, map[string]string{}
	section, key, value := "", "", ""
	for line := range strings.Lines(text) {
		line = strings.TrimRight(line, "\n")
		if m := tomlSection.FindStringSubmatch(line); m != nil {
			section = m[1]
		}
		if m := tomlKey.FindStringSubmatch(line); m != nil {
			key, value = m[1], m[2]
		}
		if m := fileLetter.FindStringSubmatch(line); m != nil {
			keys[m[1]], words[m[1]], values[m[1]] = section+"."+key, m[2], value
			order = append(order, m[1])
		}
	}
	return keys, words, values, order
}

// TestBlankSheetMatchesTheFile: each letter of the sheet stands in the file of its kind,
// beside the key that the sheet names, and the other way round; once, and in the order of the
// alphabet, capitals first.
func TestBlankSheetMatchesTheFile(t *testing.T) {
	everyBlank(t, func(kind string, sys quantity.System, d *sheet.Document) {
		text, err := newRig(kind, sys)
		if err != nil {
			t.Fatal(err)
		}
		listed, _ := onSheet(d)
		written, said, _, order := inFile(string(text))
		if !maps.Equal(listed, written) {
			t.Errorf("%s, %s: the sheet has %v, the file %v", kind, sys.Name, listed, written)
		}
		if !slices.IsSorted(order) || len(order) != len(written) {
			t.Errorf("%s: letters in the order %q", kind, order)
		}
		for _, m := range measuresOf(kind) {
			head := m.words[:min(len(m.words), 30)]
			if !strings.HasPrefix(said[m.letter], head) {
				t.Errorf("%s, %s: the file says %q, expected %q", kind, m.letter, said[m.letter], m.words)
			}
		}
	})
}

// TestBlankUnitsAreThoseOfTheFile: what is written with a unit in the file has that unit
// beside its box.
func TestBlankUnitsAreThoseOfTheFile(t *testing.T) {
	if testing.Short() {
		t.Skip("long")
	}
	quoted := regexp.MustCompile(`^\[?"[0-9./ -]*[0-9] ?([^"0-9]+[^"]*)"`)
	everyBlank(t, func(kind string, sys quantity.System, d *sheet.Document) {
		text, err := newRig(kind, sys)
		if err != nil {
			t.Fatal(err)
		}
		_, units := onSheet(d)
		_, _, values, _ := inFile(string(text))
		for letter, value := range values {
			m := quoted.FindStringSubmatch(value)
			if want := units[letter]; m != nil && strings.ReplaceAll(m[1], "mm2", "mm²") != want {
				t.Errorf("%s, %s: %s = %s, but %q beside the box", kind, sys.Name, letter, value, want)
			}
		}
	})
}

// TestSketchLetters: a sketch shows the letters of its kind and no others, and no measure of
// a tank or a sender is without a sketch.
func TestSketchLetters(t *testing.T) {
	for _, kind := range newKinds {
		shown := map[string]bool{}
		for _, p := range []*plots.Picture{plots.TankSketch(tankShapes[kind], letterIn(kind)), plots.SenderSketch(letterIn(kind))} {
			w, h := p.Size()
			s := ink.NewSurvey(w, h)
			p.Paint(s)
			for _, text := range s.Texts {
				if text.Bold && len(text.String) <= 2 {
					shown[text.String] = true
				}
			}
		}
		want := map[string]bool{}
		for _, m := range measuresOf(kind) {
			switch {
			case m.place():
				for _, axis := range []string{"x", "y", "z"} {
					want[m.letter+axis] = true
				}
			case m.part != 0:
				want[m.letter] = true
			}
		}
		if !maps.Equal(shown, want) {
			t.Errorf("%s: the sketches show %v, expected %v", kind, fmt.Sprint(shown), fmt.Sprint(want))
		}
	}
}
