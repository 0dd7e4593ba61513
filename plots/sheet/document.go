package sheet

import (
	"fmt"
	"strings"

	"gonum.org/v1/plot/vg"
)

// A Document is a worksheet. Its title stands on top of the first page, and with the
// footer at the foot of each.
type Document struct {
	Title, Subtitle string
	Footer          string
	Size            Paper
	Pages           []Page
}

// A Page begins on a sheet of paper of its own and takes further ones if it must.
type Page []Block

// A Block is a part of a page: [Heading], [Paragraph], [List], [Fields], [Table], [Figure]
// or [Columns].
type Block interface {
	// check tells what is wrong with the block, whoever wrote the texts.
	check() error
	// put sets the block on the sheets and returns where it ends.
	put(p *press, at place) place
	// view is what the HTML template shows, on paper in a column of a width in points.
	view(p *press, width float64) (view, error)
}

// A Paper is a size of sheets, upright.
type Paper int

// The sizes: 210 mm by 297 mm, and 8.5 by 11 inches.
const (
	A4 Paper = iota
	Letter
)

// Margin is what is left free around the content of a sheet.
const Margin = 12 * vg.Millimeter

// String returns the name of the size as style sheets know it.
func (s Paper) String() string {
	if s == Letter {
		return "Letter"
	}
	return "A4"
}

// Size returns the width and height of a sheet.
func (s Paper) Size() (width, height vg.Length) {
	if s == Letter {
		return 8.5 * vg.Inch, 11 * vg.Inch
	}
	return 210 * vg.Millimeter, 297 * vg.Millimeter
}

// PaperNamed returns the size of a name, a4 or letter, in small or large letters.
func PaperNamed(name string) (Paper, error) {
	for _, s := range []Paper{A4, Letter} {
		if strings.EqualFold(name, s.String()) {
			return s, nil
		}
	}
	return A4, fmt.Errorf("%q is no size of paper, expected a4 or letter", name)
}

// check tells the first thing that is wrong with the document, and where.
func (d *Document) check() error {
	if d.Size != A4 && d.Size != Letter {
		return fmt.Errorf("worksheet: paper %d is not known, expected A4 or Letter", int(d.Size))
	}
	for i, page := range d.Pages {
		if err := checkAll(page); err != nil {
			return fmt.Errorf("worksheet, page %d, %w", i+1, err)
		}
	}
	return nil
}

func checkAll(blocks []Block) error {
	for i, b := range blocks {
		if b == nil {
			return fmt.Errorf("block %d: there is none, expected one", i+1)
		}
		if err := b.check(); err != nil {
			return fmt.Errorf("block %d: %w", i+1, err)
		}
	}
	return nil
}

// name is what a reader and the footer call the document.
func (d *Document) name() string {
	if d.Title == "" {
		return "Worksheet"
	}
	return d.Title
}

// foot is what stands at the foot of each sheet beside its number.
func (d *Document) foot() string {
	if d.Footer == "" {
		return d.name()
	}
	return d.name() + " – " + d.Footer
}

// pages are those of the document, or an empty one: a sheet of paper has at least a title.
func (d *Document) pages() []Page {
	if len(d.Pages) == 0 {
		return []Page{nil}
	}
	return d.Pages
}
