package fullsize

import (
	"fmt"
	"io"

	"gonum.org/v1/plot/vg"

	"floatarc/plots/ink"
)

// mm is a millimetre on paper.
const mm = vg.Millimeter

// inMM is a length in millimetres.
func inMM(l vg.Length) float64 { return float64(l / mm) }

// A Page is one page at its true size.
type Page struct {
	title string
	paper ink.Paper
	draw  func(*pen)
}

// Title names what is on the page.
func (p *Page) Title() string { return p.title }

// Size returns the size of the paper.
func (p *Page) Size() (width, height vg.Length) { return p.paper.Size() }

// Paint draws the page on a canvas of its size.
func (p *Page) Paint(c vg.CanvasSizer) { p.draw(&pen{c}) }

// Pages are those of one document.
type Pages []*Page

// Write writes them as a PDF.
func (p Pages) Write(w io.Writer) error {
	if len(p) == 0 {
		return fmt.Errorf("no page to write, expected one or more")
	}
	doc := ink.NewBook(p[0].title)
	for _, page := range p {
		page.Paint(doc.Page(page.Size()))
	}
	return doc.Write(w)
}
