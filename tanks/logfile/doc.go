// Package logfile reads a fill log: somebody poured known amounts of fuel into a
// tank, or drained them, and noted what the meter on the sender showed.
//
// A log is CSV with a heading:
//
//	litres_added, ohms, needle, note
//	0,            238
//	10 ± 0.1,     214,  E,      first can
//	2 US gal,     197,  just over 1/4
//
// The amounts are litres_added, litres_removed or both, or else litres_total; the
// readings ohms, volts or counts. The others may be left out: needle, nose_up,
// left_up, temperature and note. The heading may name other units, as us_gal_added,
// "total (kg)", millivolts and temperature_f do, and so may a cell: "2 US gal". Lines
// that start with # are passed over, and so are columns of what was expected.
//
// [Parse] reads it strictly: a column that is not known is refused with the nearest
// one that is, every measure goes through package quantity, and every error is an
// [*Error] that names line and column. What the rows say of a tank, and whether they
// are enough to say it, is left to others.
package logfile
