// Package gauge holds what stands between the sender and the driver: the
// wiring, the conditioner that stores pairs of input and dial position, and the
// dial with its marks. Resistances are ohms; a dial position runs from 0 at the
// empty mark to 1 at the full mark, linear in needle sweep.
package gauge
