package main

import (
	"bufio"
	"context"
	"fmt"
	"io"
	"os"
	"os/signal"
	"slices"
	"syscall"

	"github.com/spf13/cobra"
	"golang.org/x/term"

	"floatarc/tanks/quantity"
)

// ask runs new --ask: prompts go to standard error, what check says at the end to standard
// output.
func (o *options) ask(c *cobra.Command, args []string, path string, force bool) error {
	switch {
	case o.json || o.csv:
		return misusef("new --ask with --json or --csv, expected neither: it asks a person")
	case len(o.set) > 0:
		return misusef("new --ask with --set, expected none: answer the question instead")
	case path == "":
		return misusef("new --ask without -o, expected -o FILE to write")
	case len(args) == 1 && !slices.Contains(newKinds, args[0]):
		return misusef("new %s, expected vehicle, boat or machine", args[0])
	}
	s, err := o.interview(c, args, path, force)
	if err != nil {
		return err
	}
	s.out = c.ErrOrStderr()
	if err := s.run(c.Context(), c.InOrStdin()); err != nil || !s.done() {
		return err
	}
	o.units = s.sys.Name
	warn("wrote %s; this is what check says of it:", path)
	if err := o.writeCheck(c.OutOrStdout(), path); err != nil {
		return err
	}
	warn("next: floatarc points %s%s", path, s.unitWords())
	return nil
}

// interview starts one, or goes on with an unfinished file.
func (o *options) interview(c *cobra.Command, args []string, path string, force bool) (*interview, error) {
	before, err := earlierAt(path, force)
	if err != nil {
		return nil, err
	}
	kind, units := "", o.units
	if len(args) == 1 {
		kind = args[0]
	}
	if before != nil {
		if kind != "" && kind != before.kind || c.Flags().Changed("units") && units != before.units {
			return nil, misusef("%s is of a %s in %s units, expected the same, or --force to start anew", path, before.kind, before.units)
		}
		units = before.units
	}
	sys, err := quantity.Named(units)
	if err != nil {
		return nil, misusef("--%v", err)
	}
	s := newInterview(path, sys)
	if before != nil {
		return s, s.resume(before)
	}
	return s, s.begin(kind)
}

// newInterview asks for a file at a path.
func newInterview(path string, sys quantity.System) *interview {
	return &interview{out: io.Discard, path: path, sys: sys, told: map[string]bool{}}
}

// run asks until everything is asked, somebody says stop, the input ends or a signal comes;
// then it writes the file.
func (s *interview) run(ctx context.Context, in io.Reader) error {
	if ctx == nil {
		ctx = context.Background()
	}
	ctx, cancel := signal.NotifyContext(ctx, os.Interrupt, syscall.SIGTERM, syscall.SIGHUP)
	defer cancel()
	lines, echo := linesOf(ctx, in), !typedAnswer(in)
	s.start()
	for stop := false; !stop && !s.done(); {
		s.prompt()
		select {
		case line, more := <-lines:
			if more && echo {
				fmt.Fprintln(s.out, cleaned(line))
			}
			stop = !more || s.take(line)
		case <-ctx.Done():
			stop = true
		}
	}
	return s.finish()
}

// typedAnswer tells whether somebody types the input, and so sees it already.
func typedAnswer(in io.Reader) bool {
	f, ok := in.(*os.File)
	return ok && term.IsTerminal(int(f.Fd()))
}

// finish writes the file, and says how to go on where there is more to ask.
func (s *interview) finish() error {
	if s.draft == nil {
		fmt.Fprintln(s.out)
		return fmt.Errorf("stopped before the first answer, so that nothing is written; expected a kind: vehicle, boat or machine")
	}
	if err := s.save(); err != nil {
		return err
	}
	fmt.Fprintln(s.out)
	if !s.done() {
		warn("stopped at %s, wrote %s; go on with: floatarc new --ask -o %[2]s", s.questions[s.at].where(), s.path)
	}
	return nil
}

// longestLine is the most bytes of an answer.
const longestLine = 1 << 16

// linesOf sends the lines of an input until it ends.
func linesOf(ctx context.Context, in io.Reader) <-chan string {
	lines := make(chan string)
	go func() {
		defer close(lines)
		for sc := scannerOf(in); sc.Scan(); {
			select {
			case lines <- sc.Text():
			case <-ctx.Done():
				return
			}
		}
	}()
	return lines
}

func scannerOf(in io.Reader) *bufio.Scanner {
	sc := bufio.NewScanner(in)
	sc.Buffer(nil, longestLine)
	return sc
}
