package tanks

import (
	"errors"
	"fmt"
	"strings"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"

	"floatarc/geometry"
	"floatarc/tanks/quantity"
)

func readBox(t *table, b *Body, along geometry.Axis) geometry.Solid {
	box := geometry.Box{
		Length: t.need("length", quantity.Length), Width: t.need("width", quantity.Length), Height: t.need("height", quantity.Length),
		Radius: t.or("radius", quantity.Length, 0), Along: along, Wall: b.Wall,
	}
	if t.doc.err != nil {
		return nil
	}
	b.size = func(mm sizer) string {
		words := fmt.Sprintf("%s long (x), %s wide (y), %s high (z)", mm(box.Length), mm(box.Width), mm(box.Height))
		if box.Radius > 0 {
			words += fmt.Sprintf(", edges along %s rounded by %s", axisName(along), mm(box.Radius))
		}
		return words
	}
	solid, err := box.Solid()
	return shaped(t, solid, err)
}

func readOutline(t *table, b *Body, along geometry.Axis) geometry.Solid {
	length := t.need("length", quantity.Length)
	corners, source := readCorners(t)
	if t.doc.err != nil {
		return nil
	}
	b.size = func(mm sizer) string {
		return fmt.Sprintf("%d corners, %s along %s", len(corners), mm(length), axisName(along))
	}
	solid, err := geometry.Sweep(corners, length, b.Wall)
	if solid = shaped(t, solid, rename(err, "points", source)); solid == nil {
		return nil
	}
	return geometry.Place(solid, geometry.Across(along, r3.Vec{}))
}

// readCorners reads an outline from points, or from the offsets of a template;
// it returns the key too.
func readCorners(t *table) (corners []geometry.Corner, key string) {
	switch points, offsets := t.has("points"), t.has("offsets"); {
	case points && offsets:
		t.fail("offsets", "given as well as points, expected one of the two")
	case offsets:
		return readOffsets(t), "offsets"
	case !points:
		t.missing("points", "a list of corners such as [[0, 0], [600, 0], [600, 300, 40], [0, 300]], or offsets = [[v, left, right], …]")
	}
	for _, p := range t.rows("points", 2, quantity.Length, quantity.Length, quantity.Length) {
		corners = append(corners, geometry.Corner{U: p[0], V: p[1], Fillet: p[2]})
	}
	return corners, "points"
}

// readOffsets reads a template: at heights v, the distances of the two edges
// from a base line, to the left (towards +u) and to the right of it. The corners
// run up the right side and down the left one.
func readOffsets(t *table) []geometry.Corner {
	rows := t.rows("offsets", 3, quantity.Length, quantity.Length, quantity.Length)
	if t.doc.err != nil {
		return nil
	}
	if len(rows) < 2 {
		t.fail("offsets", "%d rows, expected two or more of [v, left, right]", len(rows))
		return nil
	}
	var corners []geometry.Corner
	add := func(u, v float64) {
		if n := len(corners); n == 0 || corners[n-1].U != u || corners[n-1].V != v {
			corners = append(corners, geometry.Corner{U: u, V: v})
		}
	}
	for i, r := range rows {
		switch {
		case i > 0 && r[0] <= rows[i-1][0]:
			t.fail(fmt.Sprintf("offsets[%d]", i), "height %g mm is not above the row before, %g mm, expected rising heights", r[0], rows[i-1][0])
		case r[1] < -r[2]:
			t.fail(fmt.Sprintf("offsets[%d]", i), "the left edge lies to the right of the right one, expected left + right of 0 or more")
		}
		add(-r[2], r[0])
	}
	for i := len(rows) - 1; i >= 0; i-- {
		add(rows[i][1], rows[i][0])
	}
	if first, last := corners[0], corners[len(corners)-1]; first == last {
		corners = corners[:len(corners)-1]
	}
	return corners
}

// rename turns an error about one dimension of a shape into one about the key
// that it was read from.
func rename(err error, dimension, key string) error {
	var d *geometry.DimensionError
	if key == dimension || !errors.As(err, &d) || !strings.HasPrefix(d.Dimension, dimension) {
		return err
	}
	return &geometry.DimensionError{Dimension: key, Reason: d.Reason}
}

func readStations(t *table, b *Body, along geometry.Axis) geometry.Solid {
	if b.Wall > 0 {
		t.fail("wall", "given for stations, expected inside sizes: a ruled surface has no parallel one that is ruled too")
	}
	list := t.tables("stations")
	if len(list) == 0 {
		t.missing("stations", "two or more of { at = 0, points = [[0, 0], [600, 0], [600, 300], [0, 300]] }")
	}
	var stations []geometry.Station
	for _, s := range list {
		station := geometry.Station{At: s.need("at", quantity.Length)}
		if !s.has("points") {
			s.missing("points", "a list of corners such as [[0, 0], [600, 0], [600, 300], [0, 300]]")
		}
		for i, p := range s.rows("points", 2, quantity.Length, quantity.Length, quantity.Length) {
			if p[2] != 0 {
				s.fail(fmt.Sprintf("points[%d]", i), "a fillet, which the surface ruled between two stations does not know, expected a corner of two numbers: give the arc as some corners")
			}
			station.Points = append(station.Points, r2.Vec{X: p[0], Y: p[1]})
		}
		s.done()
		stations = append(stations, station)
	}
	if t.doc.err != nil {
		return nil
	}
	b.size = func(mm sizer) string {
		return fmt.Sprintf("%d stations of %d corners, from %s to %s along %s", len(stations), len(stations[0].Points),
			mm(stations[0].At), mm(stations[len(stations)-1].At), axisName(along))
	}
	loft, err := geometry.NewLoft(stations)
	if shaped(t, loft, err) == nil {
		return nil
	}
	return geometry.Place(loft, geometry.Across(along, r3.Vec{}))
}
