// Package geometry holds the shapes of fuel tanks and cuts them by level
// planes.
//
// Every shape is a [Solid]. A solid is prepared once for an attitude with
// [Solid.Cut]; the [Cut] then answers, for any number of levels, how much lies
// below the plane, how large the free surface is and where the fuel's centre
// lies. Lengths are millimetres, volumes mm³, angles degrees.
//
// # Frame
//
// The tank frame is right-handed, x forward, y left, z up (ISO 8855:2011). A
// level plane is the set of points p with n·p = h, n being the fuel's "up" in
// that frame and h the level in millimetres (see [Mount.Up]).
//
// # Shapes
//
// Two kinds of swept solid carry everything: a [Prism], a planar [Outline] of
// lines and arcs pushed straight along an axis, cut in closed form; and a
// [Revolved] solid, a meridian of lines and elliptical arcs turned about an
// axis, cut by Gauss quadrature with panels that end where the plane enters or
// leaves the section. [Place] puts a solid at its spot, turned and stretched;
// [Composite] adds bodies that hold fuel and takes away bodies that displace
// it.
package geometry
