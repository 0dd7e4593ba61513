// Package ink writes what is drawn on a canvas as SVG, PNG or PDF, with the same
// letters in each: a [Format] for one picture, a [Book] for pages at their true size.
//
// Positions are those of [vg]: lengths from the bottom left corner, up and to the
// right. Letters are Liberation Sans. The SVG holds text, not outlines, and pins its
// width, so that a reader without that font sees its words where they were put; the
// PDF holds the font, so that Ω, ° and fractions are there and can be searched for.
//
// What the packages that draw share is here, too: a [Paper] to print on, the breaking of texts
// into [Lines], the [Spread] of labels.
//
// A [Survey] is a canvas that draws nothing and notes where everything would be.
package ink
