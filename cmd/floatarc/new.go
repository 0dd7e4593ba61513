package main

import (
	"bytes"
	_ "embed"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
	"text/template"

	"github.com/spf13/cobra"

	"floatarc/tanks/quantity"
)

//go:embed new.toml.tmpl
var newTemplate string

var newKinds = []string{"vehicle", "boat", "machine"}

func newNew(o *options) *cobra.Command {
	var path string
	var force, ask bool
	c := &cobra.Command{
		Use:   "new [vehicle|boat|machine]",
		Short: "A commented rig file to fill in",
		Long: `new writes a rig file in which every dimension says where to hold the tape. Its
figures are invented; put your own in their place. With --units us or imperial
they are written in inches and gallons.

With --ask it asks for one figure after another, in the order of the letters of
floatarc sheet --blank, checks each at once, and ends with what check says of the
file. Answers come from a terminal or line by line from a pipe: ? tells more,
back goes back, skip or an empty line leaves a figure open, stop writes what there
is; the same command goes on with such a file. What nobody measured is marked
NOT MEASURED in the file, and check names it.`,
		Args:      oneAtMost,
		ValidArgs: newKinds,
		RunE: func(c *cobra.Command, args []string) error {
			kind := newKinds[0]
			if len(args) == 1 {
				kind = args[0]
			}
			if ask {
				return o.ask(c, args, path, force)
			}
			if !slices.Contains(newKinds, kind) {
				return misusef("new %s, expected vehicle, boat or machine", kind)
			}
			text, err := newRig(kind, o.system())
			if err != nil {
				return err
			}
			if path == "" {
				_, err := c.OutOrStdout().Write(text)
				return err
			}
			if err := writeFile(path, text, force); err != nil {
				return err
			}
			warn("wrote %s; measure, fill in, then run: floatarc check %s", path, path)
			return nil
		},
	}
	c.Flags().StringVarP(&path, "output", "o", "", "write to this `FILE` instead of standard output")
	c.Flags().BoolVar(&force, "force", false, "write over a file that exists")
	c.Flags().BoolVar(&ask, "ask", false, "ask for one figure after another, and check each at once")
	return c
}

// newRig fills the template for a kind of rig.
func newRig(kind string, sys quantity.System) ([]byte, error) { return usualForm(kind).rig(sys) }

// rig fills the template for a form.
func (f form) rig(sys quantity.System) ([]byte, error) {
	t, err := template.New("new").Funcs(template.FuncMap{
		"mm":   func(v float64) string { return tapeText(v, sys) },
		"l":    func(v float64) string { return canText(v, sys) },
		"note": f.note,
		"pick": func(metric, us, imperial string) string {
			return map[string]string{"metric": metric, "us": us, "imperial": imperial}[sys.Name]
		},
	}).Parse(newTemplate)
	if err != nil {
		return nil, err
	}
	var b bytes.Buffer
	err = t.Execute(&b, map[string]any{"Kind": f.kind, "Tank": f.sketched()})
	return aligned(b.String()), err
}

// commentColumn is where the comments of a rig file start.
const commentColumn = 48

// aligned moves the comments behind values, and those that go on below them, to
// one column.
func aligned(text string) []byte {
	lines := strings.Split(text, "\n")
	for i, line := range lines {
		at := strings.Index(line, " #")
		if at < 0 {
			continue
		}
		code := strings.TrimRight(line[:at], " ")
		lines[i] = fmt.Sprintf("%-*s %s", commentColumn-1, code, line[at+1:])
	}
	return []byte(strings.Join(lines, "\n"))
}

// tapeText writes a length as a tape in the system shows it: whole
// millimetres, or inches and eighths.
func tapeText(mm float64, sys quantity.System) string {
	if sys.Name == quantity.Metric.Name {
		return strconv.FormatFloat(mm, 'f', -1, 64)
	}
	eighths := int(math.Round(mm / quantity.MMPerInch * 8))
	sign, n := "", eighths
	if n < 0 {
		sign, n = "-", -n
	}
	whole, part := n/8, n%8
	if part == 0 {
		return fmt.Sprintf(`"%s%d in"`, sign, whole)
	}
	size := 8
	for part%2 == 0 {
		part, size = part/2, size/2
	}
	if whole == 0 {
		return fmt.Sprintf(`"%s%d/%d in"`, sign, part, size)
	}
	return fmt.Sprintf(`"%s%d %d/%d in"`, sign, whole, part, size)
}

// canText writes a volume.
func canText(litres float64, sys quantity.System) string {
	return `"` + strings.TrimSuffix(sys.Volume.Text(litres), ".00") + `"`
}
