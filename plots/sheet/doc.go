// Package sheet writes a worksheet to carry to a workshop: a [Document] of blocks, as one
// HTML page that needs nothing but itself, or as a PDF, from the same content.
//
// All texts of a document may come from strangers: they are escaped in the HTML, and
// letters that the PDF's font does not have become □ there. A line break in a text is one
// on the sheet.
package sheet
