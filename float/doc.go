// Package float holds the sender in the tank: what the float rides on, where it
// can go, and which resistance it shows.
//
// A [Sender] is described by one travel: the angle of an [Arm] in degrees, the way
// along a [Rod], a height of the surface. At each travel it shows one resistance,
// and in fuel that lies at one attitude, its [Path], it stands for one level. A
// [Buoy] is the float's own body: how deep it lies, and what friction at the axle
// does to that. Lengths are millimetres, angles degrees, masses grams, resistances
// ohms.
package float
