package ink

import (
	"fmt"
	"io"
	"time"

	"codeberg.org/go-fonts/liberation/liberationsansbold"
	"codeberg.org/go-fonts/liberation/liberationsansregular"
	"codeberg.org/go-pdf/fpdf"
	"gonum.org/v1/plot/vg"
)

// Face is the name of the letters in the documents of [NewDocument].
const Face = "liberation"

// NewDocument returns a PDF document without a page, in points, with the letters of
// this package as Face, regular and bold ("B"). Like input gives the same bytes.
func NewDocument(title string, width, height vg.Length) *fpdf.Fpdf {
	doc := fpdf.NewCustom(&fpdf.InitType{UnitStr: "pt", Size: fpdf.SizeType{Wd: width.Points(), Ht: height.Points()}})
	doc.SetCreationDate(time.Unix(0, 0).UTC())
	doc.SetModificationDate(time.Unix(0, 0).UTC())
	doc.SetCatalogSort(true)
	doc.SetTitle(property(title), true)
	doc.SetAutoPageBreak(false, 0)
	doc.SetMargins(0, 0, 0)
	doc.SetCellMargin(0)
	doc.AddUTF8FontFromBytes(Face, "", liberationsansregular.TTF)
	doc.AddUTF8FontFromBytes(Face, "B", liberationsansbold.TTF)
	return doc
}

// A Paper is a PDF document of pages of one size, drawn on as canvases.
type Paper struct {
	doc           *fpdf.Fpdf
	width, height vg.Length
}

// NewPaper returns a document without a page.
func NewPaper(title string, width, height vg.Length) *Paper {
	return &Paper{NewDocument(title, width, height), width, height}
}

// Page adds a page and returns its canvas.
func (p *Paper) Page() vg.CanvasSizer {
	p.doc.AddPageFormat("P", fpdf.SizeType{Wd: p.width.Points(), Ht: p.height.Points()})
	return On(p.doc, 0, 0, p.width, p.height)
}

// Write writes the document and ends it.
func (p *Paper) Write(w io.Writer) error {
	if err := p.doc.Output(w); err != nil {
		return fmt.Errorf("the PDF cannot be made: %w", err)
	}
	return nil
}
