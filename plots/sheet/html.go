package sheet

import (
	"bytes"
	"embed"
	"fmt"
	"html/template"
	"io"
	"math"
	"strings"
	"unicode"

	"floatarc/plots/ink"
	"gonum.org/v1/plot/vg"
)

//go:embed page.html.tmpl page.css
var files embed.FS

var form = template.Must(template.ParseFS(files, "page.html.tmpl"))

// A view is a block as the template shows it: one of these.
type view struct {
	Heading   *Heading
	Paragraph *Paragraph
	List      *List
	Fields    *fieldsView
	Table     *tableView
	Figure    *figureView
	Columns   *columnsView
}

type documentView struct {
	Name, Subtitle, Foot string
	FootLine             template.CSS // what of Foot fits on the foot line
	Paper                string
	Style                template.CSS
	Pages                [][]view
}

// HTML writes the document as one page that needs no network and runs no script. It prints
// on sheets of its size, each of its pages on ones of its own.
func (d *Document) HTML(w io.Writer) error {
	if err := d.check(); err != nil {
		return err
	}
	v, err := d.view()
	if err != nil {
		return fmt.Errorf("worksheet: the HTML cannot be made: %w", err)
	}
	var buf bytes.Buffer
	if err := form.Execute(&buf, v); err != nil {
		return fmt.Errorf("worksheet: the HTML cannot be made: %w", err)
	}
	if _, err := w.Write(buf.Bytes()); err != nil {
		return fmt.Errorf("worksheet: the HTML cannot be written: %w", err)
	}
	return nil
}

func (d *Document) view() (*documentView, error) {
	css, err := files.ReadFile("page.css")
	if err != nil {
		return nil, err
	}
	p := d.press()
	v := &documentView{
		Name: d.name(), Subtitle: d.Subtitle, Foot: d.foot(), FootLine: quoted(p.cut(d.foot(), footStyle, p.footRoom())),
		Paper: d.paper().Name, Style: template.CSS(css),
	}
	for _, blocks := range d.pages() {
		views, err := viewAll(blocks, p, p.width)
		if err != nil {
			return nil, err
		}
		v.Pages = append(v.Pages, views)
	}
	return v, nil
}

func viewAll(blocks []Block, p *press, width float64) ([]view, error) {
	out := make([]view, len(blocks))
	for i, b := range blocks {
		var err error
		if out[i], err = b.view(p, width); err != nil {
			return nil, err
		}
	}
	return out, nil
}

func (h Heading) view(*press, float64) (view, error)   { return view{Heading: &h}, nil }
func (g Paragraph) view(*press, float64) (view, error) { return view{Paragraph: &g}, nil }
func (l List) view(*press, float64) (view, error)      { return view{List: &l}, nil }

// A fieldsView is fields, each with its value and the units in one.
type fieldsView struct {
	Columns int
	Roomy   bool
	Fields  []fieldView
}

type fieldView struct{ Label, Filled, Units string }

func (f Fields) view(_ *press, width float64) (view, error) {
	v := &fieldsView{Columns: f.count(width), Roomy: f.blank()}
	for _, field := range f.Fields {
		v.Fields = append(v.Fields, fieldView{field.Label, field.filled(), field.Units})
	}
	return view{Fields: v}, nil
}

// quoted returns a text as a string of a style sheet. The templates would take it for an
// address there, and refuse "Tank: left".
func quoted(text string) template.CSS {
	var b strings.Builder
	b.WriteByte('"')
	for _, r := range text {
		if r == ' ' || r < 0x80 && (unicode.IsLetter(r) || unicode.IsDigit(r)) {
			b.WriteRune(r)
		} else {
			fmt.Fprintf(&b, "\\%x ", r)
		}
	}
	b.WriteByte('"')
	return template.CSS(b.String())
}

// A figureView is a picture at its width.
type figureView struct {
	Width   template.CSS
	SVG     template.HTML
	Caption string
}

func (f Figure) view(p *press, width float64) (view, error) {
	var buf strings.Builder
	w, h := f.Picture.Size()
	if err := ink.SVG.Write(&buf, f.Picture.Title(), w, h, func(c vg.CanvasSizer) { f.Picture.Paint(c) }); err != nil {
		return view{}, err
	}
	wide, _ := f.size(p, width)
	return view{Figure: &figureView{"width:" + inMM(wide), template.HTML(buf.String()), f.Caption}}, nil
}

// A columnsView is two columns and their parts of the width.
type columnsView struct {
	Widths      template.CSS
	Left, Right []view
}

func (c Columns) view(p *press, width float64) (view, error) {
	left, right := c.widths(width)
	l, err := viewAll(c.Left, p, left)
	if err != nil {
		return view{}, err
	}
	r, err := viewAll(c.Right, p, right)
	if err != nil {
		return view{}, err
	}
	parts := template.CSS(fmt.Sprintf("--left:%.4gfr;--right:%.4gfr", c.share(), 1-c.share()))
	return view{Columns: &columnsView{parts, l, r}}, nil
}

// inMM returns a length in points in the words of style sheets, no longer than it is.
func inMM(points float64) template.CSS {
	return template.CSS(fmt.Sprintf("%.2fmm", math.Floor(points/mm*100)/100))
}
