// Package fit corrects a rig by a fill log: known amounts of fuel that were poured
// into the tank or drained from it, and the resistance that was read after each.
//
// The geometry is a prior: every measure has a standard uncertainty. [Run] finds the
// measures that the log makes the likeliest, with what is then still uncertain of
// them; it names those of which the log says nothing or that it cannot tell apart,
// and the readings and pours that do not fit. [Plan] tells beforehand what each can
// must show. Litres are those in the tank, the unusable included; inputs are ohms at
// the terminals.
package fit
