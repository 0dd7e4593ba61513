// Package trials propagates what is uncertain of a rig's measures by the Monte Carlo
// method (JCGM 101:2008): many rigs, each with its measures drawn anew, and the spread
// of the figures that follow from them.
package trials
