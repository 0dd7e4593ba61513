// Command floatarc computes, from the geometry of a fuel tank and its sender,
// which resistance means which quantity, and the calibration points that make
// the gauge tell the truth.
package main

import (
	"errors"
	"fmt"
	"os"
)

func main() { os.Exit(run(os.Args[1:])) }

// Exit statuses.
const (
	done    = 0
	refused = 1 // the input was refused, or a stated check failed
	misused = 2 // wrong usage
)

// run runs the command. What it finds out goes to standard output; everything
// else goes to standard error, in one line with the prefix "floatarc:".
func run(args []string) int {
	root := newRoot()
	root.SetArgs(args)
	err := root.Execute()
	if err == nil {
		return done
	}
	fmt.Fprintf(os.Stderr, "floatarc: %v\n", err)
	var input *refusal
	if errors.As(err, &input) {
		return refused
	}
	return misused
}

// A refusal is an error of the input, not of the usage.
type refusal struct{ error }

func (r *refusal) Unwrap() error { return r.error }
