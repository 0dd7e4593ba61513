package main

import (
	"bytes"
	_ "embed"
	"fmt"
	"text/template"

	"github.com/spf13/cobra"
	"gonum.org/v1/gonum/floats/scalar"

	"floatarc/calibration/fit"
	"floatarc/float"
	"floatarc/tanks"
	"floatarc/tanks/logfile"
	"floatarc/tanks/quantity"
)

//go:embed poured.toml.tmpl
var pouredTemplate string

// fitPoured turns a log alone into a rig.
func (o *options) fitPoured(c *cobra.Command, args []string, f fitFlags) error {
	switch {
	case len(args) != 1:
		return misusef("fit --poured: expected one LOG and no rig: the log becomes the rig")
	case f.log.can != "" || f.log.fluid != "fuel":
		return misusef("fit --poured: --can and --fluid say nothing of a log alone, expected neither")
	}
	capacity, err := quantity.Volume.Parse(f.poured)
	if err != nil || !(capacity.Value > 0) {
		return misusef("--poured %q, expected what the tank holds to the brim, such as \"57 L\"", f.poured)
	}
	l, err := readLog(args[0])
	if err != nil {
		return err
	}
	if err := l.pouredRows(f.log); err != nil {
		return err
	}
	knots, strays, err := fit.Poured(l.fit)
	if err != nil {
		return l.refuse(0, "%w", err)
	}
	knots = written(knots)
	for _, s := range strays {
		warn("%s: %.4g ohm at %.4g L, where the rows beside it would have about %.4g: a slip of the pen, or a bend of the tank? (a doubtful row is marked so in the column note)", l.path, s.Ohms, s.Litres, s.Curve)
	}
	if last := knots[len(knots)-1].Litres; last > capacity.Value {
		return l.refuse(0, "%.4g L in the tank, expected at most its capacity, %.4g L", last, capacity.Value)
	}
	text, err := pouredRig(l, knots, capacity.Value)
	if err != nil {
		return err
	}
	if f.write == "" {
		_, err := c.OutOrStdout().Write(text)
		return err
	}
	if err := tanks.Check(f.write, string(text)); err != nil {
		return fmt.Errorf("%w (nothing was written)", err)
	}
	if err := writeFile(f.write, text, f.force); err != nil {
		return err
	}
	warn("wrote %s; fill in the rest, then run: floatarc check %s", f.write, f.write)
	return nil
}

// pouredRows takes the rows of a log of which no rig is known: ohms and litres.
func (l *loadedLog) pouredRows(flags logFlags) error {
	switch {
	case l.file.Reads != logfile.Ohms:
		return l.refuse(0, "%s, expected ohms: nothing is known of a conditioner", l.file.Reads)
	case l.file.ByMass:
		return l.refuse(0, "amounts by mass, expected litres: nothing is known of the fuel")
	case l.file.Tilted:
		return l.refuse(0, "rows on a slope, expected level ground: litres say nothing of a slope")
	}
	pour, meter, err := flags.sigmas()
	if err != nil {
		return err
	}
	l.fit = &fit.Log{}
	if flags.start != "" && flags.start != drained && flags.start != empty {
		q, err := quantity.Volume.Parse(flags.start)
		if err != nil || l.file.Totals || q.Value < 0 {
			return misusef("--start %q, expected drained or litres, for a log of what was added or removed", flags.start)
		}
		l.fit.Start = q.Value
	}
	moves := l.moves(false)
	for i, row := range l.file.Rows {
		if spilled(row) {
			return l.refuse(row.Line, "marked spilled: without a rig nobody knows what is in the tank from here on, expected a log without a spill, or what did go in, such as 9 ± 0.5")
		}
		l.fit.Rows = append(l.fit.Rows, fit.Row{
			Poured: moves[i].amount, PouredSigma: pour(moves[i].amount), Input: row.Reading, InputSigma: stated(row, meter(row.Reading)),
			Sense: moves[i].sense, Doubtful: doubtful(row),
		})
	}
	return nil
}

// Decimals of a knot in a file.
const (
	litreDigits = 3
	ohmDigits   = 2
)

// written returns knots as a file holds them, without those that are then the same.
func written(knots []fit.Knot) []fit.Knot {
	var out []fit.Knot
	for _, k := range knots {
		k = fit.Knot{Litres: scalar.Round(k.Litres, litreDigits), Ohms: scalar.Round(k.Ohms, ohmDigits)}
		if n := len(out); n == 0 || k.Litres > out[n-1].Litres && k.Ohms != out[n-1].Ohms {
			out = append(out, k)
		}
	}
	return out
}

// pouredRig writes the rig.
func pouredRig(l *loadedLog, knots []fit.Knot, capacity float64) ([]byte, error) {
	t, err := template.New("poured").Funcs(template.FuncMap{
		"litres": func(v float64) string { return quantity.Trimmed(v, litreDigits) },
		"ohms":   func(v float64) string { return quantity.Trimmed(v, ohmDigits) },
	}).Parse(pouredTemplate)
	if err != nil {
		return nil, err
	}
	var rising, falling bool
	for _, r := range l.fit.Rows {
		rising, falling = rising || r.Sense == float.Rising, falling || r.Sense == float.Falling
	}
	sense := map[[2]bool]string{{true, true}: "the mean of rising and falling fuel", {true, false}: "rising fuel alone: a float that drags reads a little more on falling fuel", {false, true}: "falling fuel alone: a float that drags reads a little less on rising fuel", {false, false}: "a float that was tapped free"}
	var b bytes.Buffer
	err = t.Execute(&b, map[string]any{
		"Log": l.path, "Rows": len(l.fit.Rows), "Knots": knots, "Capacity": capacity, "Full": knots[len(knots)-1].Litres, "Sense": sense[[2]bool{rising, falling}],
	})
	if err != nil {
		return nil, fmt.Errorf("%s: %w", l.path, err)
	}
	return b.Bytes(), nil
}
