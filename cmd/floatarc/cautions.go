package main

// cautions are what whoever works on a fuel tank must know, short enough for a worksheet; the
// README says more.
var cautions = []string{
	"Vapour is heavier than air and lights from a spark far away: no flame, no smoking, no ordinary lamp or drill. Drain, purge, ventilate; work outdoors, an extinguisher within reach.",
	"Battery off before you touch the wiring, and on again last. Never a bench supply across a sender in a tank: an ohmmeter is enough.",
	"Earth the can and the tank before you pour, a metal can kept on the filler; no plastic can in a boat or on a liner.",
	"Leak-test every joint and gasket that you opened. Local codes and licensed practice come first: on aircraft, on boats with petrol, and wherever the law asks for it, this is work for certified people.",
	"These figures are computed from measurements: prove them with a fuel can, and keep a reserve.",
}
