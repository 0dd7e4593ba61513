// Package fault ranks what may be wrong with a gauge by what its needle does and what a
// meter shows.
//
// Each [Cause] says how likely each reading is with it; [Circuit.Diagnose] weighs them by
// Bayes' rule, readings taken as independent once the cause is given. What was not
// measured counts for nothing, so that a single symptom leaves several causes standing: the
// answer says so, and which reading would tell them apart.
//
// How likely needles and readings are with each cause is common practice, no source; that
// the ranking is right is checked by simulation, of circuits solved by another program.
package fault
