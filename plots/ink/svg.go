package ink

import (
	"bytes"
	"fmt"
	"html"
	"io"
	"regexp"
	"strings"
	"unicode"

	"gonum.org/v1/plot/font"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/vgsvg"
)

// family is what a reader without the letters may take in their place: the others are
// as wide.
const family = `font-family:Liberation Sans,Arial,Helvetica,sans-serif;`

// svg is a canvas that writes texts as texts and pins their widths.
type svg struct {
	*vgsvg.Canvas
	title  string
	widths []vg.Length // of the texts in their order
}

func newSVG(title string, width, height vg.Length) *svg {
	return &svg{Canvas: vgsvg.NewWith(vgsvg.UseWH(width, height)), title: title}
}

// FillString implements vg.Canvas.
func (c *svg) FillString(f font.Face, at vg.Point, text string) {
	text = seen(text)
	c.widths = append(c.widths, f.Width(text))
	c.Canvas.FillString(f, at, text)
}

// seen returns a text without what XML does not allow.
func seen(text string) string {
	return strings.Map(func(r rune) rune {
		if unicode.Is(unicode.Cc, r) || r == 0xfffe || r == 0xffff {
			return -1
		}
		return r
	}, strings.ToValidUTF8(text, string(unknown)))
}

var (
	texts    = regexp.MustCompile(`<text `)
	families = regexp.MustCompile(`font-family:[^;"]*;`)
	opening  = regexp.MustCompile(`(?s)<svg [^>]*>`)
	preamble = regexp.MustCompile(`(?s)^.*?(<svg )`)
)

// WriteTo implements io.WriterTo.
func (c *svg) WriteTo(w io.Writer) (int64, error) {
	var buf bytes.Buffer
	if _, err := c.Canvas.WriteTo(&buf); err != nil {
		return 0, err
	}
	k := 0
	out := texts.ReplaceAllFunc(buf.Bytes(), func([]byte) []byte {
		k++
		return fmt.Appendf(nil, `<text textLength="%.2f" lengthAdjust="spacingAndGlyphs" `, c.widths[k-1].Points())
	})
	out = families.ReplaceAll(out, []byte(family))
	// A page takes it in as it is: nothing stands before the element.
	out = preamble.ReplaceAll(out, []byte("$1"))
	title := html.EscapeString(seen(c.title))
	out = opening.ReplaceAllFunc(out, func(tag []byte) []byte {
		return fmt.Appendf(nil, "%s role=\"img\" aria-label=\"%s\">\n<title>%s</title>", bytes.TrimSuffix(tag, []byte(">")), title, title)
	})
	n, err := w.Write(out)
	return int64(n), err
}
