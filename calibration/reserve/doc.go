// Package reserve finds the low-fuel warning that still holds on a hill.
//
// A [Promise] is so many litres that must be left to be drawn when the lamp lights,
// on any slope of an [Envelope], whichever other slope of it the last of them is
// needed on. [Promise.Solve] finds the resistance at which to light the lamp, what
// it costs, and what two simpler choices would give; where there is none,
// [Promise.Cures] tells what would make one possible.
package reserve
