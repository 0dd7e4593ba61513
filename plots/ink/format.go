package ink

import (
	"fmt"
	"io"
	"path/filepath"
	"strings"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/vgimg"
)

// A Format is a kind of file.
type Format string

// The formats.
const (
	SVG Format = "svg"
	PNG Format = "png"
	PDF Format = "pdf"
)

// Formats are all of them.
var Formats = []Format{SVG, PNG, PDF}

// FormatOf returns the format that the ending of a path names.
func FormatOf(path string) (Format, error) {
	return FormatNamed(strings.TrimPrefix(filepath.Ext(path), "."))
}

// FormatNamed returns the format of a name, in small or large letters.
func FormatNamed(name string) (Format, error) {
	for _, f := range Formats {
		if strings.EqualFold(name, string(f)) {
			return f, nil
		}
	}
	return "", fmt.Errorf("%q is no format of a picture, expected svg, png or pdf", name)
}

// fineness of a PNG, dots per inch: enough for print.
const fineness = 240

// Write writes what paint draws on a canvas of a size. Title names it for those who do
// not see it.
func (f Format) Write(w io.Writer, title string, width, height vg.Length, paint func(vg.CanvasSizer)) error {
	var c vg.CanvasWriterTo
	switch f {
	case PNG:
		c = vgimg.PngCanvas{Canvas: vgimg.NewWith(vgimg.UseWH(width, height), vgimg.UseDPI(fineness))}
	case PDF:
		book := NewBook(title)
		paint(book.Page(width, height))
		return book.Write(w)
	case SVG:
		c = newSVG(title, width, height)
	default:
		return fmt.Errorf("%q is no format of a picture, expected svg, png or pdf", string(f))
	}
	paint(c)
	_, err := c.WriteTo(w)
	return err
}
