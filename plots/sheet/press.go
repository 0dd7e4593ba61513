package sheet

import (
	"image/color"
	"strings"

	"codeberg.org/go-pdf/fpdf"
	"floatarc/plots/ink"
	"gonum.org/v1/plot/vg"
)

// mm is a millimetre in points, in which all that is set is measured.
const mm = 72 / 25.4

// A style is how letters look.
type style struct {
	bold       bool
	size, lead float64 // the letters and from line to line, points
	color      color.NRGBA
}

var (
	titleStyle   = style{true, 16, 20, ink.Black}
	subStyle     = style{false, 10, 13.5, ink.Grey}
	headingStyle = style{true, 12, 15, ink.Black}
	bodyStyle    = style{false, 10, 13.5, ink.Black}
	smallStyle   = style{false, 8.5, 11.5, ink.Black}
	cellStyle    = style{false, 9, 11.5, ink.Black}
	unitsStyle   = style{false, 8, 10.5, ink.Grey}
	footStyle    = style{false, 7.5, 9, ink.Grey}
)

// in returns the style in bold.
func (s style) in(bold bool) style {
	s.bold = bold
	return s
}

// baseline is how far below the top of a line its letters stand: they are 0.905 of their
// size high and 0.212 deep in this font.
func (s style) baseline() float64 { return (s.lead-1.117*s.size)/2 + 0.905*s.size }

// A press measures texts and draws on the current page of its document.
type press struct {
	doc           *fpdf.Fpdf
	width, height float64 // of the content of a sheet
	font          style   // that the document has now
	strokes       []stroke
	sheets        int
}

func (d *Document) press() *press {
	w, h := d.paper().Size()
	doc := ink.NewDocument(d.name(), w, h)
	doc.SetLang("en")
	return &press{doc: doc, width: (w - 2*Margin).Points(), height: (h - 2*Margin).Points()}
}

// use takes a style to the document, which writes each change down.
func (p *press) use(s style) {
	if p.font == s {
		return
	}
	weight := ""
	if s.bold {
		weight = "B"
	}
	p.doc.SetFont(ink.Face, weight, s.size)
	p.font = s
}

// span is how wide a text is.
func (p *press) span(text string, s style) float64 {
	p.use(s)
	return p.doc.GetStringWidth(text)
}

// wrap returns the lines of a text in a width; there is at least one.
func (p *press) wrap(text string, s style, width float64) []string {
	var out []string
	for line := range strings.SplitSeq(ink.Legible(text), "\n") {
		out = append(out, p.fill(line, s, width)...)
	}
	return out
}

// slack is what a line may be too long by: widths are rounded.
const slack = 0.01

func (p *press) fill(text string, s style, width float64) []string {
	var out []string
	line, space := "", p.span(" ", s)
	long := 0.0
	for _, word := range ink.Words(text) {
		for _, part := range p.broken(word, s, width) {
			w := p.span(part, s)
			switch {
			case line == "":
				line, long = part, w
			case long+space+w > width+slack:
				out = append(out, line)
				line, long = part, w
			default:
				line, long = line+" "+part, long+space+w
			}
		}
	}
	return append(out, line)
}

// broken returns a word in parts that fit into a width, of a letter at least.
func (p *press) broken(word string, s style, width float64) []string {
	if p.span(word, s) <= width+slack {
		return []string{word}
	}
	var out []string
	begin, long := 0, 0.0
	for i, r := range word {
		w := p.span(string(r), s)
		if i > begin && long+w > width+slack {
			out = append(out, word[begin:i])
			begin, long = i, 0
		}
		long += w
	}
	return append(out, word[begin:])
}

// cut returns a text on one line, without what does not fit.
func (p *press) cut(text string, s style, width float64) string {
	line := strings.Join(strings.Fields(ink.Legible(text)), " ")
	if p.span(line, s) <= width {
		return line
	}
	parts := p.broken(line, s, width-p.span("…", s))
	return parts[0] + "…"
}

// text draws a line whose top is at y.
func (p *press) text(x, y float64, s style, line string) {
	p.use(s)
	p.doc.SetTextColor(int(s.color.R), int(s.color.G), int(s.color.B))
	p.doc.Text(x, y+s.baseline(), line)
}

// pen takes a line's look to the document.
func (p *press) pen(width vg.Length, c color.NRGBA) {
	p.doc.SetDrawColor(int(c.R), int(c.G), int(c.B))
	p.doc.SetLineWidth(width.Points())
}

// left and top are where the content of a sheet begins.
func (p *press) left() float64 { return Margin.Points() }
func (p *press) top() float64  { return Margin.Points() }
