package main

import (
	"fmt"
	"io"

	"github.com/spf13/cobra"

	"floatarc/geometry"
	"floatarc/tanks"
	"floatarc/tanks/quantity"
	"floatarc/volume"
)

type dipRow struct {
	Level   number    `json:"level_mm"`
	Litres  number    `json:"litres"`
	Surface number    `json:"surface_cm2"`
	Centre  [3]number `json:"centroid_mm"`
	Moment  number    `json:"surface_moment_cm4"`
}

type dipAnswer struct {
	Rows  []dipRow `json:"rows"`
	Error number   `json:"error_l"`
}

const mostSteps = 100000

func checkSteps(steps int) error {
	if steps < 1 || steps > mostSteps {
		return misusef("--steps %d, expected 1 to %d", steps, mostSteps)
	}
	return nil
}

func newDip(o *options) *cobra.Command {
	var att attitude
	var steps int
	var at []string
	var grid bool
	var stick stickFlags
	noseUps, leftUps := angles{-10, -5, 0, 5, 10}, angles{-10, -5, 0, 5, 10}
	c := &cobra.Command{
		Use:   "dip [FILE]",
		Short: "Height of the fuel to litres, at an attitude or at many",
		Long: `dip prints the litres and the free surface for levels of the fuel. The level is
the height of the surface over the origin of the tank frame, n·p in mm, which on
level ground is simply z. FILE may be a rig, or a tank alone.

With --grid it prints a sounding table: the litres for the same levels at every
pair of the attitudes of --nose-ups and --left-ups.

With --stick it writes a dipstick to print at its true size and to copy onto a
stick of wood or brass: litres along it, for a stick at any place of the floor,
at any lean and at any attitude. As JSON and CSV it tells its graduations.

As JSON and CSV it tells more: the centre of the fuel in the tank frame, and the
second moment of the free surface about the fore-and-aft line through its own
centroid, which a slack tank takes from a boat's stability.`,
		Args: oneAtMost,
		RunE: func(c *cobra.Command, args []string) error {
			if err := checkSteps(steps); err != nil {
				return err
			}
			if err := checkGrid(c, grid); err != nil {
				return err
			}
			if err := stick.check(c, o); err != nil {
				return err
			}
			levels, err := levelsOf(at)
			if err != nil {
				return err
			}
			tank, err := tanks.LoadTank(named(args), o.set)
			if err != nil {
				return err
			}
			if tank.Bare {
				return fmt.Errorf("%s: a tank known by its capacity alone has no heights, expected [[tank.body]] for its shape", named(args))
			}
			if grid {
				answer, err := soundings(tank, levels, steps, noseUps, leftUps)
				if err != nil {
					return err
				}
				return o.print(c.OutOrStdout(), answer, answer.Rows, func(w io.Writer) { answer.write(w, tank, o.system()) })
			}
			contents, err := tank.At(geometry.Attitude(att))
			if err != nil {
				return err
			}
			if stick.on {
				return o.stick(c, named(args), tank, contents, &stick)
			}
			answer := dip(contents, levels, steps)
			return o.print(c.OutOrStdout(), answer, answer.Rows, func(w io.Writer) { answer.write(w, tank, contents, o.system()) })
		},
	}
	att.register(c)
	c.Flags().IntVar(&steps, "steps", 20, "`NUMBER` of even steps from the lowest point to the highest")
	c.Flags().StringArrayVar(&at, "at", nil, "one `HEIGHT` instead (repeatable), such as 85 or \"3 1/2 in\"")
	c.Flags().BoolVar(&grid, "grid", false, "a sounding table: litres by level, at many attitudes")
	c.Flags().Var(&noseUps, "nose-ups", "attitudes of the table, front higher than rear")
	c.Flags().Var(&leftUps, "left-ups", "attitudes of the table, left side higher than right")
	stick.register(c)
	return c
}

// checkGrid refuses flags of a table without --grid, and those of one attitude
// with it.
func checkGrid(c *cobra.Command, grid bool) error {
	for _, name := range []string{"nose-up", "left-up"} {
		switch many := name + "s"; {
		case c.Flags().Changed(many) && !grid:
			return misusef("--%s goes with --grid only", many)
		case c.Flags().Changed(name) && grid:
			return misusef("--grid takes the attitudes of --nose-ups and --left-ups, not --nose-up and --left-up")
		}
	}
	return nil
}

func levelsOf(at []string) ([]float64, error) {
	levels := make([]float64, 0, len(at))
	for _, text := range at {
		q, err := quantity.Length.Parse(text)
		if err != nil {
			return nil, misusef("--at %v", err)
		}
		levels = append(levels, q.Value)
	}
	return levels, nil
}

// between returns even steps from one level to another.
func between(bottom, top float64, steps int) []float64 {
	levels := make([]float64, 0, steps+1)
	for i := 0; i <= steps; i++ {
		share := float64(i) / float64(steps)
		levels = append(levels, bottom*(1-share)+top*share)
	}
	return levels
}

func dip(contents *volume.Contents, levels []float64, steps int) dipAnswer {
	if len(levels) == 0 {
		levels = between(contents.Bottom, contents.Top, steps)
	}
	answer := dipAnswer{Error: number(contents.Error())}
	for _, h := range levels {
		centre := contents.Centroid(h)
		answer.Rows = append(answer.Rows, dipRow{
			Level: number(h), Litres: number(contents.Litres(h)), Surface: number(contents.Surface(h) / 100),
			Centre: [3]number{number(centre.X), number(centre.Y), number(centre.Z)},
			Moment: number(contents.SurfaceMoment(h, contents.Forward) / 1e4),
		})
	}
	return answer
}

func (a dipAnswer) write(w io.Writer, tank *tanks.Tank, contents *volume.Contents, sys quantity.System) {
	fmt.Fprintf(w, "%s\n%s The level is plumb above the origin of the tank frame.\n\n", tank.Name, attitudeWords(contents.Attitude, tank.Mount))
	g := grid{heads: []string{"level " + sys.Length.Symbol, sys.Volume.Symbol, "surface " + sys.Area.Symbol}}
	for _, r := range a.Rows {
		g.add(sys.Length.Finer(1).Number(float64(r.Level)), sys.Volume.Number(float64(r.Litres)), sys.Area.Number(100*float64(r.Surface)))
	}
	g.write(w)
}

// attitudeWords says how the vehicle stands, and that the tank's own mounting
// comes on top.
func attitudeWords(a geometry.Attitude, m geometry.Mount) string {
	words := "Vehicle on level ground"
	if a != (geometry.Attitude{}) {
		words = "Vehicle with " + tiltsWords(a.NoseUp, a.LeftUp)
	}
	if m == (geometry.Mount{}) {
		return words + "."
	}
	if m.NoseUp != 0 || m.LeftUp != 0 {
		words += "; in it the tank sits " + tiltsWords(m.NoseUp, m.LeftUp)
	} else {
		words += "; in it the tank sits level"
	}
	if m.Heading != 0 {
		words += fmt.Sprintf(", turned %s° to the left in plan", quantity.Fixed(m.Heading, 1))
	}
	return words + "."
}

// tiltsWords tells the tilts that there are.
func tiltsWords(nose, left float64) string {
	up, side := tiltWords(nose, "nose up", "nose down"), tiltWords(left, "left side up", "right side up")
	switch {
	case left == 0:
		return up
	case nose == 0:
		return side
	}
	return up + " and " + side
}

func tiltWords(degrees float64, up, down string) string {
	if degrees < 0 {
		return fmt.Sprintf("%s by %s°", down, quantity.Fixed(-degrees, 2))
	}
	return fmt.Sprintf("%s by %s°", up, quantity.Fixed(degrees, 2))
}
