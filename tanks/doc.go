// Package tanks reads rig and tank files and holds the built-in library.
//
// A file is TOML, read strictly: a key that is not known is refused with the
// nearest one that is, every measure goes through package quantity, and every
// error is an [*Error] that names file, line and key. [Load] returns the parts
// of a rig, checked and ready to compute with; [LoadTank] the tank alone.
package tanks
