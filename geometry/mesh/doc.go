// Package mesh holds solids bounded by triangles: a drawing of a tank as other
// programs export it. It welds and checks the triangles, tells whether they
// draw the fuel or the metal around it, and cuts the solid by level planes: the
// volume below a level is an exact piecewise cubic of the level.
//
// Lengths are mm, areas mm², volumes mm³. Nothing in it reads files.
package mesh
