package main

import (
	"fmt"

	"floatarc/gauge/fault"
	"floatarc/tanks/quantity"
)

// test tells the test that proves a cause, or clears it: what to disconnect, and what must
// then show.
func (w *whySheet) test(c fault.Cause) (do, must string) {
	open, earthed := w.openSide()
	switch c {
	case fault.None:
		return "Pull the sender's plug, then hold its wire to earth at the tank for a second or two, ignition on.", fmt.Sprintf("The needle goes to %s, and then to %s.", open, earthed)
	case fault.OpenWire:
		return "Pull the sender's plug and hold its wire to earth at the tank, for a second or two; then the gauge's own sender terminal.",
			fmt.Sprintf("At the tank nothing moves, at the gauge the needle goes to %s. Battery off, the meter shows less than 1 Ω from one end of a good wire to the other, and open here.%s", earthed, w.openWords())
	case fault.OpenSender:
		return "Pull the sender's plug: ohmmeter across the sender itself. Then hold its wire to earth for a second or two.",
			fmt.Sprintf("The meter shows open, wherever the arm is; with the wire to earth the needle goes to %s, so that wire and gauge are sound.%s", earthed, w.openWords())
	case fault.ShortWire:
		return "Pull the wire off the sender and off the gauge: ohmmeter from the wire to earth.", "A sound wire shows open; a chafed one next to nothing, and more when it is moved about."
	case fault.ShortSend:
		return "Pull the sender's plug: ohmmeter across the sender itself while its arm is moved.", fmt.Sprintf("It shows less than 2 Ω throughout, and with the plug pulled the needle leaves %s.", earthed)
	case fault.WrongRange:
		return "Take the sender off; put resistors, or a decade box, in its place.", "The needle stands at empty and at full with " + w.rangeWords()
	case fault.Reversed:
		return "Measure the sender with its arm at empty and at full, and the gauge with a decade box in its place.", "One of them rises where the other falls: " + w.rangeWords() + " No resistor turns it round, and swapping wires does not either."
	case fault.BadEarth:
		return "Battery off: ohmmeter from the sender's own body to the battery's minus; then run a good wire beside the earth.", "A sound earth shows less than 0.5 Ω. With the second wire the needle goes where it belongs, and it no longer drifts with the engine."
	case fault.Joint:
		return "Battery off, the wire off at both ends: ohmmeter from one end of it to the other, while each plug is moved.", "A sound wire shows less than 1 Ω" + w.wireWords() + "; more lies in a plug or a crimp, and changes when it is moved."
	case fault.Sunken:
		return "With fuel in the tank, pull the plug and measure across the sender; then take it out and shake the float.", "It shows what it shows at empty" + w.emptyWords() + ". A sound float is dry inside and light; one that gurgles is sunk."
	case fault.Stuck:
		return "Take the sender out and move the arm by hand, the meter across it; or measure, pour a can with the meter off, close the filler, and measure again.", "In the tank the ohms stay the same, outside they run the whole range: a wall, a baffle or a stop is in the way. floatarc check FILE tells which wall, and what it costs."
	case fault.Worn:
		return "Take the sender out; move the arm slowly with a pointer ohmmeter on it.", "The pointer runs evenly; where it leaps or goes to open the track is worn."
	case fault.TwoGauges:
		return "Take the second gauge's wire off the sender, or off the conditioner.", "The needle goes where it belongs. Two gauges need two senders, or a conditioner each with an input that draws no current."
	case fault.Pump:
		return "Engine running: voltmeter from the sender's body to the battery's minus; then engine off, ignition on, and the pump by itself off and on if it has a switch of its own.", "With the pump off the volts are less than 0.1 V and the needle moves: give the pump an earth of its own."
	}
	return "Ignition on: voltmeter from the gauge's supply terminal to the battery's minus.", "It shows the battery's volts. If not: fuse, switch or wire; if it does, and the needle moves neither with the sender's terminal open nor to earth, the gauge is at fault."
}

// openWords tell what an open wire comes to in the rig.
func (w *whySheet) openWords() string {
	if w.job == nil {
		return ""
	}
	j := w.job
	table, err := j.rig.Lookup(leastLookup, j.file.Sender.Tolerance)
	if err != nil {
		return ""
	}
	words := fmt.Sprintf(" Here an open wire reads above %s Ω", quantity.Fixed(table.Open, 0))
	if direct := j.file.Gauge.Response; direct != nil {
		words += ", so that the needle, wired straight, would stand " + j.place(direct.Show(fault.MostOhms))
	}
	return words + "."
}

// leastLookup is the number of rows of a table of which only the ends matter.
const leastLookup = 8

// rangeWords tell both ranges, as far as they are known.
func (w *whySheet) rangeWords() string {
	e, f := w.senderEnds()
	g, h := w.gaugeEnds()
	switch {
	case took(e) && took(g):
		return fmt.Sprintf("the gauge's own %s and %s; the sender gives %s and %s.", ohmWords(g), ohmWords(h), ohmWords(e), ohmWords(f))
	case took(g):
		return fmt.Sprintf("%s and %s, the gauge's own; the sender must give those.", ohmWords(g), ohmWords(h))
	}
	return "other ohms than the sender gives."
}

func (w *whySheet) wireWords() string {
	if w.job == nil {
		return ""
	}
	return fmt.Sprintf(" (this one %s Ω)", quantity.Fixed(w.job.rig.Wiring.Wire.Ohms(), 2))
}

func (w *whySheet) emptyWords() string {
	if e, _ := w.senderEnds(); took(e) {
		return ", " + ohmWords(e)
	}
	return ""
}

// then names the first command of the plan.
func (w *whySheet) then() string {
	file := "FILE"
	if w.job != nil {
		file = w.job.file.File
	}
	rig := ""
	if w.job == nil {
		rig = "floatarc new --ask vehicle -o my-rig.toml writes the rig by questions; then "
		file = "my-rig.toml"
	}
	switch w.verdicts[0].Cause {
	case fault.None:
		return "Then: " + rig + "floatarc points " + file + " tells how far the tank's shape alone makes the needle lie."
	case fault.WrongRange, fault.Reversed:
		return "Then: " + rig + "floatarc match " + file + " tells which gauge goes with this sender, and whether resistors help; floatarc points " + file + " what to store in a conditioner."
	case fault.BadEarth, fault.Joint:
		return "Then: clean it and measure again. What is left: " + rig + "floatarc points " + file + " --measured \"33ohm=34.1, 240ohm=241.2\" (the sender alone = at the terminals) takes it into account."
	case fault.Stuck, fault.Sunken:
		return "Then: " + rig + "floatarc check " + file + " tells what the float meets, how deep it sits, and the litres that it costs."
	case fault.TwoGauges, fault.Pump, fault.OpenWire, fault.OpenSender, fault.ShortWire, fault.ShortSend, fault.Worn, fault.NoFeed:
		return "Then, once it is mended: " + rig + "floatarc fit --plan \"10 L\" " + file + " prints what the meter must show after each can."
	}
	return ""
}
