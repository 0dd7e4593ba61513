package sheet

import (
	"fmt"
	"io"

	"floatarc/plots/ink"
)

// PDF writes the document as a PDF of sheets of its size. Its texts are texts: they can be
// searched and copied. Like content gives like bytes.
func (d *Document) PDF(w io.Writer) error {
	p, err := d.laid()
	if err != nil {
		return err
	}
	sheets := make([][]func(), p.sheets)
	for _, s := range p.strokes {
		sheets[s.sheet] = append(sheets[s.sheet], s.draw)
	}
	foot := p.cut(d.foot(), footStyle, p.footRoom())
	for i, strokes := range sheets {
		p.doc.AddPage()
		for _, draw := range strokes {
			draw()
		}
		p.foot(foot, fmt.Sprintf("page %d of %d", i+1, len(sheets)))
	}
	if err := p.doc.Output(w); err != nil {
		return fmt.Errorf("worksheet: the PDF cannot be written: %w", err)
	}
	return nil
}

// PageCount returns how many sheets of paper the PDF takes.
func (d *Document) PageCount() (int, error) {
	p, err := d.laid()
	if err != nil {
		return 0, err
	}
	return p.sheets, nil
}

// laid returns a press with all that is to be drawn.
func (d *Document) laid() (*press, error) {
	if err := d.check(); err != nil {
		return nil, err
	}
	p := d.press()
	for i, page := range d.pages() {
		at := place{sheet: p.sheets, width: p.width}
		p.sheets++
		if i == 0 {
			at = p.title(d, at)
		}
		p.run(page, at)
	}
	return p, nil
}

// title sets the title over a heavy line.
func (p *press) title(d *Document, at place) place {
	at = p.stack(at, p.plain(d.name(), titleStyle, at.width))
	if d.Subtitle != "" {
		at = p.stack(at, p.plain(d.Subtitle, subStyle, at.width))
	}
	return p.lay(at, piece{2.5 * mm, func(x, y float64) {
		p.pen(ink.Medium, ink.Black)
		p.doc.Line(x, y+1.5*mm, x+at.width, y+1.5*mm)
	}})
}

// footBelow is from the lower edge of the paper to the bottom of the foot line.
const footBelow = 5.5 * mm

// foot draws the foot line, within the margin.
func (p *press) foot(text, number string) {
	y := 2*p.top() + p.height - footBelow - footStyle.lead
	w := p.span(number, footStyle)
	p.text(p.left(), y, footStyle, text)
	p.text(p.left()+p.width-w, y, footStyle, number)
}

// footRoom is what the number of a sheet leaves of its foot line.
func (p *press) footRoom() float64 { return p.width - p.span("page 000 of 000", footStyle) - 4*mm }
