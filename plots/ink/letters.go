package ink

import (
	"sync"

	"codeberg.org/go-fonts/liberation/liberationsansbold"
	"codeberg.org/go-fonts/liberation/liberationsansregular"
	xfont "golang.org/x/image/font"
	"golang.org/x/image/font/opentype"
	"gonum.org/v1/plot/font"
	"gonum.org/v1/plot/text"
	"gonum.org/v1/plot/vg"
)

// typeface is the name under which the letters are known to a canvas.
const typeface = "Liberation"

// Regular and Bold return the letters at a size.
func Regular(size vg.Length) font.Font {
	return font.Font{Typeface: typeface, Variant: "Sans", Size: size}
}

func Bold(size vg.Length) font.Font {
	f := Regular(size)
	f.Weight = xfont.WeightBold
	return f
}

// Handler returns what sets texts in these letters.
func Handler() text.Handler { return text.Plain{Fonts: faces()} }

var faces = sync.OnceValue(func() *font.Cache {
	return font.NewCache(font.Collection{
		{Font: Regular(0), Face: parsed(liberationsansregular.TTF)},
		{Font: Bold(0), Face: parsed(liberationsansbold.TTF)},
	})
})

// parsed reads a font that is part of the program.
func parsed(ttf []byte) *opentype.Font {
	f, err := opentype.Parse(ttf)
	if err != nil {
		panic("ink: an embedded font cannot be read: " + err.Error())
	}
	return f
}

// Width returns how wide a text is.
func Width(f font.Font, text string) vg.Length {
	face := faces().Lookup(f, f.Size)
	return face.Width(text)
}
