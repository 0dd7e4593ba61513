package tanks

import (
	"fmt"

	"floatarc/geometry"
	"floatarc/tanks/quantity"
)

// readDip reads a measured tank: a table of height and volume, in the rig or in a
// CSV file.
func readDip(t *table, b *Body, along geometry.Axis) geometry.Solid {
	if b.Wall > 0 {
		t.fail("wall", "given for a dip table, expected none: it tells the volume itself")
	}
	if along != geometry.X {
		t.fail("along", "given for a dip table, expected none: heights run along z")
	}
	b.Measured = true
	var rows []geometry.DipRow
	source := "table"
	switch table, file := t.has("table"), t.has("file"); {
	case table && file:
		t.fail("file", "given as well as table, expected one of the two")
	case file:
		source = "file"
		rows = readDipFile(t)
	case !table:
		t.missing("table", "a list of heights and volumes such as [[0, 0], [100, 21.5], [200, 44]], or file = a CSV of them")
	default:
		for _, r := range t.rows("table", 2, quantity.Length, quantity.Volume) {
			rows = append(rows, geometry.DipRow{Height: r[0], Volume: r[1] * 1e6})
		}
	}
	if t.doc.err != nil {
		return nil
	}
	dip, err := geometry.NewDip(rows)
	if err != nil && source == "file" {
		name, _ := t.text("file")
		err = &geometry.DimensionError{Dimension: "file", Reason: name + ": " + err.Error()}
	}
	if err != nil {
		shaped(t, nil, err)
		return nil
	}
	first, last := rows[0], rows[len(rows)-1]
	b.size = func(mm sizer) string {
		return fmt.Sprintf("%d rows from %s to %s, without a shape: known on level ground only", len(rows), mm(first.Height), mm(last.Height))
	}
	return dip
}

// readDipFile reads the CSV of a dip table.
func readDipFile(t *table) []geometry.DipRow {
	name, ok := t.text("file")
	if !ok {
		return nil
	}
	data, err := t.doc.beside(t.key("file"), name)
	if err != nil {
		t.fail("file", "%v", err)
		return nil
	}
	rows, err := parseDip(data)
	if err != nil {
		t.fail("file", "%s: %v", name, err)
	}
	return rows
}
