package sheet

import (
	"fmt"
	"html/template"
	"math"
)

// A tableView is a table with what its widths on paper are.
type tableView struct {
	Short  bool // no sheet should end within it
	Units  bool
	Width  template.CSS // on paper
	Heads  []headView
	Rows   []rowView
	Widths []template.CSS // parts of it
}

type headView struct{ Class, Head, Units string }

type rowView struct {
	Strong bool
	Cells  []cellView
}

type cellView struct {
	Class, Text string
	Tick        bool
}

func (t Table) view(p *press, width float64) (view, error) {
	g := t.grid(p, width)
	v := &tableView{Short: g.short(p)}
	for i, c := range t.Columns {
		v.Units = v.Units || c.Units != ""
		v.Heads = append(v.Heads, headView{c.Align.class(), c.Head, c.Units})
		part := math.Floor(1e4*g.widths[i]/g.width) / 100
		v.Widths = append(v.Widths, template.CSS(fmt.Sprintf("--width:%.2f%%", part)))
	}
	v.Width = "--width:" + inMM(g.width)
	for _, r := range t.Rows {
		row := rowView{Strong: r.Strong}
		for i, c := range t.Columns {
			cell := cellView{Class: c.class(), Tick: c.Kind == Tick}
			if i < len(r.Cells) {
				cell.Text = r.Cells[i]
			}
			row.Cells = append(row.Cells, cell)
		}
		v.Rows = append(v.Rows, row)
	}
	return view{Table: v}, nil
}

func (a Align) class() string {
	switch a {
	case Right:
		return "right"
	case Centre:
		return "centre"
	}
	return "left"
}

func (c Column) class() string {
	if c.Kind == Blank {
		return c.Align.class() + " blank"
	}
	return c.Align.class()
}
