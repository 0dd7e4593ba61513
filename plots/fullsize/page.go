package fullsize

import (
	"fmt"
	"io"

	"gonum.org/v1/plot/vg"

	"floatarc/plots/ink"
	"floatarc/tanks/quantity"
)

// mm is a millimetre on paper.
const mm = vg.Millimeter

// A Paper is a size of paper, mm.
type Paper struct {
	Name          string
	Width, Height float64
}

// The papers: ISO 216, and ANSI A.
var (
	A4     = Paper{"a4", 210, 297}
	Letter = Paper{"letter", 8.5 * quantity.MMPerInch, 11 * quantity.MMPerInch}
)

// PaperNamed returns the paper of a name: a4 or letter.
func PaperNamed(name string) (Paper, error) {
	for _, p := range []Paper{A4, Letter} {
		if p.Name == name {
			return p, nil
		}
	}
	return Paper{}, fmt.Errorf("%q is no paper, expected a4 or letter", name)
}

// PaperOf returns the paper where people read in a system of units.
func PaperOf(units quantity.System) Paper {
	if units.Name == quantity.US.Name {
		return Letter
	}
	return A4
}

// A Page is one page at its true size.
type Page struct {
	title string
	paper Paper
	draw  func(*pen)
}

// Title names what is on the page.
func (p *Page) Title() string { return p.title }

// Size returns the size of the paper.
func (p *Page) Size() (width, height vg.Length) {
	return vg.Length(p.paper.Width) * mm, vg.Length(p.paper.Height) * mm
}

// Paint draws the page on a canvas of its size.
func (p *Page) Paint(c vg.CanvasSizer) { p.draw(&pen{c}) }

// Pages are those of one document, all of one size.
type Pages []*Page

// Write writes them as a PDF.
func (p Pages) Write(w io.Writer) error {
	if len(p) == 0 {
		return fmt.Errorf("no page to write, expected one or more")
	}
	width, height := p[0].Size()
	doc := ink.NewPaper(p[0].title, width, height)
	for _, page := range p {
		page.Paint(doc.Page())
	}
	return doc.Write(w)
}
