package main

import (
	"floatarc/plots/sheet"
	"floatarc/tanks/quantity"
)

func blankSheet(kind string, _ quantity.System) (*sheet.Document, error) {
	return nil, misusef("--blank %s: not yet", kind)
}
