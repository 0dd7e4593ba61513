// Package float holds the sender in the tank: what the float rides on, where it
// can go, and which resistance it shows.
//
// A [Sender] is described by one travel: the angle of an arm in degrees. At
// each travel it stands for one level of the fuel and one resistance. Lengths
// are millimetres, angles degrees, resistances ohms.
package float
