package main

import (
	"bytes"
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"

	"github.com/spf13/cobra"
	"gonum.org/v1/gonum/spatial/r3"

	"floatarc/plots/fullsize"
	"floatarc/tanks"
	"floatarc/tanks/quantity"
	"floatarc/volume"
)

type stickRow struct {
	Along  number `json:"along_mm"`
	Litres number `json:"litres"`
	Level  number `json:"level_mm"`
	Label  string `json:"label"`
}

type stickMark struct {
	Label  string `json:"label"`
	Litres number `json:"litres"`
	Along  number `json:"along_mm"`
}

type stickAnswer struct {
	Rows      []stickRow  `json:"rows"`
	Marks     []stickMark `json:"marks"`
	Foot      [3]number   `json:"foot_mm"`
	Direction [3]number   `json:"direction"`
	Below     number      `json:"below_foot_l"`
	Top       number      `json:"top_mm"` // where the stick leaves the tank
	TopLitres number      `json:"top_l"`
	Warnings  []string    `json:"warnings"`
}

// A standing is a stick in a tank at an attitude.
type standing struct {
	volume.Stick
	tank     *tanks.Tank
	rig      *tanks.Rig // nil for a tank alone
	contents *volume.Contents
	sys      quantity.System
	top      float64 // mm from the foot to where it leaves the tank
	low, end float64 // litres at its foot, and at the end of its graduations
	chosen   string  // how the foot was chosen; empty if the user did
	warnings []string
}

// stick rules a dipstick for a tank, writes it if there is a name for it, and prints
// its graduations for programs.
func (o *options) stick(c *cobra.Command, file string, tank *tanks.Tank, contents *volume.Contents, f *stickFlags) error {
	s, err := o.stand(file, tank, contents, f)
	if err != nil {
		return err
	}
	d := s.dipstick()
	if d.Paper, err = f.paper.of(s.sys); err != nil {
		return err
	}
	if err := d.Check(); err != nil {
		return err
	}
	for _, w := range s.warnings {
		warn("%s", w)
	}
	if f.path != "" {
		if err := writeStick(d, f); err != nil {
			return err
		}
		warn("wrote %s; print it at 100 %%, and measure the line of 100 mm", f.path)
	}
	answer := s.answer(d)
	switch {
	case o.json:
		return writeJSON(c.OutOrStdout(), answer)
	case o.csv:
		return writeCSV(c.OutOrStdout(), answer.Rows)
	}
	return nil
}

func writeStick(d *fullsize.Dipstick, f *stickFlags) error {
	pages, err := d.Pages()
	if err != nil {
		return err
	}
	var pdf bytes.Buffer
	if err := pages.Write(&pdf); err != nil {
		return err
	}
	return writeFile(f.path, pdf.Bytes(), f.force)
}

// stand puts a stick into a tank.
func (o *options) stand(file string, tank *tanks.Tank, contents *volume.Contents, f *stickFlags) (*standing, error) {
	sys, err := quantity.Named(o.units) // those of the strip, whoever reads
	if err != nil {
		return nil, err
	}
	s := &standing{tank: tank, contents: contents, sys: sys}
	s.Direction = volume.Leaning(float64(f.forward), float64(f.left))
	s.loadRig(file, o.set)
	switch rise := s.Rise(contents); {
	case tank.LevelOnly != "" && (f.forward != 0 || f.left != 0):
		return nil, fmt.Errorf("--lean-forward %g --lean-left %g: %s, so that nothing is known of a stick that leans, expected an upright one", float64(f.forward), float64(f.left), tank.LevelOnly)
	case rise < leastRise:
		return nil, fmt.Errorf("the stick lies %.3g° from plumb at this attitude, expected less than %d°: it would show nothing", math.Acos(rise)*180/math.Pi, flattest)
	}
	if err := s.setFoot(f); err != nil {
		return nil, err
	}
	s.measure()
	return s, nil
}

// A stick further from plumb than flattest, degrees, tells next to nothing.
const flattest = 85

var leastRise = math.Cos(flattest * math.Pi / 180)

// loadRig reads the marks of the dial, where the file is a rig.
func (s *standing) loadRig(file string, set []string) {
	rig, err := tanks.Load(file, set)
	var e *tanks.Error
	switch {
	case err == nil:
		s.rig = rig
	case errors.As(err, &e) && e.Key == "sender" && strings.HasPrefix(e.Reason, "missing"): // a tank alone
	default:
		s.note("No marks of the dial on the stick: %v.", err)
	}
}

func (s *standing) note(format string, args ...any) {
	s.warnings = append(s.warnings, fmt.Sprintf(format, args...))
}

// measure finds what the stick shows.
func (s *standing) measure() {
	v := s.sys.Volume
	s.low, s.end = s.Litres(s.contents, 0), s.tank.Full
	atTop := s.Litres(s.contents, s.top)
	if s.low > leastShown*s.tank.Capacity {
		s.note("The stick shows nothing below %s: so much lies below its foot.", v.Text(s.low))
	}
	if atTop < s.end-leastShown*s.tank.Capacity {
		s.end = atTop
		s.note("The stick leaves the tank %s from its foot, where the tank holds %s of %s: it is ruled no further.", s.sys.Length.Size(s.top), v.Text(atTop), v.Text(s.tank.Full))
	}
}

// leastShown is the share of the capacity that a stick can be asked to show.
const leastShown = 1e-3

// dipstick returns what the strip shows.
func (s *standing) dipstick() *fullsize.Dipstick {
	d := &fullsize.Dipstick{
		Title: s.tank.Name, Words: s.words(), Notes: s.warnings, Units: s.sys,
		Low: s.low, High: s.end, Along: s.kept(),
	}
	if s.rig != nil && s.rig.Name != "" {
		d.Title = s.rig.Name
	}
	d.Stands = fmt.Sprintf("%s Foot at %s, %s, %s.", attitudeWords(s.contents.Attitude, s.tank.Mount), s.tape(s.Foot.X), s.tape(s.Foot.Y), s.leanWords())
	d.Marks = append(d.Marks, fullsize.StickMark{Label: "full", Litres: s.tank.Full})
	if lost := s.contents.Unusable; lost > 0 {
		d.Marks = append(d.Marks, fullsize.StickMark{Label: "unusable", Litres: lost})
	}
	if s.rig != nil {
		for _, m := range s.rig.Gauge.Dial.Marks {
			d.Marks = append(d.Marks, fullsize.StickMark{Label: m.Label, Litres: s.rig.Gauge.Dial.Litres(m.Share), Dial: true})
		}
	}
	return d
}

func (s *standing) tape(mm float64) string { return s.sys.Length.Size(mm) }

// kept returns the places of litres along the stick, each found once: levels of a lofted
// tank take their time.
func (s *standing) kept() func(litres float64) float64 {
	known := map[float64]float64{}
	return func(litres float64) float64 {
		key := math.Round(litres * 1e9)
		along, ok := known[key]
		if !ok {
			along = s.Along(s.contents, litres)
			known[key] = along
		}
		return along
	}
}

// answer is the strip for programs.
func (s *standing) answer(d *fullsize.Dipstick) stickAnswer {
	vec := func(v r3.Vec) [3]number { return [3]number{number(v.X), number(v.Y), number(v.Z)} }
	a := stickAnswer{
		Rows: []stickRow{}, Marks: []stickMark{}, Foot: vec(s.Foot), Direction: vec(s.Direction),
		Below: number(s.low), Top: number(s.top), TopLitres: number(s.Litres(s.contents, s.top)), Warnings: slices.Clone(s.warnings),
	}
	if a.Warnings == nil {
		a.Warnings = []string{}
	}
	for _, g := range d.Graduations() {
		a.Rows = append(a.Rows, stickRow{number(g.Along), number(g.Litres), number(s.Level(s.contents, g.Along)), g.Label})
	}
	for _, m := range d.Marks {
		a.Marks = append(a.Marks, stickMark{m.Label, number(m.Litres), number(s.Along(s.contents, m.Litres))})
	}
	return a
}
