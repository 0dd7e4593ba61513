package main

import (
	"bytes"
	"fmt"
	"io"
	"path/filepath"
	"strings"

	"github.com/spf13/cobra"

	"floatarc/plots/ink"
	"floatarc/plots/sheet"
	"floatarc/tanks/quantity"
)

// sheetFlags are the flags of the command.
type sheetFlags struct {
	output, can, blank string
	force              bool
	paper              paperFlag
	att                attitude
	plan               planFlags
	uncertain          uncertainFlags
}

func newSheet(o *options) *cobra.Command {
	var f sheetFlags
	c := &cobra.Command{
		Use:   "sheet [FILE]",
		Short: "The worksheet to carry to the vehicle, as HTML or PDF",
		Long: `sheet writes all that is needed at the vehicle on two sheets of paper: the tank, the
points to store with boxes to tick, the wiring to measure, the low-fuel lamp, the
schedule for the decade box, and the fill log with what the meter must show.

With --blank it writes the first paper of all, for a rig that nobody has measured
yet: a sketch of the tank and the sender with lettered dimensions, the letters of
the file that floatarc new writes, and boxes to fill in.`,
		Args: oneAtMost,
		RunE: func(c *cobra.Command, args []string) error {
			if err := f.uncertain.check(c); err != nil {
				return err
			}
			document, name, err := o.sheet(args, f)
			if err != nil {
				return err
			}
			answer, err := writeSheet(document, name, f)
			if err != nil {
				return err
			}
			return o.print(c.OutOrStdout(), answer, []sheetAnswer{answer}, func(w io.Writer) { fmt.Fprintln(w, answer.File) })
		},
	}
	flags := c.Flags()
	flags.StringVarP(&f.output, "output", "o", "", "the `FILE` to write, which ends in .html or .pdf")
	flags.BoolVar(&f.force, "force", false, "write over a file that exists")
	f.paper.register(c, "")
	flags.StringVar(&f.can, "can", "", "what one can of the fill log holds (`VOLUME`, \"10 L\")")
	flags.StringVar(&f.blank, "blank", "", "the first paper, before there is a rig, for a `KIND`: vehicle, boat or machine")
	f.plan.register(c)
	f.plan.registerRound(c)
	f.uncertain.register(c)
	f.att.register(c)
	return c
}

// sheet returns the worksheet, and the name of a file for it.
func (o *options) sheet(args []string, f sheetFlags) (*sheet.Document, string, error) {
	sys, _ := quantity.Named(o.units) // checked before any command runs
	paper, err := f.paper.of(sys)
	if err != nil {
		return nil, "", err
	}
	if f.blank != "" {
		if f.can != "" || f.att != (attitude{}) || f.plan.measured.given || f.uncertain.asked {
			return nil, "", misusef("sheet: --blank with flags of a rig, expected --paper and --units at most")
		}
		if len(args) > 0 {
			return nil, "", misusef("sheet: --blank with %s, expected no rig: it is for one that is not measured yet", args[0])
		}
		document, err := blankSheet(f.blank, sys)
		if err == nil {
			document.Size = paper
		}
		return document, "blank-" + f.blank, err
	}
	people := *o // a sheet is for people, whatever is printed of its writing
	people.json, people.csv = false, false
	j, rel, p, err := people.loadPlan(named(args), f.att, f.plan)
	if err != nil {
		return nil, "", err
	}
	w, err := j.workSheet(rel, p, f, paper)
	if err != nil {
		return nil, "", err
	}
	document, err := w.document()
	if err != nil {
		return nil, "", err
	}
	return trueMinus(document), rigStem(j.file.File) + "-sheet", nil
}

// A sheetAnswer is what was written.
type sheetAnswer struct {
	File  string `json:"file"`
	Pages int    `json:"pages"`
}

// writeSheet writes a document to the file asked for.
func writeSheet(d *sheet.Document, name string, f sheetFlags) (sheetAnswer, error) {
	path := f.output
	if path == "" {
		path = name + ".html"
	}
	var buf bytes.Buffer
	var err error
	switch strings.ToLower(filepath.Ext(path)) {
	case ".html", ".htm":
		err = d.HTML(&buf)
	case "." + string(ink.PDF):
		err = d.PDF(&buf)
	default:
		return sheetAnswer{}, misusef("-o %s: expected a name that ends in .html or .pdf", path)
	}
	if err != nil {
		return sheetAnswer{}, fmt.Errorf("%s: %w", path, err)
	}
	pages, err := d.PageCount()
	if err != nil {
		return sheetAnswer{}, fmt.Errorf("%s: %w", path, err)
	}
	return sheetAnswer{path, pages}, writeFile(path, buf.Bytes(), f.force)
}
