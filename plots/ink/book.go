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

// A Book is a PDF document of pages at their true size, drawn on as canvases.
type Book struct{ doc *fpdf.Fpdf }

// NewBook returns a document without a page.
func NewBook(title string) *Book {
	w, h := A4.Size()
	return &Book{NewDocument(title, w, h)}
}

// Page adds a page of a size and returns its canvas.
func (b *Book) Page(width, height vg.Length) vg.CanvasSizer {
	// "P" takes the sides as they are given, the longer one first or not.
	b.doc.AddPageFormat("P", fpdf.SizeType{Wd: width.Points(), Ht: height.Points()})
	return On(b.doc, 0, 0, width, height)
}

// Write writes the document and ends it.
func (b *Book) Write(w io.Writer) error {
	if err := b.doc.Output(w); err != nil {
		return fmt.Errorf("the PDF cannot be made: %w", err)
	}
	return nil
}
