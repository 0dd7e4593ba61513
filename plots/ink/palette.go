package ink

import (
	"image/color"

	"gonum.org/v1/plot/vg"
)

// The colours. Lines that stand in one picture differ in lightness, too, and in their
// dashes, so that a grey print and colour-blind eyes tell them apart. Blue, sky,
// vermilion and purple are those of a published palette for colour-blind eyes (M. Okabe and
// K. Ito, Color Universal Design, 2008; from memory), some of them darkened.
var (
	Black     = color.NRGBA{0x1d, 0x23, 0x2a, 0xff} // letters, walls
	Grey      = color.NRGBA{0x5c, 0x66, 0x70, 0xff} // axes, dimensions, what is said by the way
	Light     = color.NRGBA{0xc9, 0xd0, 0xd6, 0xff} // grids
	White     = color.NRGBA{0xff, 0xff, 0xff, 0xff}
	Fuel      = color.NRGBA{0xdb, 0xe8, 0xf1, 0xff} // fuel that can be used
	Dead      = color.NRGBA{0xb7, 0xc3, 0xcd, 0xff} // fuel that cannot
	Blue      = color.NRGBA{0x00, 0x5a, 0x9c, 0xff} // how it is to be
	Sky       = color.NRGBA{0x56, 0xa5, 0xd8, 0xff} // a second way for it
	Vermilion = color.NRGBA{0xd5, 0x5e, 0x00, 0xff} // how it was, and warnings
	Purple    = color.NRGBA{0x82, 0x3f, 0x7c, 0xff} // slopes
)

// Widths of lines.
const (
	Hair   = vg.Length(0.5)
	Thin   = vg.Length(0.8)
	Medium = vg.Length(1.4)
	Thick  = vg.Length(2.0)
)

// Sizes of letters. Pictures are drawn 120 mm wide: at 80 mm in print the
// smallest are still 6 points.
const (
	Small = vg.Length(9)
	Head  = vg.Length(11)
)

// Dashes of lines.
var (
	Solid  []vg.Length
	Dashed = []vg.Length{5, 2.5}
	Dotted = []vg.Length{1.2, 2.2}
	Chain  = []vg.Length{8, 2, 1.5, 2}
)
