package main

import (
	"math"
	"strings"

	"floatarc/float"
	"floatarc/tanks/logfile"
	"floatarc/volume"
)

// A move is what went in, or below 0 out, since the row before, and on which way of the
// fuel the row was then read.
type move struct {
	amount float64
	sense  float.Sense
}

// moves returns those of a log. Where nothing moved the sense stays what it was; first
// it is that of a tank that was drained or, where nobody knows, the mean. A float that was
// tapped free stands on the mean.
func (l *loadedLog) moves(drained bool) []move {
	out := make([]move, len(l.file.Rows))
	before, sense := 0.0, float.Mean
	if drained {
		sense = float.Falling
	}
	for i, row := range l.file.Rows {
		amount := row.Amount
		if l.file.Totals {
			amount, before = row.Amount-before, row.Amount
		}
		switch {
		case amount > 0 || i == 0 && l.file.Totals:
			sense = float.Rising
		case amount < 0:
			sense = float.Falling
		}
		out[i] = move{amount, sense}
		if tapped(row) {
			out[i].sense = float.Mean
		}
	}
	return out
}

// The words of a note that say how to take a row.
func spilled(row logfile.Row) bool  { return noted(row, "spill") }
func doubtful(row logfile.Row) bool { return noted(row, "doubt") }
func tapped(row logfile.Row) bool   { return noted(row, "tapped") }

func noted(row logfile.Row, word string) bool {
	return strings.Contains(strings.ToLower(row.Note), word)
}

// A fluid is what was poured, at the temperature of the rig's fuel where a row does not
// tell its own.
type fluid struct {
	volume.Fuel
	temperature float64
	told        bool // the float lies in it otherwise than in the rig's own fuel
}

func (j *job) fluid(l *loadedLog) fluid {
	f := fluid{Fuel: j.file.Fuel.Liquid(), temperature: j.file.Fuel.Temperature, told: l.water || l.file.Warm}
	if l.water {
		f.Fuel = volume.Water
	}
	return f
}

func (f fluid) celsius(row logfile.Row) float64 {
	if math.IsNaN(row.Temperature) {
		return f.temperature
	}
	return row.Temperature
}

// density returns that of a row, or 0 where it is the rig's own in every row.
func (f fluid) density(row logfile.Row) float64 {
	if !f.told {
		return 0
	}
	return f.DensityAt(f.celsius(row))
}
