// Package fullsize draws what is printed at its true size and cut out: a dipstick with
// the litres along it, a card that makes the sender in the hand its own resistance box,
// and a scale to lay over the dial.
//
// Every page carries lines of known length: a printer that fits the page to its paper
// spoils them all, and nobody sees it without a ruler. Lengths are mm from the bottom
// left corner of the page.
package fullsize
