package main

import (
	"fmt"
	"io"
	"math"
	"strings"

	"floatarc/geometry"
	"floatarc/tanks"
	"floatarc/tanks/quantity"
)

// A soundingRow is the litres at one level and one attitude.
type soundingRow struct {
	NoseUp number `json:"nose_up_deg"`
	LeftUp number `json:"left_up_deg"`
	Level  number `json:"level_mm"`
	Litres number `json:"litres"`
}

type soundingAnswer struct {
	Rows []soundingRow `json:"rows"`

	levels           []float64
	noseUps, leftUps angles
}

// mostSoundings is the greatest number of cells of a table.
const mostSoundings = 1_000_000

// soundings returns the litres for the same levels at every pair of attitudes.
// Without levels it takes even steps from the lowest point at any of them to the
// highest.
func soundings(tank *tanks.Tank, levels []float64, steps int, noseUps, leftUps angles) (soundingAnswer, error) {
	if n := len(noseUps) * len(leftUps) * max(len(levels), steps+1); n > mostSoundings {
		return soundingAnswer{}, misusef("a table of %d cells, expected at most %d", n, mostSoundings)
	}
	var attitudes []geometry.Attitude
	for _, nose := range noseUps {
		for _, left := range leftUps {
			attitudes = append(attitudes, geometry.Attitude{NoseUp: nose, LeftUp: left})
		}
	}
	if len(levels) == 0 {
		bottom, top := math.Inf(1), math.Inf(-1)
		for _, a := range attitudes {
			low, high, err := tank.Extent(a)
			if err != nil {
				return soundingAnswer{}, err
			}
			bottom, top = min(bottom, low), max(top, high)
		}
		levels = between(bottom, top, steps)
	}
	answer := soundingAnswer{levels: levels, noseUps: noseUps, leftUps: leftUps}
	for _, a := range attitudes {
		c, err := tank.At(a)
		if err != nil {
			return soundingAnswer{}, err
		}
		for _, h := range levels {
			answer.Rows = append(answer.Rows, soundingRow{number(a.NoseUp), number(a.LeftUp), number(h), number(c.Litres(h))})
		}
	}
	return answer, nil
}

// write prints a table of level by nose up for each left up.
func (a soundingAnswer) write(w io.Writer, tank *tanks.Tank, sys quantity.System) {
	fmt.Fprintf(w, "%s\n%s by level (plumb above the origin of the tank frame) and attitude.\n", tank.Name, sys.Volume.Symbol)
	for j, left := range a.leftUps {
		side := "Level from side to side"
		if left != 0 {
			side = capital(tiltWords(left, "left side up", "right side up"))
		}
		fmt.Fprintf(w, "\n%s; front higher than rear by:\n", side)
		g := grid{heads: []string{"level " + sys.Length.Symbol}}
		for _, nose := range a.noseUps {
			g.heads = append(g.heads, quantity.Fixed(nose, 1)+"°")
		}
		for k, h := range a.levels {
			cells := []string{sys.Length.Finer(1).Number(h)}
			for i := range a.noseUps {
				row := (i*len(a.leftUps)+j)*len(a.levels) + k
				cells = append(cells, sys.Volume.Number(float64(a.Rows[row].Litres)))
			}
			g.add(cells...)
		}
		g.write(w)
	}
}

// angles is a flag that takes a list of angles as people write them.
type angles []float64

// mostAngles is the longest list.
const mostAngles = 181

func (a *angles) Set(text string) error {
	var out angles
	for _, part := range strings.Split(text, ",") {
		var one angle
		if err := one.Set(strings.TrimSpace(part)); err != nil {
			return err
		}
		out = append(out, float64(one))
	}
	if len(out) > mostAngles {
		return fmt.Errorf("%d angles, expected at most %d", len(out), mostAngles)
	}
	*a = out
	return nil
}

func (a *angles) String() string {
	var words []string
	for _, x := range *a {
		words = append(words, fmt.Sprintf("%g", x))
	}
	return strings.Join(words, ",")
}

func (a *angles) Type() string { return "ANGLES" }
