// Package calibration places the points that a conditioner stores, and tells
// how far the needle lies with them.
//
// A [Rig] joins a tank, its sender, the wiring and the dial. [Rig.AtMarks] puts
// a point at every printed mark; [Rig.Choose] picks the best few where the
// conditioner stores fewer. [Rig.Curve] samples the truth at an attitude, and
// [Curve.Worst] holds an indication against it.
package calibration
