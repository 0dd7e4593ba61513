// Package plots draws a rig: the tank with its sender to scale, what its readings mean,
// how far the needle lies, where the lamp lights on slopes, the dial.
//
// Each function returns a [Picture], which [Picture.Write] writes as SVG, PNG or PDF. A
// picture is 120 mm wide and made to be read when it is printed 80 mm wide: letters
// are no smaller than [ink.Small]. Lines that differ in meaning differ in lightness and
// dashes, too; blind bands are hatched; labels stand beside what they name, placed so that
// none covers another.
package plots

//go:generate go run ../cmd/floatarc plot all --uncertain --rigs 2000 --force -o gallery
