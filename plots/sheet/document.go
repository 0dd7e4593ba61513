package sheet

import (
	"fmt"
	"slices"

	"gonum.org/v1/plot/vg"

	"floatarc/plots/ink"
)

// A Document is a worksheet. Its title stands on top of the first page, and with the
// footer at the foot of each.
type Document struct {
	Title, Subtitle string
	Footer          string
	Size            ink.Paper // none: A4
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

// Margin is what is left free around the content of a sheet.
const Margin = 12 * vg.Millimeter

// paper is what the document is printed on.
func (d *Document) paper() ink.Paper {
	if d.Size == (ink.Paper{}) {
		return ink.A4
	}
	return d.Size
}

// check tells the first thing that is wrong with the document, and where.
func (d *Document) check() error {
	if !slices.Contains(ink.Papers, d.paper()) {
		return fmt.Errorf("worksheet: paper %q of %.4g by %.4g points is not known, expected A4 or Letter", d.Size.Name, d.Size.Width.Points(), d.Size.Height.Points())
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
