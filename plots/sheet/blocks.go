package sheet

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"gonum.org/v1/plot/vg"
)

// A Heading stands above what follows, on the same sheet.
type Heading struct{ Text string }

// A Paragraph is running text. A warning has a frame around it.
type Paragraph struct {
	Text  string
	Small bool
	Warn  bool
}

// A List is a list of points. Warnings have a frame around them.
type List struct {
	Items []string
	Warn  bool
}

// Fields are labels with a value each, or with a line to write on, in 1 to 4 columns (0: 1), or
// as many as there is room for, filled row by row.
type Fields struct {
	Fields  []Field
	Columns int
}

// A Field is a label and its value; without one it is to be filled in by hand.
type Field struct{ Label, Value, Units string }

// Align says where a text stands in its column.
type Align int

// The alignments. Numbers stand on the right.
const (
	Left Align = iota
	Right
	Centre
)

// A Kind says what the cells of a column are.
type Kind int

// The kinds of columns.
const (
	Text  Kind = iota
	Blank      // boxes to write in, at least 16 mm by 7 mm; a text is printed in its box
	Tick       // a square of 4 mm to tick, with a text behind it if there is one
)

// A Column is one of a table. Units stand below the head.
type Column struct {
	Head, Units string
	Align       Align
	Kind        Kind
}

// A Row is one of a table: a cell for each column, the last ones may be missing. A strong
// row is in bold between heavier lines.
type Row struct {
	Cells  []string
	Strong bool
}

// A Table repeats its head on every sheet that it takes. Columns are as wide as what they
// hold; where that is too wide, the widest are wrapped.
type Table struct {
	Columns []Column
	Rows    []Row
}

// A Picture is something drawn.
type Picture interface {
	Title() string
	Size() (width, height vg.Length)
	Paint(vg.CanvasSizer)
}

// A Figure is a picture, drawn so wide (0: at its own size) or as wide as there is room.
type Figure struct {
	Picture Picture
	Width   vg.Length
	Caption string
}

// Columns are two columns side by side on paper and on wide screens. Share is the left one's
// part of the width, 0.15 to 0.85 (0: half).
type Columns struct {
	Left, Right []Block
	Share       float64
}

func (Heading) check() error   { return nil }
func (Paragraph) check() error { return nil }
func (List) check() error      { return nil }

func (f Fields) check() error {
	if f.Columns < 0 || f.Columns > 4 {
		return fmt.Errorf("fields in %d columns, expected 1 to 4", f.Columns)
	}
	return nil
}

// filled is the value with its units, or nothing.
func (f Field) filled() string {
	if f.Value == "" || f.Units == "" {
		return f.Value
	}
	return f.Value + "\u00a0" + f.Units
}

// blank is whether something is to be filled in.
func (f Fields) blank() bool {
	return slices.ContainsFunc(f.Fields, func(f Field) bool { return f.Value == "" })
}

func (t Table) check() error {
	if len(t.Columns) == 0 {
		return errors.New("the table has no columns, expected at least one")
	}
	for i, r := range t.Rows {
		if len(r.Cells) > len(t.Columns) {
			return fmt.Errorf("row %d of the table has %d cells, expected at most %d", i+1, len(r.Cells), len(t.Columns))
		}
	}
	return nil
}

func (f Figure) check() error {
	if f.Picture == nil {
		return errors.New("the figure has no picture, expected one")
	}
	w, h := f.Picture.Size()
	for _, l := range []vg.Length{w, h} {
		if x := l.Points(); !(x > 0) || math.IsInf(x, 0) {
			return fmt.Errorf("the picture is %g by %g points large, expected more than 0", w.Points(), h.Points())
		}
	}
	if x := f.Width.Points(); !(x >= 0) || math.IsInf(x, 0) {
		return fmt.Errorf("the figure is %g points wide, expected 0 or more", x)
	}
	return nil
}

func (c Columns) check() error {
	if s := c.share(); !(s >= 0.15 && s <= 0.85) {
		return fmt.Errorf("the left column's share is %g, expected 0.15 to 0.85", s)
	}
	for _, side := range [][]Block{c.Left, c.Right} {
		if err := checkAll(side); err != nil {
			return fmt.Errorf("columns, %w", err)
		}
		for _, b := range side {
			if _, ok := b.(Columns); ok {
				return errors.New("columns stand within columns, expected them side by side")
			}
		}
	}
	return nil
}

func (c Columns) share() float64 {
	if c.Share == 0 {
		return 0.5
	}
	return c.Share
}
