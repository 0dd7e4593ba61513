// Package band draws the polygonal line with the fewest corners through the
// error band around a curve, and so finds the least possible worst error of a
// given number of corners.
//
// A [Band] holds samples of a curve; [Band.Corridor] is all that lies within an
// error of it. [Corridor.Spanning] crosses it with corners from end to end, the
// classical problem (H. Imai and M. Iri, "An optimal algorithm for approximating
// a piecewise linear function", J. Information Processing 9, 159-162, 1986);
// [Corridor.Held] with a line that is level before its first and after its last
// corner, as a conditioner runs that holds its end values. [Band.Least] bisects
// the error. [OnGrid] solves the same problem with corners from a grid only.
package band
