package main

import (
	"floatarc/plots/ink"
	"floatarc/plots/sheet"
)

// trueMinus writes the numbers in tables, those of right-hand columns, with a true minus: on
// paper nobody looks for them with a hyphen.
func trueMinus(d *sheet.Document) *sheet.Document {
	for _, page := range d.Pages {
		minusIn(page)
	}
	return d
}

func minusIn(blocks []sheet.Block) {
	for _, b := range blocks {
		switch b := b.(type) {
		case sheet.Columns:
			minusIn(b.Left)
			minusIn(b.Right)
		case sheet.Table:
			for _, r := range b.Rows {
				for i, cell := range r.Cells {
					if b.Columns[i].Align == sheet.Right {
						r.Cells[i] = ink.Minus(cell)
					}
				}
			}
		}
	}
}
