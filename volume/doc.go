// Package volume relates levels and a sender's travel to litres.
//
// A [Tank] is a solid with its mounting, its fill and its pickup. [Tank.At]
// looks at it from one attitude: [Contents] turns levels into litres and back.
// A [Relation] puts a sender into the contents: travel to litres and back.
// Levels are millimetres, volumes litres.
package volume
