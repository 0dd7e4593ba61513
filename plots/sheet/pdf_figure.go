package sheet

import (
	"floatarc/plots/ink"
	"gonum.org/v1/plot/font"
	"gonum.org/v1/plot/vg"
)

const (
	figureGap  = 3 * mm
	captionGap = 1 * mm
	// captionMost is what a picture as high as a sheet leaves for its caption.
	captionMost = 15 * mm
)

// put sets the picture and its caption on one sheet.
func (f Figure) put(p *press, at place) place {
	w, h := f.size(p, at.width)
	pieces := []piece{{h, func(x, y float64) { p.paint(f.Picture, x, y, w, h) }}}
	if f.Caption != "" {
		lines := p.plain(f.Caption, smallStyle, at.width)
		lines[0] = padded(lines[0], captionGap, 0)
		pieces = append(pieces, lines...)
	}
	return p.stack(at.gap(figureGap), pieces)
}

// size is that of the picture in a column of a width.
func (f Figure) size(p *press, width float64) (w, h float64) {
	pw, ph := f.Picture.Size()
	shape := ph.Points() / pw.Points()
	w = f.Width.Points()
	if w == 0 {
		w = pw.Points()
	}
	w = min(w, width, (p.height-captionMost)/shape)
	return w, w * shape
}

func (p *press) paint(picture Picture, x, y, w, h float64) {
	pw, ph := picture.Size()
	c := ink.On(p.doc, vg.Length(x), vg.Length(y), vg.Length(w), vg.Length(h))
	c.Scale(w/pw.Points(), h/ph.Points())
	picture.Paint(scaled{c, pw, ph})
	p.font = style{}
	p.doc.SetAlpha(1, "Normal")
	p.doc.SetDashPattern(nil, 0)
}

// scaled is a canvas for a picture that believes in its own size, in letters that the
// document can hold.
type scaled struct {
	vg.CanvasSizer
	width, height vg.Length
}

func (c scaled) Size() (x, y vg.Length) { return c.width, c.height }

func (c scaled) FillString(f font.Face, at vg.Point, text string) {
	c.CanvasSizer.FillString(f, at, ink.Legible(text))
}
