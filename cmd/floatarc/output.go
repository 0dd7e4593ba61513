package main

import (
	"encoding/csv"
	"encoding/json"
	"io"
	"math"
	"reflect"
	"strconv"
	"strings"

	"github.com/jedib0t/go-pretty/v6/table"
	"github.com/jedib0t/go-pretty/v6/text"
)

// A number is a float64 that prints as null where it is not known (NaN), and
// never as minus zero.
type number float64

// unknown is the number that is not known.
var unknown = number(math.NaN())

// MarshalJSON implements json.Marshaler.
func (n number) MarshalJSON() ([]byte, error) {
	if math.IsNaN(float64(n)) || math.IsInf(float64(n), 0) {
		return []byte("null"), nil
	}
	return json.Marshal(float64(n) + 0)
}

// print writes an answer the way the flags ask for: as JSON, its rows as CSV, or
// for people.
func (o *options) print(w io.Writer, answer, rows any, write func(io.Writer)) error {
	switch {
	case o.json:
		return writeJSON(w, answer)
	case o.csv:
		return writeCSV(w, rows)
	}
	write(w)
	return nil
}

func writeJSON(w io.Writer, doc any) error {
	e := json.NewEncoder(w)
	e.SetEscapeHTML(false)
	e.SetIndent("", "  ")
	return e.Encode(doc)
}

// writeCSV writes a slice of structs, one row each, under their JSON keys; a
// point takes three columns.
func writeCSV(w io.Writer, rows any) error {
	v := reflect.ValueOf(rows)
	kind := v.Type().Elem()
	out := csv.NewWriter(w)
	var head []string
	for i := range kind.NumField() {
		key := strings.Split(kind.Field(i).Tag.Get("json"), ",")[0]
		if kind.Field(i).Type != reflect.TypeFor[[3]number]() {
			head = append(head, key)
			continue
		}
		what, unit, _ := strings.Cut(key, "_")
		for _, axis := range []string{"x", "y", "z"} {
			head = append(head, what+"_"+axis+"_"+unit)
		}
	}
	if err := out.Write(head); err != nil {
		return err
	}
	for i := range v.Len() {
		row := make([]string, 0, len(head))
		for j := range kind.NumField() {
			switch cell := v.Index(i).Field(j).Interface().(type) {
			case [3]number:
				row = append(row, csvCell(cell[0]), csvCell(cell[1]), csvCell(cell[2]))
			default:
				row = append(row, csvCell(cell))
			}
		}
		if err := out.Write(row); err != nil {
			return err
		}
	}
	out.Flush()
	return out.Error()
}

func csvCell(v any) string {
	switch v := v.(type) {
	case number:
		if math.IsNaN(float64(v)) {
			return ""
		}
		return strconv.FormatFloat(float64(v)+0, 'g', -1, 64)
	case bool:
		return strconv.FormatBool(v)
	case string:
		return v
	}
	return ""
}

// A grid is a table that people read: columns of numbers aligned right, but for
// words in the first and the last.
type grid struct {
	heads  []string // none for a table that speaks for itself
	rows   [][]string
	labels bool // the first column holds words
	notes  bool // the last column holds words
}

func (g *grid) add(cells ...string) { g.rows = append(g.rows, cells) }

func (g *grid) write(w io.Writer) {
	t := table.NewWriter()
	t.SetOutputMirror(w)
	style := table.StyleDefault
	style.Options = table.Options{SeparateHeader: len(g.heads) > 0}
	style.Box = table.BoxStyle{MiddleHorizontal: "─", PaddingRight: "  ", MiddleSeparator: "─", UnfinishedRow: ""}
	style.Format.Header = text.FormatDefault
	t.SetStyle(style)
	if len(g.heads) > 0 {
		t.AppendHeader(cells(g.heads))
	}
	var columns []table.ColumnConfig
	last := len(g.rows[0]) - 1
	for i := range g.rows[0] {
		align := text.AlignRight
		if g.labels && i == 0 || g.notes && i == last {
			align = text.AlignLeft
		}
		columns = append(columns, table.ColumnConfig{Number: i + 1, Align: align, AlignHeader: align})
	}
	t.SetColumnConfigs(columns)
	t.SuppressTrailingSpaces()
	for _, r := range g.rows {
		t.AppendRow(cells(r))
	}
	t.Render()
}

func cells(texts []string) table.Row {
	row := make(table.Row, len(texts))
	for i, c := range texts {
		row[i] = c
	}
	return row
}
