package main

import (
	"fmt"

	"floatarc/plots/sheet"
	"floatarc/tanks/quantity"
)

// A wiringPlace is where a sender is held, and what it shows there.
type wiringPlace struct {
	name string
	ohms float64
}

// wiringPlaces are the two ends of the sender's way, and its middle.
func (w *workSheet) wiringPlaces() []wiringPlace {
	track, low, high := w.rig.Sender.Track(), w.rig.Low, w.rig.High
	half := (w.rig.Dial.Empty + w.rig.Dial.Full) / 2
	if w.file.Sender.Arm == nil {
		return []wiringPlace{{"reads least fuel", track.Ohms(low)}, {"half", w.rig.Level.Ohms(half)}, {"reads most fuel", track.Ohms(high)}}
	}
	return []wiringPlace{{"arm as low as it goes in the tank", track.Ohms(low)}, {"fuel at half", w.rig.Level.Ohms(half)}, {"arm as high as it goes", track.Ohms(high)}}
}

// wiring is where what the wiring adds is measured.
func (w *workSheet) wiring() []sheet.Block {
	return []sheet.Block{sheet.Heading{Text: "Wiring as installed: battery off, the meter's leads shorted and subtracted"}, w.wiringTable(),
		sheet.Paragraph{Small: true, Text: w.wiringWords()}}
}

func (w *workSheet) wiringTable() sheet.Table {
	t := sheet.Table{Columns: []sheet.Column{
		{Kind: sheet.Tick}, {Head: "Sender"}, {Head: "Alone, plug pulled", Units: "Ω", Align: sheet.Right}, {Head: "Found", Units: "Ω", Kind: sheet.Blank},
		{Head: "At the terminals", Units: "Ω", Align: sheet.Right}, {Head: "Found", Units: "Ω", Kind: sheet.Blank},
	}}
	for _, p := range w.wiringPlaces() {
		t.Rows = append(t.Rows, sheet.Row{Cells: []string{"", p.name, one(p.ohms), "", one(w.rig.Wiring.Input(p.ohms)), ""}})
	}
	return t
}

func (w *workSheet) wiringWords() string {
	words := "Take the sender's wire off the conditioner while you measure there. "
	if w.rig.Wiring.Installed != nil {
		return words + w.installedWords()
	}
	return words + fmt.Sprintf("Wire and joints add %s Ω here. An ohm more everywhere: clean the earth and the joints, then measure again. More that grows: the earth, at the sender's own body. Less: a second gauge, or damp. What is left: floatarc points %s --measured \"%sohm=____, %sohm=____\"%s (each the sender alone = at the terminals, as found) gives the points for it.",
		quantity.Fixed(w.rig.Wiring.Input(0), 2), w.file.File, one(w.rig.Sender.Track().Ohms(w.rig.Low)), one(w.rig.Sender.Track().Ohms(w.rig.High)), w.unitsFlag())
}
